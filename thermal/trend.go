package thermal

import (
	"errors"
	"fmt"
	"math"
	"time"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
)

// Why a warm-up or cool-down gives no answer; wrapped by the errors of [Trend],
// so that a caller can go on measuring or give up.
var (
	ErrTooFewReadings = errors.New("too few readings")
	ErrTimeOrder      = errors.New("times do not increase")
	ErrPlateau        = errors.New("reading and plateau do not fit")
	ErrTargetOutside  = errors.New("target outside the course")
	ErrLostInNoise    = errors.New("slope lost in the noise")
)

// Figures of the method, our judgement unless said otherwise.
const (
	fewestReadings = 3    // two give no scatter
	coverage       = 0.95 // of the intervals; common practice
	clearOfPlateau = 5    // standard deviations a reading must stand clear of the plateau: nearer, its logarithm is biased
)

// Course is what is known of a warm-up or cool-down before the first reading.
// Early readings fix a temperature and a slope, not where the curve ends, so
// the plateau must come from outside: what the box usually settles at, or the
// air around it when it cools. Fitting it as well gave no answer in 15 % of
// trials (computed).
type Course struct {
	PlateauLow  units.Temperature      // where it settles, as this thermometer would show it
	PlateauHigh units.Temperature      // the same, where only a range is known; zero: exactly PlateauLow
	Scatter     units.TemperatureDelta // standard deviation of one reading; zero: taken from the readings
	Offset      units.TemperatureDelta // ± of the thermometer that more readings do not help
}

// Trend follows the readings of a warm-up or cool-down and is fitted anew as
// each comes in, at the same cost however many there are. It is an immutable
// value: Add returns a longer one. The zero value has no course and refuses
// readings; start with Follow.
type Trend struct {
	course  Course
	n       int
	cooling bool
	last    time.Duration
	fits    [3]fit // for the low end, the middle and the high end of the plateau
}

// Follow returns a trend without readings. A plateau missing, upside down or
// out of range, and a negative scatter or offset are errors.
func Follow(c Course) (Trend, error) {
	if c.PlateauHigh.IsZero() {
		c.PlateauHigh = c.PlateauLow
	}
	var faults []error
	if !c.PlateauLow.Valid() || !c.PlateauHigh.Valid() || c.PlateauLow.IsZero() || c.PlateauLow.Compare(c.PlateauHigh) > 0 {
		faults = append(faults, fmt.Errorf("thermal: trend: plateau %s to %s; want a temperature, or a low and a high one", c.PlateauLow, c.PlateauHigh))
	}
	for _, d := range []struct {
		name string
		of   units.TemperatureDelta
	}{{"scatter", c.Scatter}, {"offset", c.Offset}} {
		if !d.of.Valid() || d.of.Sign() < 0 {
			faults = append(faults, fmt.Errorf("thermal: trend: %s %s; want 0 or more", d.name, d.of))
		}
	}
	if err := errors.Join(faults...); err != nil {
		return Trend{}, err
	}
	t := Trend{course: c}
	half := c.PlateauHigh.Sub(c.PlateauLow).Scale(0.5)
	for i, p := range [3]units.Temperature{c.PlateauLow, c.PlateauLow.Add(half), c.PlateauHigh} {
		t.fits[i].plateau = p
	}
	return t, nil
}

// Readings returns how many readings the trend holds.
func (t Trend) Readings() int { return t.n }

// Add returns the trend with one reading more, taken at the time after the
// start of the clock the caller keeps: 0 to 1000 h, later than the reading
// before. The first reading decides whether it warms or cools; a reading inside
// the range of the plateau, past it, or within five scatters of it is refused
// with [ErrPlateau]: it can say nothing about the time still needed. A refused
// reading changes nothing: the trend comes back as it was.
func (t Trend) Add(at time.Duration, reading units.Temperature) (Trend, error) {
	if t.course.PlateauLow.IsZero() {
		return t, fmt.Errorf("thermal: trend: no course (zero Trend); want one from Follow")
	}
	if !reading.Valid() || reading.IsZero() {
		return t, fmt.Errorf("thermal: trend: reading %s; want a measured temperature", reading)
	}
	if at < 0 || at > longestCourse {
		return t, fmt.Errorf("thermal: trend: reading at %s: %w; want 0 to 1000 h", at, ErrTimeOrder)
	}
	if t.n > 0 && at <= t.last {
		return t, fmt.Errorf("thermal: trend: reading at %s after one at %s: %w; want a later one", at, t.last, ErrTimeOrder)
	}
	longer := t
	if t.n == 0 {
		longer.cooling = reading.Compare(t.course.PlateauHigh) > 0
	}
	if err := longer.clear(reading); err != nil {
		return t, err
	}
	for i := range longer.fits {
		longer.fits[i].add(at.Seconds(), longer.gap(i, reading))
	}
	longer.n, longer.last = t.n+1, at
	return longer, nil
}

// gap is how far the reading has still to go to the plateau, positive on the
// way there.
func (t Trend) gap(i int, reading units.Temperature) float64 {
	d := t.fits[i].plateau.Sub(reading).In(units.CelsiusDegree)
	if t.cooling {
		return -d
	}
	return d
}

func (t Trend) clear(reading units.Temperature) error {
	nearest := 0
	if t.cooling {
		nearest = 2
	}
	need := clearOfPlateau * t.course.Scatter.In(units.CelsiusDegree)
	if g := t.gap(nearest, reading); g <= need {
		way := "below"
		if t.cooling {
			way = "above"
		}
		return fmt.Errorf("thermal: trend: reading %s, plateau %s to %s: %w; want a reading at least five scatters %s it, or a better plateau",
			reading, t.course.PlateauLow, t.course.PlateauHigh, ErrPlateau, way)
	}
	return nil
}

// fit keeps the running sums of one plateau: ln(gap) runs straight in time,
// weighted by gap² because a reading's scatter weighs less far from the
// plateau. Sums are kept about their means, so that a long series loses no
// digits.
type fit struct {
	plateau       units.Temperature
	weight        float64 // Σw, K²
	seconds, log  float64 // weighted means of time and ln(gap)
	sxx, sxy, syy float64 // weighted sums of squares and products about the means
}

func (f *fit) add(seconds, gap float64) {
	w, y := float64(gap*gap), elementary.Log(gap)
	total := f.weight + w
	dx, dy := seconds-f.seconds, y-f.log
	share := w / total
	f.seconds += float64(dx * share)
	f.log += float64(dy * share)
	f.sxx += float64(w * dx * (seconds - f.seconds))
	f.sxy += float64(w * dx * (y - f.log))
	f.syy += float64(w * dy * (y - f.log))
	f.weight = total
}

// line is the fitted course of one plateau: ln(gap) = log - rate·(t - seconds).
type line struct {
	fit
	rate     float64 // 1/τ per second, positive towards the plateau
	variance float64 // K², of one reading
	k        float64 // coverage factor
}

// lines fits all three plateaus, or says why one of them cannot be.
func (t Trend) lines() (lines [3]line, err error) {
	if t.n < fewestReadings {
		return lines, fmt.Errorf("thermal: trend: %d readings: %w; want at least %d", t.n, ErrTooFewReadings, fewestReadings)
	}
	// Student's factor is most of the cost and the same for all three.
	student := elementary.StudentQuantile(1-(1-coverage)/2, float64(t.n-2))
	for i := range lines {
		if lines[i], err = t.line(i, student); err != nil {
			return lines, err
		}
	}
	return lines, nil
}

// line fits one plateau, or says why not.
func (t Trend) line(i int, student float64) (line, error) {
	f := t.fits[i]
	l := line{fit: f, rate: -f.sxy / f.sxx, k: student}
	l.variance = math.Max(0, f.syy+float64(l.rate*f.sxy)) / float64(t.n-2)
	if s := t.course.Scatter.In(units.CelsiusDegree); s*s >= l.variance && s > 0 {
		l.variance = s * s
		l.k = elementary.NormalQuantile(1 - (1-coverage)/2)
	}
	if !(l.rateDoubt() < math.Abs(l.rate)) {
		return line{}, fmt.Errorf("thermal: trend: over %d readings the slope is less than its doubt: %w; want more readings, further apart", t.n, ErrLostInNoise)
	}
	if l.rate < 0 {
		return line{}, fmt.Errorf("thermal: trend: the readings move away from the plateau: %w; want a plateau on the side they move to", ErrPlateau)
	}
	return l, nil
}

// rateDoubt is the half-width of the rate's interval.
func (l line) rateDoubt() float64 { return float64(l.k * math.Sqrt(l.variance/l.sxx)) }

// reach returns when the gap has shrunk to the given one: best, and the ends of
// the interval by Fieller's theorem, in seconds. The slope is known to stand
// clear of its doubt, so that the interval is one piece.
func (l line) reach(gap float64) (early, best, late float64) {
	d := l.log - elementary.Log(gap)
	best = l.seconds + d/l.rate
	q := l.k * l.k * l.variance
	a := float64(l.rate*l.rate) - q/l.sxx
	root := math.Sqrt(q * (float64(d*d)/l.sxx + a/l.weight))
	early = l.seconds + (float64(d*l.rate)-root)/a
	late = l.seconds + (float64(d*l.rate)+root)/a
	return early, best, late
}

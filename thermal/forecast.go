package thermal

import (
	"fmt"
	"math"
	"time"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
)

// span returns when the target is passed: best for the middle of the plateau,
// the ends the widest over the plateaus and the thermometer's offset.
func (t Trend) span(lines [3]line, target units.Temperature) span {
	offset := t.course.Offset.In(units.CelsiusDegree)
	s := span{never, never, -never}
	for i, l := range lines {
		gap := t.gap(i, target)
		if gap+offset > 0 {
			early, _, _ := l.reach(gap + offset)
			s.early = math.Min(s.early, early)
		}
		if gap > 0 && i == 1 {
			_, s.best, _ = l.reach(gap)
		}
		if gap-offset > 0 {
			_, _, late := l.reach(gap - offset)
			s.late = math.Max(s.late, late)
		} else {
			s.late = never
		}
	}
	return s
}

// Reach returns when the target temperature is passed, as an interval: the
// scatter of the readings (Fieller's theorem, 95 %), the range of the plateau
// and the thermometer's offset together. The far end is Never where the
// plateau or the offset may keep the target out of reach. Use it for a
// cool-down to the temperature of an earlier measurement. It is an error when
// the readings cannot say: see the errors beginning with [ErrTooFewReadings]. A
// target at or beyond the middle of the plateau, or passed before the start of
// the clock, wraps [ErrTargetOutside].
func (t Trend) Reach(target units.Temperature) (Moment, error) {
	lines, err := t.lines()
	if err != nil {
		return Moment{}, err
	}
	if !target.Valid() || target.IsZero() {
		return Moment{}, fmt.Errorf("thermal: trend: target %s; want a temperature", target)
	}
	s := t.span(lines, target)
	if s.best < 0 {
		return Moment{}, fmt.Errorf("thermal: trend: target %s was passed before the start: %w", target, ErrTargetOutside)
	}
	m := s.moment()
	if m.Best == Never {
		return Moment{}, fmt.Errorf("thermal: trend: target %s: %w; it settles at about %s", target, ErrTargetOutside, celsius(lines[1].plateau))
	}
	return m, nil
}

// Estimate is a temperature with its 95 % interval.
type Estimate struct {
	Low, Best, High units.Temperature
}

// At returns the temperature the thermometer will show, or would have shown, at
// the time elapsed, 0 to 1000 h: the fitted course without the scatter of one
// reading. Errors as Reach's.
func (t Trend) At(elapsed time.Duration) (Estimate, error) {
	lines, err := t.lines()
	if err != nil {
		return Estimate{}, err
	}
	if elapsed < 0 || elapsed > longestCourse {
		return Estimate{}, fmt.Errorf("thermal: trend: time %s; want 0 to 1000 h", elapsed)
	}
	var e Estimate
	for i, l := range lines {
		nearer, best, farther := l.gapAt(elapsed.Seconds())
		low, high := t.short(l, farther), t.short(l, nearer)
		if t.cooling {
			low, high = high, low
		}
		if i == 0 || low.Compare(e.Low) < 0 {
			e.Low = low
		}
		if i == 0 || high.Compare(e.High) > 0 {
			e.High = high
		}
		if i == 1 {
			e.Best = t.short(l, best)
		}
	}
	if !e.Low.Valid() || !e.Best.Valid() || !e.High.Valid() {
		return Estimate{}, fmt.Errorf("thermal: trend: temperature at %s: %w", elapsed, units.ErrOutOfRange)
	}
	return e, nil
}

// gapAt returns the gap left at a time, and its interval.
func (l line) gapAt(seconds float64) (nearer, best, farther float64) {
	d := seconds - l.seconds
	y := l.log - float64(l.rate*d)
	half := float64(l.k * math.Sqrt(l.variance*(1/l.weight+float64(d*d)/l.sxx)))
	return elementary.Exp(y - half), elementary.Exp(y), elementary.Exp(y + half)
}

// short is the temperature that lies a gap short of the plateau.
func (t Trend) short(l line, gap float64) units.Temperature {
	d := units.CelsiusDegree.Of(gap)
	if !t.cooling {
		d = d.Neg()
	}
	return l.plateau.Add(d)
}

// Fit is what the readings say of the course itself.
type Fit struct {
	Readings       int
	Cooling        bool
	Start          units.Temperature // at the start of the clock
	Plateau        units.Temperature // middle of the range given
	Tau            time.Duration     // time constant
	TauLow, TauTop time.Duration     // its 95 % interval, over the range of the plateau
	Scatter        units.TemperatureDelta
}

// Fit returns the fitted course. Scatter is the standard deviation used: the
// one given, or the readings' own where that is larger. Errors as Reach's.
func (t Trend) Fit() (Fit, error) {
	lines, err := t.lines()
	if err != nil {
		return Fit{}, err
	}
	return t.fitted(lines)
}

func (t Trend) fitted(lines [3]line) (Fit, error) {
	mid := lines[1]
	_, gap, _ := mid.gapAt(0)
	f := Fit{
		Readings: t.n, Cooling: t.cooling, Start: t.short(mid, gap), Plateau: mid.plateau,
		Tau: sinceStart(1 / mid.rate), TauLow: Never, Scatter: units.CelsiusDegree.Of(math.Sqrt(mid.variance)),
	}
	for _, l := range lines {
		f.TauLow = min(f.TauLow, sinceStart(1/(l.rate+l.rateDoubt())))
		f.TauTop = max(f.TauTop, sinceStart(1/(l.rate-l.rateDoubt())))
	}
	if !f.Start.Valid() {
		return Fit{}, fmt.Errorf("thermal: trend: temperature at the start: %w", units.ErrOutOfRange)
	}
	return f, nil
}

// Forecast is when the fluid passes through a window, since the start of the
// caller's clock.
type Forecast struct {
	Opens  Moment // when it enters; zeros: it was inside at the start
	Closes Moment // when it leaves; Never: it may settle inside

	fit            Fit
	window         Window
	first, through units.Temperature // ends of the window in the order they are passed
}

// Forecast returns when the fluid enters and leaves the window, as Reach does
// for each end. Ask Opens.After(now) for how long still to wait and
// Closes.After(now).Earliest for the time surely left. Errors as Reach's, and
// a window that Check refuses; a course that settles before the window, or had
// passed it at the start, wraps [ErrTargetOutside].
func (t Trend) Forecast(w Window) (Forecast, error) {
	if err := w.Check(); err != nil {
		return Forecast{}, err
	}
	lines, err := t.lines()
	if err != nil {
		return Forecast{}, err
	}
	f := Forecast{window: w, first: w.Low, through: w.High}
	if t.cooling {
		f.first, f.through = w.High, w.Low
	}
	f.Opens = t.span(lines, f.first).moment()
	if f.Opens.Best == Never {
		return Forecast{}, fmt.Errorf("thermal: trend: window %s to %s: %w; it settles at about %s", w.Low, w.High, ErrTargetOutside, celsius(lines[1].plateau))
	}
	leaves := t.span(lines, f.through)
	if leaves.best < 0 {
		return Forecast{}, fmt.Errorf("thermal: trend: window %s to %s: %w; it was passed before the start", w.Low, w.High, ErrTargetOutside)
	}
	f.Closes = leaves.moment()
	f.fit, err = t.fitted(lines)
	return f, err
}

package thermal

import (
	"errors"
	"math"
	"testing"
	"time"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

func follow(t testing.TB, c Course) Trend {
	t.Helper()
	tr, err := Follow(c)
	if err != nil {
		t.Fatal(err)
	}
	return tr
}

func added(t testing.TB, tr Trend, minutes, fahrenheit float64) Trend {
	t.Helper()
	longer, err := tr.Add(time.Duration(math.Round(minutes*60e9)), units.Fahrenheit(fahrenheit))
	if err != nil {
		t.Fatal(err)
	}
	return longer
}

// TestThreeReadings: 75, 94.033271 and 109.616395 °F five minutes apart lie on a
// course to 180 °F with τ 25 min; the plateau of three equal steps is
// (T0·T2 - T1²)/(T0 + T2 - 2·T1) (formula seen), which also makes sure that the
// row is what it says.
func TestThreeReadings(t *testing.T) {
	row := published.Load(t, "thermal_vectors").Find("quantity", "three equal-step readings")
	if row.Text("inputs") != "75.000000,94.033271,109.616395 at 0,5,10 min" || row.Text("expected") != "Tinf=180.000;tau=25.000 min" {
		t.Fatalf("the row now says %q, %q", row.Text("inputs"), row.Text("expected"))
	}
	t0, t1, t2 := 75.0, 94.033271, 109.616395
	near(t, "plateau", (t0*t2-t1*t1)/(t0+t2-2*t1), 180, tolerance(t, row))

	tr := follow(t, Course{PlateauLow: units.Fahrenheit(180)})
	tr = added(t, added(t, added(t, tr, 0, t0), 5, t1), 10, t2)
	fit, err := tr.Fit()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "τ", fit.Tau.Minutes(), 25, tolerance(t, row))
	near(t, "start", fit.Start.Fahrenheit(), 75, 1e-4)
	if fit.Cooling || fit.Readings != 3 {
		t.Errorf("%+v", fit)
	}
	// The same course as the vector "time to target".
	f, err := tr.Forecast(Window{Low: units.Fahrenheit(97), High: units.Fahrenheit(115)})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "opens", f.Opens.Best.Minutes(), 5.8782, 1e-3)
	near(t, "closes", f.Closes.Best.Minutes(), 11.9894, 1e-3)
}

// batch is the slow way: weighted least squares over all readings at once, with
// the normal equations written out.
func batch(plateau float64, seconds, temps []float64) (a, b, rss float64) {
	var w, wt, wtt, wy, wty float64
	for i, s := range seconds {
		g := plateau - temps[i]
		y, g2 := math.Log(math.Abs(g)), g*g
		w += g2
		wt += g2 * s
		wtt += g2 * s * s
		wy += g2 * y
		wty += g2 * s * y
	}
	det := w*wtt - wt*wt
	a, b = (wtt*wy-wt*wty)/det, (w*wty-wt*wy)/det
	for i, s := range seconds {
		g := plateau - temps[i]
		e := math.Log(math.Abs(g)) - a - b*s
		rss += g * g * e * e
	}
	return a, b, rss
}

// TestTrendSlow: the running fit equals the batch fit, warming and cooling.
func TestTrendSlow(t *testing.T) {
	r := rand01(41)
	for trial := range 50 {
		plateau, start := 82.0, 24.0
		if trial%2 == 1 {
			plateau, start = 18.0, 70.0
		}
		tr := follow(t, Course{PlateauLow: units.Celsius(plateau)})
		var seconds, temps []float64
		for i := range 12 {
			s := float64(30*i) + math.Round(r.between(0, 20))
			c := math.Round(100*(plateau-(plateau-start)*math.Exp(-s/1500)+0.2*r.normal())) / 100
			longer, err := tr.Add(time.Duration(s)*time.Second, units.Celsius(c))
			if err != nil {
				t.Fatal(err)
			}
			tr, seconds, temps = longer, append(seconds, s), append(temps, c)
		}
		a, b, rss := batch(plateau, seconds, temps)
		lines, err := tr.lines()
		if err != nil {
			t.Fatal(err)
		}
		l := lines[1]
		near(t, "rate", l.rate, -b, 1e-9*math.Abs(b))
		near(t, "log", l.log+l.rate*l.seconds, a, 1e-10)
		near(t, "variance", l.variance, rss/10, 1e-6*rss)
		target := (plateau + start) / 2
		m, err := tr.Reach(units.Celsius(target))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "best", m.Best.Seconds(), (math.Log(math.Abs(plateau-target))-a)/b, 1e-4)
		checkFieller(t, l, math.Abs(plateau-target), m)
	}
}

// checkFieller: at both ends of the interval the fitted course is just k
// standard uncertainties away from the target; that is what Fieller's theorem
// says, by a formula that does not solve for the ends.
func checkFieller(t *testing.T, l line, gap float64, m Moment) {
	t.Helper()
	for _, end := range []time.Duration{m.Earliest, m.Latest} {
		d := end.Seconds() - l.seconds
		away := math.Abs(l.log - l.rate*d - math.Log(gap))
		u := math.Sqrt(l.variance * (1/l.weight + d*d/l.sxx))
		near(t, "standard uncertainties away", away/u, l.k, 1e-4)
	}
	if !(m.Earliest < m.Best && m.Best < m.Latest) {
		t.Errorf("interval %s", m)
	}
}

// TestTrendCoverage: of many noisy courses, about 95 % of the intervals hold
// the true time, with the scatter given and with it taken from the readings.
func TestTrendCoverage(t *testing.T) {
	truth := Lumped{units.Celsius(24), units.Celsius(82), 25 * time.Minute}
	target := units.Celsius(41)
	at, err := truth.Reach(target)
	if err != nil {
		t.Fatal(err)
	}
	for _, scatter := range []float64{0, 0.3} {
		r := rand01(51)
		const trials = 1000
		held, refused := 0, 0
		for range trials {
			tr := follow(t, Course{PlateauLow: truth.Plateau, Scatter: units.CelsiusDegree.Of(scatter)})
			for i := range 6 {
				elapsed := time.Duration(i) * time.Minute
				c, err := truth.At(elapsed)
				if err != nil {
					t.Fatal(err)
				}
				if tr, err = tr.Add(elapsed, c.Add(units.CelsiusDegree.Of(0.3*r.normal()))); err != nil {
					t.Fatal(err)
				}
			}
			m, err := tr.Reach(target)
			switch {
			case errors.Is(err, ErrLostInNoise):
				refused++
			case err != nil:
				t.Fatal(err)
			case m.Earliest <= at && at <= m.Latest:
				held++
			}
		}
		if share := float64(held) / float64(trials-refused); refused > trials/50 || share < 0.93 || share > 0.98 {
			t.Errorf("scatter %v: %v of the intervals hold the truth, %d refused", scatter, share, refused)
		}
	}
}

// TestPlateauRange: a range of plateaus widens the interval to hold what each
// end says by itself, and an offset of the thermometer widens it further.
func TestPlateauRange(t *testing.T) {
	build := func(c Course) Trend {
		tr := follow(t, c)
		for i, f := range []float64{75, 79.1, 83.0, 86.9, 90.4} {
			tr = added(t, tr, float64(i), f)
		}
		return tr
	}
	reach := func(tr Trend) Moment {
		m, err := tr.Reach(units.Fahrenheit(110))
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	low := reach(build(Course{PlateauLow: units.Fahrenheit(165)}))
	high := reach(build(Course{PlateauLow: units.Fahrenheit(195)}))
	both := build(Course{PlateauLow: units.Fahrenheit(165), PlateauHigh: units.Fahrenheit(195)})
	m := reach(both)
	if m.Earliest != min(low.Earliest, high.Earliest) || m.Latest != max(low.Latest, high.Latest) {
		t.Errorf("%s, alone %s and %s", m, low, high)
	}
	if high.Best >= low.Best {
		t.Errorf("a higher plateau must come sooner: %s, %s", high, low)
	}
	shifted := reach(build(Course{PlateauLow: units.Fahrenheit(165), PlateauHigh: units.Fahrenheit(195), Offset: units.FahrenheitDegree.Of(2)}))
	if shifted.Best != m.Best || shifted.Earliest >= m.Earliest || shifted.Latest <= m.Latest {
		t.Errorf("with an offset %s, without %s", shifted, m)
	}
	// A target between the ends of the plateau may never come.
	far, err := both.Reach(units.Fahrenheit(170))
	if err != nil || far.Latest != Never || far.Best == Never {
		t.Errorf("170 °F: %s, %v", far, err)
	}
	if _, err := both.Reach(units.Fahrenheit(185)); !errors.Is(err, ErrTargetOutside) {
		t.Errorf("185 °F: %v", err)
	}
}

// TestAt: the estimate runs through the readings of an exact course, and holds
// them in a noisy one.
func TestAt(t *testing.T) {
	truth := Lumped{units.Celsius(70), units.Celsius(20), 40 * time.Minute}
	tr := follow(t, Course{PlateauLow: truth.Plateau, Scatter: units.CelsiusDegree.Of(0.2)})
	for i := range 8 {
		c, err := truth.At(time.Duration(i) * time.Minute)
		if err != nil {
			t.Fatal(err)
		}
		if tr, err = tr.Add(time.Duration(i)*time.Minute, c); err != nil {
			t.Fatal(err)
		}
	}
	for _, elapsed := range []time.Duration{0, 4 * time.Minute, time.Hour} {
		e, err := tr.At(elapsed)
		if err != nil {
			t.Fatal(err)
		}
		want, _ := truth.At(elapsed)
		near(t, elapsed.String(), e.Best.Celsius(), want.Celsius(), 1e-6)
		if e.Low.Compare(e.Best) >= 0 || e.High.Compare(e.Best) <= 0 {
			t.Errorf("%s: %s, %s, %s", elapsed, e.Low, e.Best, e.High)
		}
	}
	if _, err := tr.At(-1); err == nil {
		t.Error("before the start")
	}
	if _, err := tr.At(longestCourse + 1); err == nil {
		t.Error("after 1000 h")
	}
}

// TestForecastEnds: inside from the start, settling inside, cooling through,
// never reaching, and passed already.
func TestForecastEnds(t *testing.T) {
	course := func(start, plateau float64) Trend {
		truth := Lumped{units.Celsius(start), units.Celsius(plateau), 20 * time.Minute}
		tr := follow(t, Course{PlateauLow: truth.Plateau})
		for i := range 5 {
			c, err := truth.At(time.Duration(i) * time.Minute)
			if err != nil {
				t.Fatal(err)
			}
			if tr, err = tr.Add(time.Duration(i)*time.Minute, c); err != nil {
				t.Fatal(err)
			}
		}
		return tr
	}
	w := Window{Low: units.Celsius(36), High: units.Celsius(46)}
	forecast := func(start, plateau float64) Forecast {
		f, err := course(start, plateau).Forecast(w)
		if err != nil {
			t.Fatalf("%v to %v °C: %v", start, plateau, err)
		}
		return f
	}
	if f := forecast(38, 82); f.Opens != (Moment{}) || f.Closes.Best <= 0 {
		t.Errorf("inside from the start: %s, %s", f.Opens, f.Closes)
	}
	if f := forecast(20, 43); f.Opens.Best <= 0 || f.Closes != (Moment{Never, Never, Never}) {
		t.Errorf("settling inside: %s, %s", f.Opens, f.Closes)
	}
	cooling := forecast(70, 15)
	near(t, "enters at the high end", cooling.Opens.Best.Seconds(), 1200*math.Log(55.0/31), 1e-3)
	near(t, "leaves at the low end", cooling.Closes.Best.Seconds(), 1200*math.Log(55.0/21), 1e-3)
	for _, c := range [][2]float64{{20, 35}, {50, 82}, {30, 15}, {70, 50}} {
		if _, err := course(c[0], c[1]).Forecast(w); !errors.Is(err, ErrTargetOutside) {
			t.Errorf("%v to %v °C: %v", c[0], c[1], err)
		}
	}
	if _, err := course(20, 82).Forecast(Window{}); err == nil {
		t.Error("no window")
	}
	if (Forecast{}).Steps() != nil {
		t.Error("the zero Forecast has steps")
	}
	for _, f := range []Forecast{forecast(38, 82), forecast(20, 43), cooling} {
		if n := len(f.Steps()); n != 3 {
			t.Errorf("%d steps", n)
		}
	}
}

// TestTrendRefuses: every reason has its error, and a refused reading changes nothing.
func TestTrendRefuses(t *testing.T) {
	f, minute := units.Fahrenheit, time.Minute
	tr := follow(t, Course{PlateauLow: f(170), PlateauHigh: f(180), Scatter: units.FahrenheitDegree.Of(1)})
	tr = added(t, added(t, tr, 0, 75), 5, 94)
	for _, c := range []struct {
		name    string
		at      time.Duration
		reading units.Temperature
		want    error
	}{
		{"the same time", 5 * minute, f(95), ErrTimeOrder},
		{"an earlier time", 4 * minute, f(95), ErrTimeOrder},
		{"negative time", -1, f(95), ErrTimeOrder},
		{"far too late", 1001 * time.Hour, f(95), ErrTimeOrder},
		{"past the plateau", 6 * minute, f(185), ErrPlateau},
		{"in the range of the plateau", 6 * minute, f(175), ErrPlateau},
		{"within five scatters of it", 6 * minute, f(165.5), ErrPlateau},
	} {
		got, err := tr.Add(c.at, c.reading)
		if !errors.Is(err, c.want) || got != tr {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	for _, bad := range []units.Temperature{{}, units.Celsius(math.NaN())} {
		if got, err := tr.Add(6*minute, bad); err == nil || got != tr {
			t.Errorf("reading %s accepted", bad)
		}
	}
	if _, err := tr.Reach(f(100)); !errors.Is(err, ErrTooFewReadings) {
		t.Errorf("two readings: %v", err)
	}
	if s, err := tr.ReachSteps(f(100)); s != nil || !errors.Is(err, ErrTooFewReadings) {
		t.Errorf("%v, %v", s, err)
	}
	if _, err := tr.Fit(); !errors.Is(err, ErrTooFewReadings) {
		t.Errorf("two readings: %v", err)
	}
	if _, err := tr.At(0); !errors.Is(err, ErrTooFewReadings) {
		t.Errorf("two readings: %v", err)
	}
	if _, err := tr.Forecast(exampleWindow()); !errors.Is(err, ErrTooFewReadings) {
		t.Errorf("two readings: %v", err)
	}
	three := added(t, tr, 10, 109)
	for _, target := range []units.Temperature{f(70), f(176), f(200)} {
		if _, err := three.Reach(target); !errors.Is(err, ErrTargetOutside) {
			t.Errorf("target %s: %v", target, err)
		}
	}
	for _, target := range []units.Temperature{{}, units.Celsius(math.NaN())} {
		if _, err := three.Reach(target); err == nil {
			t.Errorf("target %s accepted", target)
		}
	}

	flat := follow(t, Course{PlateauLow: f(180)})
	for i, x := range []float64{75, 76, 74, 75.5, 74.5} {
		flat = added(t, flat, float64(i), x)
	}
	if _, err := flat.Reach(f(100)); !errors.Is(err, ErrLostInNoise) {
		t.Errorf("flat: %v", err)
	}
	same := follow(t, Course{PlateauLow: f(180)})
	for i := range 4 {
		same = added(t, same, float64(i), 75)
	}
	if _, err := same.Reach(f(100)); !errors.Is(err, ErrLostInNoise) {
		t.Errorf("all the same: %v", err)
	}
	away := follow(t, Course{PlateauLow: f(180)})
	for i, x := range []float64{100, 95, 90.2, 85.1} {
		away = added(t, away, float64(i), x)
	}
	if _, err := away.Reach(f(110)); !errors.Is(err, ErrPlateau) {
		t.Errorf("moving away: %v", err)
	}
}

func TestFollowRefuses(t *testing.T) {
	c := units.Celsius
	for name, course := range map[string]Course{
		"zero":        {},
		"upside down": {PlateauLow: c(90), PlateauHigh: c(80)},
		"bad low":     {PlateauLow: c(math.NaN()), PlateauHigh: c(80)},
		"bad high":    {PlateauLow: c(80), PlateauHigh: c(math.NaN())},
		"scatter":     {PlateauLow: c(80), Scatter: units.CelsiusDegree.Of(-1)},
		"offset":      {PlateauLow: c(80), Offset: units.CelsiusDegree.Of(math.NaN())},
	} {
		if tr, err := Follow(course); err == nil || tr != (Trend{}) {
			t.Errorf("%s accepted", name)
		}
	}
	if tr, err := (Trend{}).Add(0, c(20)); err == nil || tr != (Trend{}) {
		t.Error("the zero Trend took a reading")
	}
	if (Trend{}).Readings() != 0 {
		t.Error("the zero Trend has readings")
	}
}

func TestMoment(t *testing.T) {
	m := Moment{Earliest: 4 * time.Minute, Best: 6 * time.Minute, Latest: Never}
	for _, c := range []struct {
		now  time.Duration
		want Moment
	}{
		{0, m},
		{5 * time.Minute, Moment{0, time.Minute, Never}},
		{time.Hour, Moment{0, 0, Never}},
		{-time.Hour, m},
		{math.MinInt64, m},
		{Never, Moment{0, 0, Never}},
	} {
		if got := m.After(c.now); got != c.want {
			t.Errorf("after %s: %s", c.now, got)
		}
	}
	if got := m.String(); got != "6 min (4 min to never)" {
		t.Error(got)
	}
}

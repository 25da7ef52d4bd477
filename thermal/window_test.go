package thermal

import (
	"math"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func exampleWindow() Window {
	return Window{Low: units.Fahrenheit(97), High: units.Fahrenheit(115), EngineIdling: true, Level: true}
}

func TestJudge(t *testing.T) {
	w := exampleWindow()
	f, step := units.Fahrenheit, units.FahrenheitDegree.Of
	for _, c := range []struct {
		name    string
		reading units.Temperature
		pm      units.TemperatureDelta
		want    measure.Verdict
	}{
		{"well inside", f(106), step(2), measure.Inside},
		{"well below", f(80), step(2), measure.Below},
		{"well above", f(130), step(2), measure.Above},
		{"straddles the low end", f(98), step(2), measure.Undecided},
		{"straddles the high end", f(114), step(2), measure.Undecided},
		{"below, but may be inside", f(96), step(2), measure.Undecided},
		{"above, but may be inside", f(116), step(2), measure.Undecided},
		{"reaches just to the low end", f(99), step(2), measure.Inside},
		{"reaches just to the high end", f(113), step(2), measure.Inside},
		{"touches the low end from below", f(95), step(2), measure.Undecided},
		{"touches the high end from above", f(117), step(2), measure.Undecided},
		{"wider than the window", f(106), step(20), measure.Undecided},
		{"exact, on the low end", f(97), step(0), measure.Inside},
		{"exact, on the high end", f(115), step(0), measure.Inside},
		{"exact, a tick below", units.Celsius(36.111111111), step(0), measure.Below},
		{"exact, above", f(115.000001), step(0), measure.Above},
		{"the low end in °C", f(97).Add(units.CelsiusDegree.Of(1)), units.CelsiusDegree.Of(1), measure.Inside},
	} {
		got, err := w.Judge(c.reading, c.pm)
		if err != nil || got != c.want {
			t.Errorf("%s: %s, %v, want %s", c.name, got, err, c.want)
		}
	}
}

// TestJudgeSlow compares with the question asked point by point: are all the
// temperatures of the interval in the window, or all below, or all above?
func TestJudgeSlow(t *testing.T) {
	w := Window{Low: units.Celsius(36), High: units.Celsius(46)}
	for reading := 30; reading <= 52; reading++ {
		for pm := range 8 {
			in, below, above, all := 0, 0, 0, 0
			for x := reading - pm; x <= reading+pm; x++ {
				all++
				switch {
				case x < 36:
					below++
				case x > 46:
					above++
				default:
					in++
				}
			}
			want := measure.Undecided
			switch all {
			case in:
				want = measure.Inside
			case below:
				want = measure.Below
			case above:
				want = measure.Above
			}
			got, err := w.Judge(units.Celsius(float64(reading)), units.CelsiusDegree.Of(float64(pm)))
			if err != nil || got != want {
				t.Errorf("%d ± %d: %s, %v, want %s", reading, pm, got, err, want)
			}
		}
	}
}

func TestJudgeRefuses(t *testing.T) {
	w := exampleWindow()
	ok, step := units.Fahrenheit(106), units.FahrenheitDegree.Of(2)
	for name, c := range map[string]struct {
		w       Window
		reading units.Temperature
		pm      units.TemperatureDelta
	}{
		"no window":    {Window{}, ok, step},
		"upside down":  {Window{Low: w.High, High: w.Low}, ok, step},
		"one point":    {Window{Low: w.Low, High: w.Low}, ok, step},
		"no low end":   {Window{High: w.High}, ok, step},
		"too hot":      {Window{Low: w.Low, High: units.Celsius(151)}, ok, step},
		"bad end":      {Window{Low: w.Low, High: units.Celsius(math.NaN())}, ok, step},
		"negative ±":   {w, ok, step.Neg()},
		"± range":      {w, ok, units.CelsiusDegree.Of(math.NaN())},
		"reading":      {w, units.Celsius(math.NaN()), step},
		"not measured": {w, units.Temperature{}, units.TemperatureDelta{}},
		"below zero K": {w, units.Celsius(-273), units.CelsiusDegree.Of(1)},
	} {
		if got, err := c.w.Judge(c.reading, c.pm); err == nil || got != measure.Undecided {
			t.Errorf("%s: %s, %v", name, got, err)
		}
	}
}

func TestMid(t *testing.T) {
	if got := exampleWindow().Mid(); got != units.Fahrenheit(106) {
		t.Errorf("%s", got)
	}
	if got := (Window{Low: units.Celsius(math.NaN()), High: units.Celsius(40)}).Mid(); got.Valid() {
		t.Errorf("mid of a broken window: %s", got)
	}
}

// TestJudgeMeasured: at 5 % risk the window 97 to 115 °F passes readings from
// 100.4 to 111.6 °F with an infrared thermometer good to ±2 °C, from 98.7 to
// 113.3 °F with a probe good to ±1 °C (computed elsewhere, normal).
func TestJudgeMeasured(t *testing.T) {
	w := exampleWindow()
	for _, c := range []struct{ plusMinus, low, high float64 }{{2, 100.4, 111.6}, {1, 98.7, 113.3}} {
		probe := measure.ContactProbe{ID: "probe", Tolerance: units.CelsiusDegree.Of(c.plusMinus)}
		judge := func(fahrenheit float64) measure.Decision {
			reading, err := probe.Read(units.Fahrenheit(fahrenheit))
			if err != nil {
				t.Fatal(err)
			}
			d, err := w.JudgeMeasured(reading, 0.05)
			if err != nil {
				t.Fatal(err)
			}
			return d
		}
		d := judge(106)
		near(t, "accept from", units.Celsius(d.AcceptLow-273.15).Fahrenheit(), c.low, 0.051)
		near(t, "accept to", units.Celsius(d.AcceptHigh-273.15).Fahrenheit(), c.high, 0.051)
		for fahrenheit, want := range map[float64]measure.Verdict{
			c.low + 0.1: measure.Inside, c.low - 0.1: measure.Undecided, 80: measure.Below,
			c.high - 0.1: measure.Inside, c.high + 0.1: measure.Undecided, 130: measure.Above,
		} {
			if got := judge(fahrenheit).Verdict; got != want {
				t.Errorf("±%v °C, %v °F: %s, want %s", c.plusMinus, fahrenheit, got, want)
			}
		}
	}
	ok := measure.TemperatureExactly(units.Fahrenheit(106))
	for name, do := range map[string]func() (measure.Decision, error){
		"window": func() (measure.Decision, error) { return Window{}.JudgeMeasured(ok, 0.05) },
		"risk 0": func() (measure.Decision, error) { return w.JudgeMeasured(ok, 0) },
		"risk":   func() (measure.Decision, error) { return w.JudgeMeasured(ok, math.NaN()) },
		"reading": func() (measure.Decision, error) {
			return w.JudgeMeasured(measure.TemperatureExactly(units.Celsius(math.NaN())), 0.05)
		},
		"unset": func() (measure.Decision, error) { return w.JudgeMeasured(measure.Temperature{}, 0.05) },
	} {
		if d, err := do(); err == nil || d.Verdict != measure.Undecided {
			t.Errorf("%s: %s, %v", name, d.Verdict, err)
		}
	}
}

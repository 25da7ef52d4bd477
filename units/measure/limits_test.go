package measure_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// What is refused, and by which name or number, counted from one as a reader does.
func TestFaultsAreNumberedFromOne(t *testing.T) {
	ok, bad := reading(t, 1), reading(t, math.MaxFloat64).Times(2)
	sum := func(x []float64) float64 { return x[0] + x[1] }
	propagate := func(inputs []measure.Input, slopes []float64, model func([]float64) float64) error {
		_, err := measure.Propagate(measure.Propagation{Inputs: inputs, Sensitivities: slopes, Model: model})
		return err
	}
	_, observed := measure.Observed("a", "", 1, 2, math.NaN())
	_, drawn := measure.Simulate(context.Background(), measure.Simulation{Model: sum, Draws: []func(*measure.Stream) float64{func(*measure.Stream) float64 { return 0 }, nil}, Trials: 10})
	for name, c := range map[string]struct {
		err  error
		want string
	}{
		"input":       {propagate([]measure.Input{{Name: "a", Of: ok}, {Name: "b", Of: bad}}, nil, sum), `input 2 ("b")`},
		"sensitivity": {propagate([]measure.Input{{Name: "a", Of: ok}, {Name: "b", Of: ok}}, []float64{1, math.Inf(1)}, sum), "sensitivity 2 is +Inf"},
		"slope": {propagate([]measure.Input{{Name: "a", Of: uncertain(t, "a", 1, 0.1, measure.Normal, 0)}, {Name: "b", Of: uncertain(t, "b", 0, 0.1, measure.Normal, 0)}}, nil,
			func(x []float64) float64 { return x[0] + 1e308*math.Sqrt(x[1]) }), `input 2 ("b")`},
		"observation": {observed, "observation 3 is NaN"},
		"draw":        {drawn, "draw 2 of 2 is nil"},
	} {
		if c.err == nil || !strings.Contains(c.err.Error(), c.want) {
			t.Errorf("%s: %v; want %q", name, c.err, c.want)
		}
	}
}

// Every limit from both sides.
func TestMeasureLimits(t *testing.T) {
	expanded := func(U, k float64) error { _, err := measure.FromExpanded(U, k); return err }
	table := func(n int) error {
		q := make([]float64, n)
		for i := range q {
			q[i] = float64(i)
		}
		_, err := measure.FromQuantiles("a", "", q)
		return err
	}
	flat := func(q ...float64) error { _, err := measure.FromQuantiles("a", "", q); return err }
	trials := func(n int, keep bool) error {
		done, cancel := context.WithCancel(context.Background())
		cancel() // so that what is taken is not run
		_, err := measure.Simulate(done, measure.Simulation{Inputs: four(t, measure.Normal, 1), Model: value, Trials: n, Keep: keep})
		if err != nil && strings.Contains(err.Error(), context.Canceled.Error()) {
			return nil
		}
		return err
	}
	limits := func(low, high float64) error {
		_, err := measure.Decide(measure.Limits{Low: low, High: high}, uncertain(t, "a", 1, 0.1, measure.Normal, 0), 0.05)
		return err
	}
	gun := func(tolerance, share float64) error {
		_, err := measure.Infrared{ID: "ir", Tolerance: units.CelsiusDegree.Of(tolerance), Share: share}.Read(units.Celsius(40))
		return err
	}
	jug := func(read, scale float64) error {
		_, err := measure.Jug{ID: "jug", Graduation: units.Millilitre.Of(50), ScaleError: scale, Capacity: units.Litre.Of(2)}.For("drain-1").Read(units.Litre.Of(read))
		return err
	}
	observed := func(x ...float64) error { _, err := measure.Observed("a", "", x...); return err }
	for name, tt := range map[string]struct{ taken, refused []error }{
		"coverage factor": {[]error{expanded(0, 2), expanded(1, 1e-3)}, []error{expanded(1, 0), expanded(1, -2), expanded(-1, 2), expanded(1, math.NaN()), expanded(1e300, 1e-300)}},
		"quantiles":       {[]error{table(2), table(4097)}, []error{table(1), table(4098), flat(1, 1), flat(2, 1), flat(math.NaN(), 1)}},
		"trials":          {[]error{trials(1, false)}, []error{trials(0, false), trials(-1, false), trials(math.MaxInt, false), trials(math.MaxInt, true)}},
		"limits":          {[]error{limits(1, 1), limits(0, 1)}, []error{limits(1.001, 1)}},
		"gun":             {[]error{gun(2, 0), gun(0, 0.02), gun(0, 0.999)}, []error{gun(0, 0), gun(0, 1), gun(-1, 0.02)}},
		"jug":             {[]error{jug(0, 0), jug(2, 0.02)}, []error{jug(-0.001, 0), jug(2.001, 0), jug(1, 1), jug(1, -0.1)}},
		"observations":    {[]error{observed(1, 2)}, []error{observed(1), observed()}},
	} {
		for i, err := range tt.taken {
			if err != nil {
				t.Errorf("%s, to be taken %d: %v", name, i+1, err)
			}
		}
		for i, err := range tt.refused {
			if err == nil {
				t.Errorf("%s, to be refused %d: taken", name, i+1)
			}
		}
	}
}

// Degrees of freedom by Welch-Satterthwaite where a known cause stands before the
// counted ones: u⁴/Σ(uᵢ⁴/νᵢ) with 3 known, 4 of 5 degrees: 5⁴/(4⁴/5) = 12.2 (by hand).
func TestKnownCausesDoNotCount(t *testing.T) {
	r := uncertain(t, "a", 0, 3, measure.Normal, 0).Plus(uncertain(t, "b", 0, 4, measure.Student, 5))
	near(t, "degrees of freedom", r.DoF(), 625/51.2, 1e-12)
	if r := reading(t, math.MaxFloat64).Times(2); r.DoF() != 0 {
		t.Errorf("a reading that is not valid has %v degrees of freedom", r.DoF())
	}
}

// A reading that is not valid is at no temperature.
func TestNoTemperature(t *testing.T) {
	bad := measure.TemperatureExactly(units.Celsius(math.NaN()))
	if bad.Best().Valid() {
		t.Errorf("%s", bad.Best())
	}
	// In °F the doubt is 1.8 times that in °C: ± 1 °C rectangular is 1/√3, 1.04 °F.
	r, err := measure.BoxSensor{ID: "s", Tolerance: units.CelsiusDegree.Of(1)}.Read(units.Celsius(40))
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Text(units.FahrenheitScale, 1); !strings.HasPrefix(got, "104.0 °F ± 1.0 °F") && !strings.Contains(got, "1.04") && !strings.Contains(got, "1.0") {
		t.Errorf("%s", got)
	}
}

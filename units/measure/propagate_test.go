package measure_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units/measure"
)

// Slopes of known functions, also where the estimate is zero, huge beside its
// doubt, or the doubt is tiny.
func TestNumericSensitivities(t *testing.T) {
	for _, c := range []struct {
		name     string
		x, u     float64
		model    func(x []float64) float64
		slope    float64
		relative float64
	}{
		{"square at 0", 0, 0.1, func(x []float64) float64 { return x[0] * x[0] }, 0, 0},
		{"line at 0", 0, 0.1, func(x []float64) float64 { return 3 * x[0] }, 3, 1e-12},
		{"reciprocal", 12, 0.8, func(x []float64) float64 { return 1 / x[0] }, -1.0 / 144, 1e-8},
		{"fourth power", 2, 0.5, func(x []float64) float64 { return x[0] * x[0] * x[0] * x[0] }, 32, 1e-13},
		{"small doubt", 5e7, 1e-6, func(x []float64) float64 { return 2 * x[0] }, 2, 1e-7},
		{"kelvin", 313.15, 0.01, func(x []float64) float64 { return x[0] * x[0] }, 626.3, 1e-9},
	} {
		in := measure.Input{Name: c.name, Of: uncertain(t, "a", c.x, c.u, measure.Normal, 0)}
		r, err := measure.Propagate(measure.Propagation{Inputs: []measure.Input{in}, Model: c.model})
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.name, r.U(), math.Abs(c.slope)*c.u, math.Abs(c.slope)*c.u*c.relative+1e-15)
	}
}

// A model may use its slice as scratch without spoiling what follows.
func TestModelMayScribble(t *testing.T) {
	p := measure.Propagation{
		Inputs: []measure.Input{{Of: uncertain(t, "a", 2, 0.1, measure.Normal, 0)}, {Of: uncertain(t, "b", 3, 0.1, measure.Normal, 0)}},
		Model:  func(x []float64) float64 { x[0] *= x[1]; x[1] = 0; return x[0] },
	}
	r, err := measure.Propagate(p)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "value", r.Value(), 6, 0)
	near(t, "u", r.U(), math.Hypot(0.3, 0.2), 1e-12)
}

// A product of two readings that share a cause: x² has twice the slope.
func TestPropagateSharedCause(t *testing.T) {
	x := uncertain(t, "a", 3, 0.1, measure.Normal, 0)
	r, err := measure.Propagate(measure.Propagation{
		Inputs: []measure.Input{{Of: x}, {Of: x}},
		Model:  func(x []float64) float64 { return x[0] * x[1] },
	})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "u(x·x)", r.U(), 0.6, 1e-12)
}

func TestPropagateRefuses(t *testing.T) {
	in := []measure.Input{{Name: "x", Of: uncertain(t, "a", 0, 1, measure.Normal, 0)}}
	good := func(x []float64) float64 { return x[0] }
	for name, p := range map[string]measure.Propagation{
		"no model":              {Inputs: in},
		"NaN model":             {Inputs: in, Model: func([]float64) float64 { return math.NaN() }},
		"pole at the side":      {Inputs: in, Model: func(x []float64) float64 { return 1 / (x[0] - 0.125) }},
		"two sensitivities":     {Inputs: in, Model: good, Sensitivities: []float64{1, 2}},
		"NaN sensitivity":       {Inputs: in, Model: good, Sensitivities: []float64{math.NaN()}},
		"input that overflowed": {Inputs: []measure.Input{{Of: reading(t, math.MaxFloat64).Times(2)}}, Model: good},
	} {
		r, err := measure.Propagate(p)
		if err == nil {
			t.Errorf("%s: %v", name, r)
			continue
		}
		if !strings.HasPrefix(err.Error(), "measure: propagate: ") {
			t.Errorf("%s: error %q does not say where", name, err)
		}
		if _, err := p.Budget(); err == nil {
			t.Errorf("%s: a budget came out", name)
		}
	}
}

func ExamplePropagate() {
	drain, _ := measure.NewCause("drain-1", "drain", measure.Normal, 0)
	capacity, _ := measure.NewCause("capacity", "capacity", measure.Rectangular, 0)
	d, _ := measure.New(2.5, measure.Term{Cause: drain, Scale: 0.05})
	c, _ := measure.New(10, measure.Term{Cause: capacity, Scale: 0.4})
	share, _ := measure.Propagate(measure.Propagation{
		Inputs: []measure.Input{{Name: "drain", Of: d}, {Name: "capacity", Of: c}},
		Model:  func(x []float64) float64 { return 1 - x[0]/x[1] },
	})
	fmt.Printf("%.3f, u = %.5f\n", share.Value(), share.U()) // √((0.05/10)² + (2.5·0.4/100)²)
	// Output: 0.750, u = 0.01118
}

package measure_test

import (
	"strings"
	"testing"

	"example.com/meniscus/units/measure"
)

// A panic of the caller's formula is an error that says where, as in Simulate.
func TestAFormulaThatPanics(t *testing.T) {
	inputs := []measure.Input{
		{Name: "a", Of: uncertain(t, "a", 1, 0.1, measure.Normal, 0)}, {Name: "b", Of: uncertain(t, "b", 2, 0.1, measure.Normal, 0)},
	}
	unless := func(ok func(x []float64) bool) func(x []float64) float64 {
		return func(x []float64) float64 {
			if !ok(x) {
				panic("no " + strings.Repeat("z", 1000))
			}
			return x[0]
		}
	}
	for _, c := range []struct {
		name, want string
		model      func([]float64) float64
	}{
		{"at once", "the model panicked at the estimates: \"no zzz", unless(func([]float64) bool { return false })},
		{"later", `the model panicked with input 2 ("b") moved from 2: "no zzz`, unless(func(x []float64) bool { return x[1] == 2 })},
	} {
		p := measure.Propagation{Inputs: inputs, Model: c.model}
		r, err := measure.Propagate(p)
		_, budget := p.Budget()
		for _, err := range []error{err, budget} {
			if err == nil || !strings.Contains(err.Error(), c.want) || len(err.Error()) > 250 || r.Value() != 0 {
				t.Errorf("%s: %v, %v", c.name, r, err)
			}
		}
	}
	m := measure.Mixture{Low: 1, High: 2, Given: func(x float64) measure.Component {
		if x > 1.5 {
			panic("above 1.5")
		}
		return measure.Component{Mean: x, SD: 1}
	}}
	for name, call := range map[string]func() error{
		"quantiles": func() error { _, err := m.Quantiles(0.5); return err },
		"quantile":  func() error { _, err := m.Quantile(0.5); return err },
		"interval":  func() error { _, err := m.Interval(0.5); return err },
	} {
		if err := call(); err == nil || !strings.Contains(err.Error(), "given 1.5") || !strings.Contains(err.Error(), `the function panicked: "above 1.5"`) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if p := m.CDF(1); p != 0 {
		t.Errorf("CDF %v", p)
	}
}

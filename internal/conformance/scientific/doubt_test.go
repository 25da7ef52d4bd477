package scientific

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/meniscus/units/measure"
)

// models are the formulas reference.py knows under the same names.
func models() map[string]func([]float64) float64 {
	return map[string]func([]float64) float64{
		"share":      func(x []float64) float64 { return (1 - x[1]/x[0]) * (1 - x[2]/x[0]) * (1 - x[3]/x[0]) },
		"correction": func(x []float64) float64 { return x[0] * math.Exp(-x[1]*(x[2]-15)) },
		"ratio":      func(x []float64) float64 { return x[0] * x[1] / (x[2] + x[3]*x[3]) },
		"lever":      func(x []float64) float64 { return x[0] * x[1] / (x[1] + x[2]*math.Cos(x[3])) },
	}
}

// doubtful is a formula with its inputs.
type doubtful struct {
	Model  string    `json:"model"`
	Values []float64 `json:"values"`
	U      []float64 `json:"u"`
	Shapes []string  `json:"shapes"`
	DoF    float64   `json:"dof"`
	Trials int       `json:"trials"`
	Seed   int       `json:"seed"`
	P      []float64 `json:"p"`
}

const dof = 9 // of every Student input

func randomDoubtful(r *rand.Rand, model string, doubt float64) doubtful {
	d := doubtful{Model: model, DoF: dof}
	switch model {
	case "share":
		d.Values = []float64{rounded(r, 10, 15), rounded(r, 2, 4), rounded(r, 2, 4), rounded(r, 2, 4)}
	case "correction":
		d.Values = []float64{rounded(r, 2, 5), 0.00076, rounded(r, 15, 90)}
	case "ratio":
		d.Values = []float64{rounded(r, 1, 5), rounded(r, 1, 5), rounded(r, 1, 5), rounded(r, 0.5, 2)}
	case "lever":
		d.Values = []float64{rounded(r, 15, 40), rounded(r, 0.2, 0.5), rounded(r, 0.02, 0.1), rounded(r, 0, 1)}
	}
	all := []string{"normal", "rectangular", "triangular", "arcsine", "student"}
	for _, v := range d.Values {
		d.U = append(d.U, doubt*between(r, 0.2, 1)*math.Abs(v))
		d.Shapes = append(d.Shapes, all[r.IntN(len(all))])
	}
	return d
}

func (d doubtful) inputs(t *testing.T) (all []measure.Input) {
	t.Helper()
	for i, v := range d.Values {
		all = append(all, measure.Input{Name: fmt.Sprint("x", i), Of: reading(t, fmt.Sprint("x", i), d.Shapes[i], v, d.U[i])})
	}
	return all
}

func reading(t *testing.T, id, shape string, value, u float64) measure.Reading {
	t.Helper()
	s, err := measure.ParseShape(shape)
	if err != nil {
		t.Fatal(err)
	}
	freedom := 0.0
	if s == measure.Student {
		freedom = dof
	}
	c, err := measure.NewCause(id, "", s, freedom)
	if err != nil {
		t.Fatal(err)
	}
	r, err := measure.New(value, measure.Term{Cause: c, Scale: u})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// First-order propagation with sensitivities found numerically, against
// derivatives at 60 digits.
func TestPropagateAgainstMpmath(t *testing.T) {
	r := rand.New(rand.NewPCG(100, 5))
	var all []doubtful
	for i := range 400 {
		all = append(all, randomDoubtful(r, []string{"share", "correction", "ratio", "lever"}[i%4], 0.03))
	}
	var value, u worst
	answers := ask[[][]float64](t, "propagate", map[string]any{"cases": all})
	for i, want := range answers {
		d := all[i]
		got, err := measure.Propagate(measure.Propagation{Inputs: d.inputs(t), Model: models()[d.Model]})
		if err != nil {
			t.Fatal(err)
		}
		value.see(relative(got.Value(), want[0]), "%+v", d)
		u.see(relative(got.U(), want[1]), "%+v", d)
	}
	value.within(t, 1e-14, "value")
	u.within(t, 1e-7, "standard uncertainty")
}

// Simulation against numpy's own Monte Carlo of the same formula and shapes:
// two independent samples, so the limit is in their joint standard errors.
func TestSimulateAgainstNumpy(t *testing.T) {
	const trials = 400_000
	r := rand.New(rand.NewPCG(101, 1))
	p := []float64{0.025, 0.25, 0.5, 0.75, 0.975}
	var all []doubtful
	for i := range 16 {
		d := randomDoubtful(r, []string{"share", "correction", "ratio", "lever"}[i%4], 0.03)
		d.Trials, d.Seed, d.P = trials, i, p
		all = append(all, d)
	}
	type sample struct {
		Mean, SD  float64
		Quantiles []float64
	}
	var w worst
	for i, want := range ask[[]sample](t, "monte_carlo", map[string]any{"cases": all}) {
		d := all[i]
		got, err := measure.Simulate(context.Background(), measure.Simulation{Inputs: d.inputs(t), Model: models()[d.Model], Trials: trials, Seed: uint64(i), Workers: 2})
		if err != nil {
			t.Fatal(err)
		}
		joint := math.Sqrt(2 * want.SD * want.SD / trials) // of the mean; that of the standard deviation is less
		w.see(math.Abs(got.Mean()-want.Mean)/joint, "mean of %+v", d)
		w.see(math.Abs(got.U()-want.SD)/joint, "standard deviation of %+v", d)
		for k, q := range want.Quantiles {
			x, err := got.Quantile(p[k])
			if err != nil {
				t.Fatal(err)
			}
			se, err := got.StandardError(p[k])
			if err != nil {
				t.Fatal(err)
			}
			fine, err := got.Resolution(p[k])
			if err != nil {
				t.Fatal(err)
			}
			w.see(max(0, math.Abs(x-q)-fine)/(se*math.Sqrt2), "quantile %v of %+v", p[k], d)
		}
	}
	w.within(t, 5, "joint standard errors")
}

// Distributions of every shape that a curve can have.
func TestCurvesAgainstScipy(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 14))
	var all [][5]any
	for range 1000 {
		shape := []string{"normal", "rectangular", "triangular", "student"}[r.IntN(4)]
		u := spread(r, 0.01, 10)
		all = append(all, [5]any{shape, u, float64(dof), u * between(r, -3, 3), spread(r, 1e-4, 0.999)})
	}
	var cdf, quantile worst
	for i, want := range ask[[][2]float64](t, "shapes", map[string]any{"cases": all}) {
		shape, u, x, p := all[i][0].(string), all[i][1].(float64), all[i][3].(float64), all[i][4].(float64)
		s, err := measure.ParseShape(shape)
		if err != nil {
			t.Fatal(err)
		}
		curve, err := measure.NewCurve(reading(t, "a", shape, 0, u), s)
		if err != nil {
			t.Fatal(err)
		}
		cdf.see(math.Abs(curve.CDF(x)-want[0]), "%v", all[i])
		got, err := curve.Quantile(p)
		if err != nil {
			t.Fatal(err)
		}
		quantile.see(math.Abs(got-want[1])/u, "%v", all[i])
	}
	cdf.within(t, 1e-12, "probability")
	quantile.within(t, 2e-8, "quantile over u") // scipy's Student quantile: see TestQuantilesAgainstScipy
}

// Probabilities of a decision from scipy's distributions, and the verdict that
// follows from them.
func TestDecideAgainstScipy(t *testing.T) {
	r := rand.New(rand.NewPCG(106, 2012))
	var at [][5]any // low end, then high end
	var values, risks []float64
	for range 500 {
		shape, u, value := []string{"normal", "student"}[r.IntN(2)], between(r, 0.2, 4), between(r, 94, 118)
		values, risks = append(values, value), append(risks, between(r, 0.005, 0.4))
		for _, end := range []float64{97, 115} {
			at = append(at, [5]any{shape, u, float64(dof), end - value, 0.5})
		}
	}
	var w worst
	p := ask[[][2]float64](t, "shapes", map[string]any{"cases": at})
	for i, value := range values {
		got, err := measure.Decide(measure.Between(97, 115), reading(t, "a", at[2*i][0].(string), value, at[2*i][1].(float64)), risks[i])
		if err != nil {
			t.Fatal(err)
		}
		below, inside, above := p[2*i][0], p[2*i+1][0]-p[2*i][0], 1-p[2*i+1][0]
		w.see(math.Abs(got.Below-below), "%v %v", value, at[2*i])
		w.see(math.Abs(got.Inside-inside), "%v %v", value, at[2*i])
		w.see(math.Abs(got.Above-above), "%v %v", value, at[2*i])
		want := measure.Undecided
		switch sure := 1 - risks[i]; {
		case inside >= sure:
			want = measure.Inside
		case below >= sure:
			want = measure.Below
		case above >= sure:
			want = measure.Above
		}
		if got.Verdict != want {
			t.Errorf("%v ± %v at risk %v: %s; want %s", value, at[2*i][1], risks[i], got.Verdict, want)
		}
	}
	w.within(t, 1e-12, "probabilities of a decision")
}

// The mixture over a capacity range against scipy's adaptive quadrature.
func TestMixtureAgainstQuad(t *testing.T) {
	type mix struct {
		Capacity [2]float64 `json:"capacity"`
		Drain    float64    `json:"drain"`
		U        float64    `json:"u"`
		Cycles   int        `json:"cycles"`
		X        []float64  `json:"x"`
	}
	p := []float64{0.001, 0.025, 0.5, 0.975, 0.999}
	r := rand.New(rand.NewPCG(11, 14))
	var all []mix
	for range 40 {
		low := rounded(r, 9, 14)
		m := mix{Capacity: [2]float64{low, low + rounded(r, 0.3, 4)}, Drain: rounded(r, 1.5, 4), U: rounded(r, 0.02, 0.1), Cycles: 1 + r.IntN(6)}
		given := func(c float64) measure.Component {
			left := 1 - m.Drain/c
			e := m.U / c / left
			mean := math.Pow(left, float64(m.Cycles))
			return measure.Component{Mean: mean, SD: mean * math.Sqrt(math.Pow(1+e*e, float64(m.Cycles))-1)}
		}
		var err error
		if m.X, err = (measure.Mixture{Low: m.Capacity[0], High: m.Capacity[1], Given: given}).Quantiles(p...); err != nil {
			t.Fatal(err)
		}
		all = append(all, m)
	}
	var w worst
	answers := ask[[][]float64](t, "mixture", map[string]any{"cases": all})
	for i, row := range answers {
		for k, back := range row {
			w.see(math.Abs(back-p[k]), "p = %v of %+v", p[k], all[i])
		}
	}
	w.within(t, 1e-6, "probability of the quantile")
}

package measure_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/internal/published"
	"example.com/meniscus/units/measure"
)

// oldShareGiven is the share of old fluid after five independent drains of mean 2.4 L
// and u 0.05 L, given the capacity: the exact first three moments of the product.
func oldShareGiven(capacity float64) measure.Component {
	x := 1 - 2.4/capacity
	e := 0.05 / capacity / x
	e = float64(e * e) // through a variable too, 1 + e·e may be fused
	one := elementary.IntPow(1+e, 5)
	three := elementary.IntPow(1+float64(3*e), 5) // E(1+√e·Z)³ = 1 + 3e
	spread := math.Sqrt(one - 1)
	return measure.Component{
		Mean: elementary.IntPow(x, 5), SD: elementary.IntPow(x, 5) * spread,
		Skew: (three - float64(3*one) + 2) / (spread * spread * spread),
	}
}

// Our own reference: 48-node Gauss-Legendre × 9⁴ Gauss-Hermite × Φ.
func TestExchangeReferenceInterval(t *testing.T) {
	m := measure.Mixture{Low: 11.36, High: 14.2, Given: oldShareGiven}
	plain := m
	plain.Given = func(c float64) measure.Component {
		k := oldShareGiven(c)
		k.Skew = 0
		return k
	}
	rows := published.Load(t, "uncertainty_vectors").Where("id", "EXCH-ref")
	if len(rows) != 3 {
		t.Fatalf("%d rows, want 3", len(rows))
	}
	p := map[string]float64{"q2.5": 0.025, "q50": 0.5, "q97.5": 0.975}
	for _, row := range rows {
		what, want := row.Text("quantity"), row.Float("recomputed")
		got, err := m.Quantile(p[what])
		if err != nil {
			t.Fatal(err)
		}
		near(t, what, got, want, 1e-7)
		got, err = plain.Quantile(p[what])
		if err != nil {
			t.Fatal(err)
		}
		near(t, what+" without skew", got, want, 5e-6)
		// And by the logarithm, which is more nearly normal.
		logs := measure.Mixture{Low: 11.36, High: 14.2, Given: logShareGiven}
		got, err = logs.Quantile(p[what])
		if err != nil {
			t.Fatal(err)
		}
		near(t, what+" by logarithm", elementary.Exp(got), want, 4e-6)
	}
}

// logShareGiven: ln(1 - d/C) about its mean to fourth order.
func logShareGiven(capacity float64) measure.Component {
	x := 1 - 2.4/capacity
	e := 0.05 / capacity / x
	e = float64(e * e) // through a variable too, 1 + e·e may be fused
	return measure.Component{Mean: 5 * (elementary.Log(x) - e/2 - 0.75*e*e), SD: math.Sqrt(5 * (e + 2.5*e*e))}
}

// Quadrature against simulation of the same thing.
func TestMixtureAgainstSimulation(t *testing.T) {
	inputs, model := fiveDrains(t)
	o, err := measure.Simulate(context.Background(), measure.Simulation{Inputs: inputs, Model: model, Trials: 1 << 19, Seed: 7, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	m := measure.Mixture{Low: 11.36, High: 14.2, Given: oldShareGiven}
	for _, p := range []float64{0.01, 0.025, 0.25, 0.5, 0.75, 0.975, 0.99} {
		x, err := m.Quantile(p)
		if err != nil {
			t.Fatal(err)
		}
		y, _ := o.Quantile(p)
		se, _ := o.StandardError(p)
		near(t, fmt.Sprint("quantile ", p), y, x, 5*se)
		near(t, fmt.Sprint("CDF at quantile ", p), m.CDF(x), p, 1e-6)
	}
}

// A mixture of one component is that component; of equal ones too.
func TestMixtureOfOne(t *testing.T) {
	one := func(float64) measure.Component { return measure.Component{Mean: 3, SD: 0.5} }
	for _, m := range []measure.Mixture{{Low: 1, High: 1, Given: one}, {Low: 1, High: 2, Given: one}} {
		for _, p := range []float64{1e-6, 0.025, 0.5, 0.9999} {
			x, err := m.Quantile(p)
			if err != nil {
				t.Fatal(err)
			}
			near(t, fmt.Sprint("quantile ", p), x, 3+0.5*elementary.NormalQuantile(p), 1e-8)
		}
	}
}

// Where the component hardly varies beside the range, the whole is a rectangle.
func TestMixtureNearRectangle(t *testing.T) {
	m := measure.Mixture{Low: 10, High: 12, Given: func(x float64) measure.Component { return measure.Component{Mean: x, SD: 0.005} }}
	x, err := m.Quantile(0.25)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "quartile", x, 10.5, 1e-5)
}

func TestMixtureThatDoesNotSettle(t *testing.T) {
	for _, sd := range []float64{0, 1e-6} {
		m := measure.Mixture{Low: 10, High: 12, Given: func(x float64) measure.Component { return measure.Component{Mean: x, SD: sd} }}
		if x, err := m.Interval(0.95); !errors.Is(err, measure.ErrNoConvergence) {
			t.Errorf("deviation %v: %v, %v", sd, x, err)
		}
		near(t, "CDF all the same", m.CDF(11), 0.5, 2e-3)
	}
}

func TestMixtureRefuses(t *testing.T) {
	good := func(x float64) measure.Component { return measure.Component{Mean: x, SD: 1} }
	with := func(c measure.Component) func(float64) measure.Component {
		return func(float64) measure.Component { return c }
	}
	for name, m := range map[string]measure.Mixture{
		"nothing": {}, "no function": {Low: 1, High: 2}, "upside down": {Low: 2, High: 1, Given: good},
		"NaN end": {Low: math.NaN(), High: 1, Given: good}, "infinite end": {Low: 0, High: math.Inf(1), Given: good},
		"too wide": {Low: -1e308, High: 1e308, Given: good},
		"NaN mean": {Low: 1, High: 2, Given: with(measure.Component{Mean: math.NaN(), SD: 1})},
		"negative": {Low: 1, High: 2, Given: with(measure.Component{SD: -1})},
		"infinite": {Low: 1, High: 2, Given: with(measure.Component{SD: math.Inf(1)})},
		"skewed":   {Low: 1, High: 2, Given: with(measure.Component{SD: 1, Skew: 0.5})},
		"NaN skew": {Low: 1, High: 2, Given: with(measure.Component{SD: 1, Skew: math.NaN()})},
	} {
		if x, err := m.Quantile(0.5); err == nil {
			t.Errorf("%s: %v", name, x)
		}
		if p := m.CDF(1); p != 0 {
			t.Errorf("%s: CDF %v", name, p)
		}
	}
	m := measure.Mixture{Low: 1, High: 2, Given: good}
	for _, p := range []float64{0, 1, -1, math.NaN()} {
		if _, err := m.Quantile(p); err == nil {
			t.Errorf("probability %v was taken", p)
		}
		if _, err := m.Interval(p); err == nil {
			t.Errorf("coverage %v was taken", p)
		}
	}
	near(t, "CDF of NaN", m.CDF(math.NaN()), 0, 0)
}

func BenchmarkMixtureInterval(b *testing.B) {
	m := measure.Mixture{Low: 11.36, High: 14.2, Given: oldShareGiven}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := m.Interval(0.95); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleMixture_Interval() {
	// A capacity of 10 to 12 L, and 0.1 L of doubt besides.
	m := measure.Mixture{Low: 10, High: 12, Given: func(c float64) measure.Component {
		return measure.Component{Mean: c, SD: 0.1}
	}}
	i, _ := m.Interval(0.95)
	fmt.Printf("%.2f to %.2f L\n", i.Low, i.High) // the rectangle alone: 10.05 to 11.95
	// Output: 10.02 to 11.98 L
}

func ExampleMixture_Quantiles() {
	m := measure.Mixture{Low: 10, High: 12, Given: func(c float64) measure.Component {
		return measure.Component{Mean: c, SD: 0.1}
	}}
	q, _ := m.Quantiles(0.25, 0.5, 0.75)
	fmt.Printf("%.3f %.3f %.3f\n", q[0], q[1], q[2])
	// Output: 10.500 11.000 11.500
}

func ExampleMixture_Quantile() {
	m := measure.Mixture{Low: 10, High: 10, Given: func(c float64) measure.Component {
		return measure.Component{Mean: c, SD: 0.1}
	}}
	q, _ := m.Quantile(0.975)
	fmt.Printf("%.3f\n", q) // 10 + 1.96·0.1
	// Output: 10.196
}

func ExampleMixture_CDF() {
	m := measure.Mixture{Low: 10, High: 12, Given: func(c float64) measure.Component {
		return measure.Component{Mean: c, SD: 0.1}
	}}
	fmt.Printf("%.3f\n", m.CDF(11.5))
	// Output: 0.750
}

// A mixture can be decided on: the old share against a limit it is far from.
func TestDecideOnMixture(t *testing.T) {
	m := measure.Mixture{Low: 11.36, High: 14.2, Given: oldShareGiven}
	for limit, want := range map[float64]measure.Verdict{0.45: measure.Inside, 0.353: measure.Undecided, 0.25: measure.Above} {
		d, err := measure.DecideOn(measure.AtMost(limit), m, 0.05)
		if err != nil || d.Verdict != want {
			t.Errorf("at most %v: %v, %v; want %v", limit, d.Verdict, err, want)
		}
	}
}

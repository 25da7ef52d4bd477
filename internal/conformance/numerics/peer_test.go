package numerics

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/meniscus/units/measure"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

const (
	low, high   = 11.36, 14.2 // capacity, L
	drain, u    = 2.4, 0.05   // each of five drains, L
	manyTrials  = 1_000_000
	fewerTrials = 1 << 18
)

func oldShare(x []float64) float64 {
	c := x[0]
	return (1 - x[1]/c) * (1 - x[2]/c) * (1 - x[3]/c) * (1 - x[4]/c) * (1 - x[5]/c)
}

func inputs(tb testing.TB) []measure.Input {
	tb.Helper()
	one := func(id string, x, u float64, shape measure.Shape) measure.Input {
		c, err := measure.NewCause(id, "", shape, 0)
		if err != nil {
			tb.Fatal(err)
		}
		r, err := measure.New(x, measure.Term{Cause: c, Scale: u})
		if err != nil {
			tb.Fatal(err)
		}
		return measure.Input{Name: id, Of: r}
	}
	all := []measure.Input{one("capacity", (low+high)/2, (high-low)/2/math.Sqrt(3), measure.Rectangular)}
	for i := range 5 {
		all = append(all, one(fmt.Sprint("drain-", i+1), drain, u, measure.Normal))
	}
	return all
}

func ours(tb testing.TB, in []measure.Input, trials, workers int) measure.Interval {
	tb.Helper()
	o, err := measure.Simulate(context.Background(), measure.Simulation{Inputs: in, Model: oldShare, Trials: trials, Seed: 1, Workers: workers})
	if err != nil {
		tb.Fatal(err)
	}
	i, err := o.Interval(0.95)
	if err != nil {
		tb.Fatal(err)
	}
	return i
}

// plain is how it is done with gonum: draw every input, keep every value, sort.
func plain(trials int) (y []float64) {
	src := rand.NewPCG(1, 2)
	capacity := distuv.Uniform{Min: low, Max: high, Src: src}
	drained := distuv.Normal{Mu: drain, Sigma: u, Src: src}
	y, x := make([]float64, trials), make([]float64, 6)
	for t := range y {
		x[0] = capacity.Rand()
		for i := 1; i < len(x); i++ {
			x[i] = drained.Rand()
		}
		y[t] = oldShare(x)
	}
	slices.Sort(y)
	return y
}

func TestSimulateAgainstPlain(t *testing.T) {
	got, y := ours(t, inputs(t), fewerTrials, 2), plain(fewerTrials)
	for _, c := range []struct{ got, want float64 }{
		{got.Low, stat.Quantile(0.025, stat.Empirical, y, nil)}, {got.High, stat.Quantile(0.975, stat.Empirical, y, nil)},
	} {
		if math.Abs(c.got-c.want) > 5e-4 { // several standard errors of either
			t.Errorf("end %v, plain %v", c.got, c.want)
		}
	}
}

// The mixture's probability by gonum's own quadrature and normal distribution.
func TestMixtureAgainstQuad(t *testing.T) {
	given := func(c float64) measure.Component {
		x := 1 - drain/c
		e := u / c / x
		return measure.Component{Mean: math.Pow(x, 5), SD: math.Pow(x, 5) * math.Sqrt(math.Pow(1+e*e, 5)-1)}
	}
	m := measure.Mixture{Low: low, High: high, Given: given}
	for _, p := range []float64{0.001, 0.025, 0.5, 0.9, 0.975} {
		q, err := m.Quantile(p)
		if err != nil {
			t.Fatal(err)
		}
		back := quad.Fixed(func(c float64) float64 {
			k := given(c)
			return distuv.Normal{Mu: k.Mean, Sigma: k.SD}.CDF(q)
		}, low, high, 200, nil, 0) / (high - low)
		if math.Abs(back-p) > 1e-7 {
			t.Errorf("at p = %v gonum finds %v", p, back)
		}
	}
}

// Coverage factors and probabilities against gonum's distributions.
func TestFactorsAgainstDistuv(t *testing.T) {
	for _, dof := range []float64{1, 2, 3, 5, 16, 100, 1000} {
		c, err := measure.NewCause("a", "", measure.Student, dof)
		if err != nil {
			t.Fatal(err)
		}
		r, err := measure.New(0, measure.Term{Cause: c, Scale: 1})
		if err != nil {
			t.Fatal(err)
		}
		peer := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: dof}
		curve, err := measure.NewCurve(r, measure.Student)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range []float64{0.5, 0.9, 0.95, 0.99, 0.999} {
			e, err := r.Expanded(p)
			if err != nil {
				t.Fatal(err)
			}
			if want := peer.Quantile((1 + p) / 2); math.Abs(e.K-want) > 1e-7*want { // gonum's own is good to 1e-8
				t.Errorf("k at %v with %v: %v, gonum %v", p, dof, e.K, want)
			}
			if got, want := curve.CDF(e.K), peer.CDF(e.K); math.Abs(got-want) > 1e-12 {
				t.Errorf("CDF at %v with %v: %v, gonum %v", e.K, dof, got, want)
			}
		}
	}
}

// BenchmarkFiveDrains is 1e6 trials of five drains to a 95 % interval.
func BenchmarkFiveDrains(b *testing.B) {
	in := inputs(b)
	for _, workers := range []int{1, 2} {
		b.Run(fmt.Sprintf("Simulate/workers=%d", workers), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				ours(b, in, manyTrials, workers)
			}
		})
	}
	b.Run("gonum", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			y := plain(manyTrials)
			_, _ = stat.Quantile(0.025, stat.Empirical, y, nil), stat.Quantile(0.975, stat.Empirical, y, nil)
		}
	})
}

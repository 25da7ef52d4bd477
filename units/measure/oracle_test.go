package measure_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/meniscus/units/measure"
)

// The slow obvious version of JCGM 100:2008 5.2.2: u² = ΣΣ cᵢcⱼ u(xᵢ,xⱼ), with the
// covariance of two readings the sum over the causes they share.
func slowU(parts []measure.Part) float64 {
	covariance := func(a, b measure.Reading) float64 {
		v := 0.0
		for _, s := range a.Terms() {
			for _, t := range b.Terms() {
				if s.Cause.ID() == t.Cause.ID() {
					v += s.Scale * t.Scale
				}
			}
		}
		return v
	}
	v := 0.0
	for _, p := range parts {
		for _, q := range parts {
			v += p.Sensitivity * q.Sensitivity * covariance(p.Of, q.Of)
		}
	}
	return math.Sqrt(math.Max(v, 0))
}

func randomParts(tb testing.TB, rng *rand.Rand) []measure.Part {
	tb.Helper()
	parts := make([]measure.Part, 1+rng.IntN(6))
	for i := range parts {
		terms := make([]measure.Term, rng.IntN(7))
		for j := range terms {
			terms[j] = measure.Term{Cause: cause(tb, fmt.Sprint("cause-", rng.IntN(9))), Scale: rng.NormFloat64()}
		}
		parts[i] = measure.Part{Of: reading(tb, rng.NormFloat64(), terms...), Sensitivity: rng.NormFloat64()}
	}
	return parts
}

func TestCombineAgainstCovariance(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for range 3000 {
		parts := randomParts(t, rng)
		r, err := measure.Combine(0, parts...)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "u", r.U(), slowU(parts), 1e-7) // the slow one loses half its digits to cancelling
	}
}

// Sums in any order and grouping, and there and back, give the same reading.
func TestReadingAlgebra(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 2))
	for range 2000 {
		p := randomParts(t, rng)
		a, b, c := p[0].Of, p[rng.IntN(len(p))].Of, p[len(p)-1].Of
		k := rng.NormFloat64()
		same := func(what string, x, y measure.Reading) {
			t.Helper()
			if d := x.Minus(y); math.Abs(d.Value()) > 1e-12 || d.U() > 1e-12 {
				t.Errorf("%s: they differ by %v with u %v", what, d.Value(), d.U())
			}
		}
		same("a+b = b+a", a.Plus(b), b.Plus(a))
		same("(a+b)+c = a+(b+c)", a.Plus(b).Plus(c), a.Plus(b.Plus(c)))
		same("a+b-b = a", a.Plus(b).Minus(b), a)
		same("k(a-b) = ka-kb", a.Minus(b).Times(k), a.Times(k).Minus(b.Times(k)))
		same("a-b = a+(-1)b", a.Minus(b), a.Plus(b.Times(-1)))
		same("shift", a.Shift(k).Minus(b), a.Minus(b).Shift(k))
		combined, err := measure.Combine(a.Value()+k*b.Value(), measure.Part{Of: a, Sensitivity: 1}, measure.Part{Of: b, Sensitivity: k})
		if err != nil {
			t.Fatal(err)
		}
		same("a+kb", combined, a.Plus(b.Times(k)))
		for i, u := 1, combined.Terms(); i < len(u); i++ {
			if u[i-1].Cause.ID() >= u[i].Cause.ID() {
				t.Fatal("terms out of order")
			}
		}
	}
}

// A numeric sensitivity of a product is the product of the others.
func TestPropagateAgainstByHand(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	for range 500 {
		p := randomParts(t, rng)
		inputs, product := make([]measure.Input, len(p)), 1.0
		for i := range p {
			inputs[i].Of = p[i].Of.Shift(5)
			product *= inputs[i].Of.Value()
		}
		for i := range p {
			p[i] = measure.Part{Of: inputs[i].Of, Sensitivity: product / inputs[i].Of.Value()}
		}
		got, err := measure.Propagate(measure.Propagation{Inputs: inputs, Model: func(x []float64) float64 {
			y := 1.0
			for _, v := range x {
				y *= v
			}
			return y
		}})
		if err != nil {
			t.Fatal(err)
		}
		want, err := measure.Combine(product, p...)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "u of a product", got.U(), want.U(), 1e-10*(math.Abs(product)+want.U()))
	}
}

package numerics

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/meniscus/internal/elementary"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
)

// Special functions against gonum and the math package it builds on. Limits
// are theirs: ours is checked to more digits against mpmath.
func TestFunctionsAgainstGonum(t *testing.T) {
	between := func(low, high float64) func(*rand.Rand) float64 {
		return func(r *rand.Rand) float64 { return low + (high-low)*r.Float64() }
	}
	size := func(low, high float64) func(*rand.Rand) float64 {
		return func(r *rand.Rand) float64 { return math.Exp(between(math.Log(low), math.Log(high))(r)) }
	}
	for i, c := range []struct {
		name         string
		x, y         func(*rand.Rand) float64
		ours, theirs func(x, y float64) float64
		limit        float64
	}{
		{"Exp", between(-700, 700), nil, func(x, _ float64) float64 { return elementary.Exp(x) }, func(x, _ float64) float64 { return math.Exp(x) }, 4e-16},
		{"Expm1", between(-2, 2), nil, func(x, _ float64) float64 { return elementary.Expm1(x) }, func(x, _ float64) float64 { return math.Expm1(x) }, 4e-16},
		{"Log", size(1e-300, 1e300), nil, func(x, _ float64) float64 { return elementary.Log(x) }, func(x, _ float64) float64 { return math.Log(x) }, 4e-16},
		{"Log1p", between(-0.99, 5), nil, func(x, _ float64) float64 { return elementary.Log1p(x) }, func(x, _ float64) float64 { return math.Log1p(x) }, 4e-16},
		{"Pow", size(1e-3, 1e3), between(-30, 30), elementary.Pow, math.Pow, 4e-14},
		{"Sin", between(-1000, 1000), nil, func(x, _ float64) float64 { return elementary.Sin(x) }, func(x, _ float64) float64 { return math.Sin(x) }, 1e-13},
		{"Cos", between(-1000, 1000), nil, func(x, _ float64) float64 { return elementary.Cos(x) }, func(x, _ float64) float64 { return math.Cos(x) }, 1e-13},
		{"Tan", between(-1.5, 1.5), nil, func(x, _ float64) float64 { return elementary.Tan(x) }, func(x, _ float64) float64 { return math.Tan(x) }, 1e-15},
		{"Erfc", between(-6, 26), nil, func(x, _ float64) float64 { return elementary.Erfc(x) }, func(x, _ float64) float64 { return math.Erfc(x) }, 1e-15},
		{"LogGamma", between(3, 1e4), nil, func(x, _ float64) float64 { return elementary.LogGamma(x) }, func(x, _ float64) float64 { l, _ := math.Lgamma(x); return l }, 1e-15},
		{"RegularizedGammaP", between(0.2, 100), between(0.2, 100), elementary.RegularizedGammaP, mathext.GammaIncReg, 2e-12},
		{"RegularizedGammaQ", between(0.2, 100), between(0.2, 100), elementary.RegularizedGammaQ, mathext.GammaIncRegComp, 2e-12},
		{"NormalCDF", between(-37, 8), nil, func(x, _ float64) float64 { return elementary.NormalCDF(x) }, func(x, _ float64) float64 { return distuv.UnitNormal.CDF(x) }, 1e-12},
		{"NormalQuantile", between(1e-9, 1), nil, func(x, _ float64) float64 { return elementary.NormalQuantile(x) }, func(x, _ float64) float64 { return distuv.UnitNormal.Quantile(x) }, 1e-9},
		{"StudentCDF", between(-12, 12), size(1, 300), elementary.StudentCDF, func(x, n float64) float64 { return distuv.StudentsT{Sigma: 1, Nu: n}.CDF(x) }, 1e-11},
		{"StudentPDF", between(-12, 12), size(1, 300), elementary.StudentPDF, func(x, n float64) float64 { return distuv.StudentsT{Sigma: 1, Nu: n}.Prob(x) }, 1e-12},
		{"StudentQuantile", between(0.001, 0.999), size(1, 300), elementary.StudentQuantile, func(p, n float64) float64 { return distuv.StudentsT{Sigma: 1, Nu: n}.Quantile(p) }, 1e-7},
		{"ChiSquareQuantile", between(0.001, 0.999), size(1, 300), elementary.ChiSquareQuantile, func(p, n float64) float64 { return distuv.ChiSquared{K: n}.Quantile(p) }, 1e-7},
	} {
		r := rand.New(rand.NewPCG(uint64(i), 5))
		worst := 0.0
		for range 2000 {
			x, y := c.x(r), 0.0
			if c.y != nil {
				y = c.y(r)
			}
			got, want := c.ours(x, y), c.theirs(x, y)
			off := math.Abs(got-want) / math.Abs(want)
			if want == 0 || math.Abs(want) < 1e-280 {
				off = 0 // underflow of theirs
			}
			if !(off <= c.limit) {
				t.Errorf("%s(%v, %v): ours %v, theirs %v", c.name, x, y, got, want)
			}
			worst = max(worst, off)
		}
		t.Logf("%s: 2000 points, worst %.1e", c.name, worst)
	}
}

// I_x(a, b), not near where it is 1 less next to nothing.
func TestBetaAgainstGonum(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 7))
	worst := 0.0
	for range 2000 {
		a, b, x := 0.2+60*r.Float64(), 0.2+60*r.Float64(), r.Float64()
		got, want := elementary.RegularizedBeta(a, b, x), mathext.RegIncBeta(a, b, x)
		off := math.Abs(got-want) / want
		if want < 1e-280 {
			continue
		}
		if !(off <= 1e-11) {
			t.Errorf("I_%v(%v, %v): ours %v, theirs %v", x, a, b, got, want)
		}
		worst = max(worst, off)
	}
	t.Logf("2000 points, worst %.1e", worst)
}

func TestLegendreAgainstQuad(t *testing.T) {
	worst := 0.0
	for _, n := range []int{1, 2, 5, 16, 48, 128, 256} {
		nodes, weights := elementary.GaussLegendre(n)
		x, w := make([]float64, n), make([]float64, n)
		quad.Legendre{}.FixedLocations(x, w, -1, 1)
		for i := range x { // theirs descend
			worst = max(worst, math.Abs(nodes[i]-x[n-1-i]), math.Abs(weights[i]-w[n-1-i]))
		}
	}
	if worst > 1e-14 {
		t.Errorf("nodes and weights differ by %v", worst)
	}
	t.Logf("worst %.1e", worst)
}

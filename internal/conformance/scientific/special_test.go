package scientific

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/meniscus/internal/elementary"
)

// points draws arguments: one row per point.
func points(n int, seed uint64, draw func(r *rand.Rand) []float64) [][]float64 {
	r := rand.New(rand.NewPCG(seed, 1))
	all := make([][]float64, n)
	for i := range all {
		all[i] = draw(r)
	}
	return all
}

func between(r *rand.Rand, low, high float64) float64 { return low + (high-low)*r.Float64() }

// spread draws between two sizes, each power of ten alike.
func spread(r *rand.Rand, low, high float64) float64 {
	return math.Exp(between(r, math.Log(low), math.Log(high)))
}

func one(low, high float64) func(*rand.Rand) []float64 {
	return func(r *rand.Rand) []float64 { return []float64{between(r, low, high)} }
}

// Functions of internal/elementary against mpmath at 60 digits, each to the
// error it states.
func TestFunctionsAgainstMpmath(t *testing.T) {
	unary := func(f func(float64) float64) func([]float64) float64 {
		return func(x []float64) float64 { return f(x[0]) }
	}
	binary := func(f func(a, b float64) float64) func([]float64) float64 {
		return func(x []float64) float64 { return f(x[0], x[1]) }
	}
	for i, c := range []struct {
		name string
		n    int
		ours func([]float64) float64
		draw func(*rand.Rand) []float64
		ulp  float64
	}{
		{"exp", 2000, unary(elementary.Exp), one(-700, 700), 1.25},
		{"expm1", 2000, unary(elementary.Expm1), one(-3, 3), 1.5},
		{"log", 2000, unary(elementary.Log), func(r *rand.Rand) []float64 { return []float64{spread(r, 1e-300, 1e300)} }, 1.5},
		{"log1p", 2000, unary(elementary.Log1p), one(-0.99, 2), 1.5},
		{"pow", 2000, binary(elementary.Pow), func(r *rand.Rand) []float64 { return []float64{spread(r, 1e-3, 1e3), between(r, -50, 50)} }, 1.5},
		{"sin", 1000, unary(elementary.Sin), one(-1e5, 1e5), 1.5},
		{"cos", 1000, unary(elementary.Cos), one(-1e5, 1e5), 1.5},
		{"tan", 1000, unary(elementary.Tan), one(-10, 10), 2},
		{"erf", 1000, unary(elementary.Erf), one(-6, 6), 2},
		{"erfc", 1000, unary(elementary.Erfc), one(-6, 26), 2.5},
		{"loggamma", 1000, unary(elementary.LogGamma), func(r *rand.Rand) []float64 { return []float64{spread(r, 1e-3, 1e6)} }, 3.5},
		{"normal_pdf", 1000, unary(elementary.NormalPDF), one(-37, 37), 1.5},
		{"normal_cdf", 1000, unary(elementary.NormalCDF), one(-37, 8), 3},
	} {
		at := points(c.n, uint64(i), c.draw)
		want := ask[[]float64](t, "special", map[string]any{"name": c.name, "points": at})
		var w worst
		for i, x := range at {
			w.see(ulps(c.ours(x), want[i]), "%v", x)
		}
		w.within(t, c.ulp, c.name, "in ulp")
	}
}

// Incomplete gamma and beta functions and Student's distribution: the lower
// tail in relative error, the upper one absolutely.
func TestDistributionsAgainstMpmath(t *testing.T) {
	three := func(r *rand.Rand) []float64 {
		return []float64{spread(r, 0.1, 300), spread(r, 0.1, 300), between(r, 0.001, 0.999)}
	}
	gamma := func(r *rand.Rand) []float64 {
		a := spread(r, 0.1, 2000)
		return []float64{a, a * between(r, 0.3, 3)}
	}
	student := func(r *rand.Rand) []float64 { return []float64{between(r, -12, 12), spread(r, 1, 300)} }
	for i, c := range []struct {
		name             string
		n                int
		ours             func([]float64) float64
		draw             func(*rand.Rand) []float64
		relative, absent float64
	}{
		{"gamma_p", 400, func(x []float64) float64 { return elementary.RegularizedGammaP(x[0], x[1]) }, gamma, 1e-13, 2e-15},
		{"gamma_q", 400, func(x []float64) float64 { return elementary.RegularizedGammaQ(x[0], x[1]) }, gamma, 1e-13, 2e-15},
		{"beta", 400, func(x []float64) float64 { return elementary.RegularizedBeta(x[0], x[1], x[2]) }, three, 1e-13, 5e-14},
		{"student_cdf", 300, func(x []float64) float64 { return elementary.StudentCDF(x[0], x[1]) }, student, 1e-13, 2e-15},
		{"student_pdf", 300, func(x []float64) float64 { return elementary.StudentPDF(x[0], x[1]) }, student, 1e-13, 1e-13},
	} {
		at := points(c.n, 100+uint64(i), c.draw)
		want := ask[[]float64](t, "special", map[string]any{"name": c.name, "points": at})
		var low, high worst
		for i, x := range at {
			switch got := c.ours(x); {
			case want[i] < 1e-290:
			case want[i] <= 0.5 || c.name == "student_pdf":
				low.see(relative(got, want[i]), "%v", x)
			default:
				high.see(math.Abs(got-want[i]), "%v", x)
			}
		}
		low.within(t, c.relative, c.name, "up to 1/2, relative")
		if c.name != "student_pdf" {
			high.within(t, c.absent, c.name, "above 1/2, absolute")
		}
	}
}

// Quantiles against scipy, whose own error is the larger: its Student quantile
// is good to some 1e-9 only, see TestQuantilesThereAndBack.
func TestQuantilesAgainstScipy(t *testing.T) {
	tail := func(r *rand.Rand) float64 {
		if r.IntN(2) == 0 {
			return spread(r, 1e-8, 0.4)
		}
		return between(r, 0.001, 0.999)
	}
	for i, c := range []struct {
		name  string
		ours  func([]float64) float64
		draw  func(*rand.Rand) []float64
		limit float64
	}{
		{"normal", func(x []float64) float64 { return elementary.NormalQuantile(x[0]) }, func(r *rand.Rand) []float64 { return []float64{tail(r)} }, 1e-13},
		{"student", func(x []float64) float64 { return elementary.StudentQuantile(x[0], x[1]) }, func(r *rand.Rand) []float64 { return []float64{tail(r), spread(r, 1, 1000)} }, 2e-8},
		{"chi_square", func(x []float64) float64 { return elementary.ChiSquareQuantile(x[0], x[1]) }, func(r *rand.Rand) []float64 { return []float64{tail(r), spread(r, 1, 1000)} }, 1e-10},
	} {
		at := points(3000, 200+uint64(i), c.draw)
		want := ask[[]float64](t, "quantiles", map[string]any{"name": c.name, "points": at})
		var w worst
		for i, x := range at {
			w.see(math.Abs(c.ours(x)-want[i])/max(1, math.Abs(want[i])), "%v", x)
		}
		w.within(t, c.limit, c.name, "quantile")
	}
}

// Quantiles of mpmath's probabilities, 60 digits rounded once, come back.
func TestQuantilesThereAndBack(t *testing.T) {
	for i, c := range []struct {
		name, law string
		n         int
		draw      func(*rand.Rand) []float64
		at        func(x []float64) []float64 // what the law is asked
		ours      func(p float64, x []float64) float64
		limit     float64
	}{
		{"normal", "normal_cdf", 2000, one(-33, -1), func(x []float64) []float64 { return x },
			func(p float64, _ []float64) float64 { return elementary.NormalQuantile(p) }, 1e-15},
		{"student", "student_cdf", 500, func(r *rand.Rand) []float64 { return []float64{-spread(r, 0.05, 50), spread(r, 1, 300)} },
			func(x []float64) []float64 { return x },
			func(p float64, x []float64) float64 { return elementary.StudentQuantile(p, x[1]) }, 2e-13},
		{"chi square", "gamma_p", 500, func(r *rand.Rand) []float64 { n := spread(r, 1, 300); return []float64{n, n * between(r, 0.2, 1)} },
			func(x []float64) []float64 { return []float64{x[0] / 2, x[1] / 2} },
			func(p float64, x []float64) float64 { return elementary.ChiSquareQuantile(p, x[0]) }, 1e-12},
	} {
		drawn := points(c.n, 300+uint64(i), c.draw)
		var at [][]float64
		for _, x := range drawn {
			at = append(at, c.at(x))
		}
		var w worst
		for i, p := range ask[[]float64](t, "special", map[string]any{"name": c.law, "points": at}) {
			want := drawn[i][0]
			if c.law == "gamma_p" {
				want = drawn[i][1]
			}
			w.see(relative(c.ours(p, drawn[i]), want), "p = %v of %v", p, drawn[i])
		}
		w.within(t, c.limit, c.name, "quantile there and back")
	}
}

func TestRulesAgainstNumpy(t *testing.T) {
	for _, c := range []struct {
		name string
		ours func(int) ([]float64, []float64)
	}{{"legendre", elementary.GaussLegendre}, {"hermite", elementary.GaussHermite}} {
		var w worst
		for _, n := range []int{1, 2, 3, 5, 9, 16, 32, 48, 64} {
			want := ask[[2][]float64](t, "gauss", map[string]any{"name": c.name, "n": n})
			nodes, weights := c.ours(n)
			for i := range nodes {
				w.see(math.Abs(nodes[i]-want[0][i])/max(1, math.Abs(want[0][i])), "node %d of %d", i, n)
				w.see(math.Abs(weights[i]-want[1][i]), "weight %d of %d", i, n)
			}
		}
		w.within(t, 5e-14, c.name)
	}
}

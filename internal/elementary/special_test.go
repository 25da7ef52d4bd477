package elementary

import (
	"math"
	"testing"
)

// same tells -0 from 0 and takes any NaN for any other.
func same(a, b float64) bool {
	return a != a && b != b || a == b && math.Signbit(a) == math.Signbit(b)
}

func TestEnds(t *testing.T) {
	var (
		inf, nan = math.Inf(1), math.NaN()
		zero     = math.Copysign(0, -1)
		tiny     = math.SmallestNonzeroFloat64
		huge     = math.MaxFloat64
	)
	for _, c := range []struct {
		name string
		f    func(float64) float64
		ends [][2]float64
	}{
		{"Exp", Exp, [][2]float64{{nan, nan}, {inf, inf}, {-inf, 0}, {0, 1}, {zero, 1}, {tiny, 1}, {-huge, 0}, {huge, inf},
			{709.782712893384, 0x1.fffffffffff2ap1023}, {709.7827128933841, inf}, {-745.1332191019411, tiny}, {-745.1332191019412, 0}}},
		{"Expm1", Expm1, [][2]float64{{nan, nan}, {inf, inf}, {-inf, -1}, {0, 0}, {zero, zero}, {tiny, tiny}, {-tiny, -tiny}, {-huge, -1}, {huge, inf}, {-50, -1}}},
		{"Log", Log, [][2]float64{{nan, nan}, {inf, inf}, {-inf, nan}, {0, -inf}, {zero, -inf}, {-1, nan}, {-tiny, nan}, {1, 0}, {tiny, -744.4400719213812}, {huge, 709.782712893384}}},
		{"Log1p", Log1p, [][2]float64{{nan, nan}, {inf, inf}, {-inf, nan}, {0, 0}, {zero, zero}, {-1, -inf}, {-2, nan}, {tiny, tiny}, {-tiny, -tiny}, {huge, 709.782712893384}}},
		{"Sin", Sin, [][2]float64{{nan, nan}, {inf, nan}, {-inf, nan}, {0, 0}, {zero, zero}, {tiny, tiny}, {-tiny, -tiny}, {1000001, nan}, {-1000001, nan}, {huge, nan}}},
		{"Cos", Cos, [][2]float64{{nan, nan}, {inf, nan}, {-inf, nan}, {0, 1}, {zero, 1}, {tiny, 1}, {1000001, nan}, {huge, nan}}},
		{"Tan", Tan, [][2]float64{{nan, nan}, {inf, nan}, {-inf, nan}, {0, 0}, {zero, zero}, {tiny, tiny}, {-tiny, -tiny}, {1000001, nan}, {huge, nan}}},
		{"Erf", Erf, [][2]float64{{nan, nan}, {inf, 1}, {-inf, -1}, {0, 0}, {zero, zero}, {tiny, tiny}, {-tiny, -tiny}, {huge, 1}, {-7, -1}}},
		{"Erfc", Erfc, [][2]float64{{nan, nan}, {inf, 0}, {-inf, 2}, {0, 1}, {zero, 1}, {huge, 0}, {-huge, 2}, {27.3, 0}, {27.2, 0x1p-1073}}},
		{"NormalPDF", NormalPDF, [][2]float64{{nan, nan}, {inf, 0}, {-inf, 0}, {0, 0.3989422804014327}, {zero, 0.3989422804014327}, {huge, 0}}},
		{"NormalCDF", NormalCDF, [][2]float64{{nan, nan}, {inf, 1}, {-inf, 0}, {0, 0.5}, {zero, 0.5}, {tiny, 0.5}, {huge, 1}, {-huge, 0}, {-38.6, 0}}},
		{"NormalQuantile", NormalQuantile, [][2]float64{{nan, nan}, {inf, nan}, {-inf, nan}, {0, -inf}, {zero, -inf}, {1, inf}, {0.5, 0}, {-tiny, nan}, {1.0000001, nan}, {tiny, -38.467405617144344}}},
		{"LogGamma", LogGamma, [][2]float64{{nan, nan}, {inf, inf}, {-inf, nan}, {0, inf}, {zero, inf}, {-1.5, nan}, {1, 0}, {2, 0}, {tiny, 744.4400719213812}, {huge, inf}, {2.5e305, 0x1.f3fc83052cbf5p+1023}}},
	} {
		for _, e := range c.ends {
			if got := c.f(e[0]); !same(got, e[1]) {
				t.Errorf("%s(%v) = %v (%x), want %v", c.name, e[0], got, got, e[1])
			}
		}
	}
}

func TestEndsOfDistributions(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"P(2, 0)", RegularizedGammaP(2, 0), 0},
		{"Q(2, 0)", RegularizedGammaQ(2, 0), 1},
		{"P(2, Inf)", RegularizedGammaP(2, inf), 1},
		{"Q(2, Inf)", RegularizedGammaQ(2, inf), 0},
		{"P(2, -1)", RegularizedGammaP(2, -1), nan},
		{"P(0, 1)", RegularizedGammaP(0, 1), nan},
		{"P(1e11, 1)", RegularizedGammaP(1e11, 1), nan},
		{"Q(NaN, 1)", RegularizedGammaQ(nan, 1), nan},
		{"I_0", RegularizedBeta(2, 3, 0), 0},
		{"I_1", RegularizedBeta(2, 3, 1), 1},
		{"I_2", RegularizedBeta(2, 3, 2), nan},
		{"I with a = 0", RegularizedBeta(0, 3, 0.5), nan},
		{"I with b = Inf", RegularizedBeta(2, inf, 0.5), nan},
		{"Student CDF at -Inf", StudentCDF(-inf, 3), 0},
		{"Student CDF at +Inf", StudentCDF(inf, 3), 1},
		{"Student CDF at 0", StudentCDF(0, 3), 0.5},
		{"Student CDF, 0 degrees", StudentCDF(1, 0), nan},
		{"Student CDF, negative degrees", StudentCDF(1, -2), nan},
		{"Student CDF, endless degrees", StudentCDF(-1.5, inf), NormalCDF(-1.5)},
		{"Student PDF, endless degrees", StudentPDF(-1.5, inf), NormalPDF(1.5)},
		{"Student PDF at Inf", StudentPDF(inf, 3), 0},
		{"Student quantile, endless degrees", StudentQuantile(0.1, inf), NormalQuantile(0.1)},
		{"Student quantile of 0", StudentQuantile(0, 3), -inf},
		{"Student quantile of 1", StudentQuantile(1, 3), inf},
		{"Student quantile of 1/2", StudentQuantile(0.5, 3), 0},
		{"Student quantile of 2", StudentQuantile(2, 3), nan},
		{"Student quantile beyond the floats", StudentQuantile(1e-300, 0.5), -inf},
		{"chi-square quantile of 0", ChiSquareQuantile(0, 3), 0},
		{"chi-square quantile of 1", ChiSquareQuantile(1, 3), inf},
		{"chi-square quantile of NaN", ChiSquareQuantile(nan, 3), nan},
		{"chi-square quantile, 0 degrees", ChiSquareQuantile(0.5, 0), nan},
		{"sum of nothing", Sum(nil), 0},
		{"sum over Inf", Sum([]float64{1, inf, 2}), inf},
		{"sum over both Inf", Sum([]float64{inf, -inf}), nan},
		{"sum that overflows", Sum([]float64{math.MaxFloat64, math.MaxFloat64}), inf},
	} {
		if !same(c.got, c.want) {
			t.Errorf("%s: got %v, want %v", c.name, c.got, c.want)
		}
	}
}

// edges are the arguments that code forgets.
func edges() []float64 {
	all := []float64{math.NaN(), 0}
	for _, x := range []float64{math.SmallestNonzeroFloat64, 1e-310, 0x1p-1022, 1e-300, 1e-160, 1e-100, 1e-20, 1e-10, 1e-3,
		0.1, 0.25, 0.5, 0x1.fffffffffffffp-1, 1, 0x1.0000000000001p0, 1.5, 2, 3, 9.9999, 10, 37.5, 700, 745.2, 9999, 1e4, 1e6, 1e10,
		1e13, 0x1p53, 0x1p65, 1e100, 1e154, 1e160, 1e300, math.MaxFloat64, math.Inf(1)} {
		all = append(all, x, -x)
	}
	return all
}

// TestNothingPanics runs every function over the edges and their pairs and
// triples; a chance must come out as a chance or NaN, whatever went in.
func TestNothingPanics(t *testing.T) {
	chance := func(name string, got float64, args ...float64) {
		if !(got >= 0 && got <= 1) && got == got {
			t.Errorf("%s%v = %v, no chance", name, args, got)
		}
	}
	for _, x := range edges() {
		for _, f := range []func(float64) float64{Exp, Expm1, Log, Log1p, Sin, Cos, Tan, Erf, Erfc, NormalPDF, NormalQuantile, LogGamma} {
			f(x)
		}
		chance("NormalCDF", NormalCDF(x), x)
		for _, y := range edges() {
			Pow(x, y)
			Sum([]float64{x, y})
			StudentPDF(x, y)
			StudentQuantile(x, y)
			ChiSquareQuantile(x, y)
			chance("StudentCDF", StudentCDF(x, y), x, y)
			chance("RegularizedGammaP", RegularizedGammaP(x, y), x, y)
			chance("RegularizedGammaQ", RegularizedGammaQ(x, y), x, y)
			for _, z := range edges() {
				chance("RegularizedBeta", RegularizedBeta(x, y, z), x, y, z)
			}
		}
		for _, n := range []int{math.MinInt, -1000, -3, -1, 0, 1, 2, 3, 1000, math.MaxInt} {
			if p := IntPow(x, n); x == x && p != p {
				t.Errorf("IntPow(%v, %d) = NaN", x, n)
			}
		}
	}
	for _, n := range []int{math.MinInt, -1, 0, RuleMax + 1, math.MaxInt} {
		for _, rule := range []func(int) ([]float64, []float64){GaussLegendre, GaussHermite} {
			if nodes, weights := rule(n); nodes != nil || weights != nil {
				t.Errorf("a rule with %d nodes", n)
			}
		}
	}
	var s Stream
	s.FillNormal(nil)
	s.Below(0)
}

// TestPowEnds compares with math.Pow where the result is fixed by IEEE 754 or
// runs off the range: the special cases, not the rounding.
func TestPowEnds(t *testing.T) {
	for _, x := range edges() {
		for _, y := range append(edges(), 3, -3, 5, 0x1p52, 0x1p53+2, 0.5, -0.5) {
			want := math.Pow(x, y)
			if got := Pow(x, y); want == 0 || math.IsInf(want, 0) || want != want {
				if !same(got, want) {
					t.Errorf("Pow(%v, %v) = %v, want %v", x, y, got, want)
				}
			} else if math.Signbit(got) != math.Signbit(want) || got == 0 {
				t.Errorf("Pow(%v, %v) = %v, want about %v", x, y, got, want)
			}
		}
	}
	for _, y := range edges() {
		if got := Pow(1, y); got != 1 {
			t.Errorf("Pow(1, %v) = %v, want 1", y, got)
		}
		if got := Pow(y, 0); got != 1 {
			t.Errorf("Pow(%v, 0) = %v, want 1", y, got)
		}
	}
}

func TestIntPowEnds(t *testing.T) {
	for _, c := range []struct {
		x    float64
		n    int
		want float64
	}{
		{0, 0, 1}, {math.NaN(), 0, 1}, {0, 3, 0}, {0, -1, math.Inf(1)}, {-2, 3, -8}, {-2, -3, -0.125}, {3, 4, 81}, {1, math.MinInt, 1},
		{10, 22, 1e22}, {2, math.MaxInt, math.Inf(1)}, {2, math.MinInt, 0}, {0.5, math.MinInt, math.Inf(1)}, {math.Inf(-1), 3, math.Inf(-1)},
	} {
		if got := IntPow(c.x, c.n); !same(got, c.want) {
			t.Errorf("IntPow(%v, %d) = %v, want %v", c.x, c.n, got, c.want)
		}
	}
}

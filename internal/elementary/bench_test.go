package elementary

import "testing"

func BenchmarkStream(b *testing.B) {
	b.Run("Uint64", func(b *testing.B) {
		s, sum := NewStream(1, 0), uint64(0)
		b.ReportAllocs()
		for b.Loop() {
			sum += s.Uint64()
		}
		_ = sum
	})
	b.Run("Normal", func(b *testing.B) {
		s, sum := NewStream(1, 0), 0.0
		b.ReportAllocs()
		for b.Loop() {
			sum += s.Normal()
		}
		_ = sum
	})
	b.Run("FillNormal1000", func(b *testing.B) {
		s, z := NewStream(1, 0), make([]float64, 1000)
		b.ReportAllocs()
		for b.Loop() {
			s.FillNormal(z)
		}
	})
}

func BenchmarkFunctions(b *testing.B) {
	for _, c := range []struct {
		name   string
		f      func(float64) float64
		lo, hi float64
	}{
		{"Exp", Exp, -5, 5}, {"Expm1", Expm1, -2, 2}, {"Log", Log, 0.1, 10}, {"Log1p", Log1p, -0.5, 2},
		{"Sin", Sin, -10, 10}, {"Tan", Tan, -10, 10}, {"Erf", Erf, -3, 3}, {"NormalCDF", NormalCDF, -5, 5},
		{"NormalQuantile", NormalQuantile, 0.001, 0.999}, {"LogGamma", LogGamma, 0.1, 30},
		{"Pow", func(x float64) float64 { return Pow(x, 1.7) }, 0.1, 10},
		{"StudentQuantile7", func(p float64) float64 { return StudentQuantile(p, 7) }, 0.001, 0.999},
		{"GammaQ1000", func(x float64) float64 { return RegularizedGammaQ(1000, x) }, 900, 1100},
		{"GammaQ1e6", func(x float64) float64 { return RegularizedGammaQ(1e6, x) }, 0.999e6, 1.001e6},
		{"ChiSquareQuantile9", func(p float64) float64 { return ChiSquareQuantile(p, 9) }, 0.001, 0.999},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			x, sum := c.lo, 0.0
			step := (c.hi - c.lo) / 977
			for b.Loop() {
				sum += c.f(x)
				if x += step; x > c.hi {
					x = c.lo
				}
			}
			_ = sum
		})
	}
}

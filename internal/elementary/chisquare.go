package elementary

import "math"

// ChiSquareQuantile returns the x below which a chi-square variable with dof
// degrees of freedom, whole or not, falls with probability p: relative error
// below 1e-12 for dof >= 1. p = 0 gives 0, as does a quantile too small for a
// float; p = 1 gives +Inf; p outside 0..1 or dof outside 2*ShapeMin..2*ShapeMax
// gives NaN.
//
// Half of it bounds a Poisson mean: N events seen, ChiSquareQuantile(p, 2N+2)/2.
func ChiSquareQuantile(p, dof float64) float64 {
	return float64(2 * gammaQuantile(p, float64(0.5*dof)))
}

// gammaQuantile solves P(a, x) = p by Newton's method on the logarithms of x
// and of the smaller of P and Q. On that scale both are concave: every start
// leads to the solution.
func gammaQuantile(p, a float64) float64 {
	switch {
	case !(p >= 0 && p <= 1) || !(a >= ShapeMin && a <= ShapeMax):
		return math.NaN()
	case p == 0:
		return 0
	case p == 1:
		return math.Inf(1)
	}
	x := gammaGuess(p, a)
	if x < 0x1p-1000 {
		return x // the leading term is exact there
	}
	for range 100 {
		step := gammaStep(p, a, x)
		x = float64(x * Exp(step))
		if math.Abs(step) <= 1e-9 {
			break
		}
	}
	return x
}

// gammaStep returns the Newton step in ln x.
func gammaStep(p, a, x float64) float64 {
	below, above := incompleteGamma(a, x)
	slope := float64(a * gammaPrefix(a, x)) // x times the density
	var step float64
	if p <= 0.5 {
		step = -float64(Log(below/p)*below) / slope
	} else {
		step = float64(Log(above/(1-p))*above) / slope
	}
	return math.Max(-1, math.Min(1, step))
}

// gammaGuess returns roughly the x with P(a, x) = p: Wilson and Hilferty's
// cube (PNAS 17, 1931), or the leading term of the series where x is small.
func gammaGuess(p, a float64) float64 {
	v := 1 / float64(9*a)
	cube := 1 - v + float64(NormalQuantile(p)*math.Sqrt(v))
	if cube > 0.3 {
		return float64(a * IntPow(cube, 3))
	}
	return Exp((Log(p) + LogGamma(a+1)) / a)
}

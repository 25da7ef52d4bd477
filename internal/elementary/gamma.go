package elementary

import "math"

const (
	halfLogTwoPi   = 0x1.d67f1c864beb5p-1   // ln √(2π)
	halfLogTwoPiLo = -0x1.65b5a1b7ff5dfp-55 // the rest of it

	// From here on Stirling's series reaches full accuracy with nine terms.
	stirlingFrom = 10
)

// LogGamma returns ln Γ(x) for x > 0, error below 4 ulp, also near the zeros
// at 1 and 2. LogGamma(0) and LogGamma(+Inf) are +Inf, a negative x gives NaN.
func LogGamma(x float64) float64 {
	switch {
	case x != x || x < 0:
		return math.NaN()
	case x < 0.5:
		return logGammaNear(x-1, x) - Log(x)
	case x < 1.5:
		return logGammaNear(x-1, x)
	case x <= 3:
		return float64((x - 2) * logGammaSlope(x-2))
	case x < stirlingFrom:
		return logGammaProduct(x)
	case x > 0x1p57:
		return float64(x * (Log(x) - 1))
	}
	main := logTwofold(twofold{x, 0}).times(twoSum(x, -0.5))
	rest := twofold{halfLogTwoPi, halfLogTwoPiLo + stirling(x)}
	return main.plus(twofold{-x, 0}).plus(rest).value()
}

// logGammaNear returns ln Γ(x) for 0.5 <= x < 1.5 and ln Γ(x+1) for
// 0 <= x < 0.5; in the first case t = x-1, which is exact.
func logGammaNear(t, x float64) float64 {
	if x < 0.5 {
		t = x
	}
	return float64(t*logGammaSlope(t)) - Log1p(t)
}

// logGammaSlope returns ln Γ(2+t) / t for -0.5 <= t <= 1. The polynomial
// interpolates at Chebyshev points, error below 2^-65.
func logGammaSlope(t float64) float64 {
	return horner(t, 0x1.b0ee6072093cep-2, 0x1.4a34cc4a60fa6p-2, -0x1.13e001a557606p-4,
		0x1.51322ac7d8463p-6, -0x1.e404fc218f6a3p-8, 0x1.7add6eadba7c0p-9, -0x1.38ac5c2bf9355p-10,
		0x1.0b36af84b252ep-11, -0x1.d3fd4c70e04c1p-13, 0x1.a127b199d1448p-14, -0x1.78de5e2a6a47ap-15,
		0x1.580dbb93f2376p-16, -0x1.3cbc2d2d689e5p-17, 0x1.25989c963f97fp-18, -0x1.11bcb5d152522p-19,
		0x1.0068f5364da65p-20, -0x1.e174a6ef5018ap-22, 0x1.c53a46685bc07p-23, -0x1.b2cc61a5cf7a5p-24,
		0x1.b00d270ae5f04p-25, -0x1.a159573f3d88dp-26, 0x1.4b48ca3d2bdd3p-27, -0x1.5bf73b928c124p-29,
		0x1.57fcc0248b842p-32)
}

// logGammaProduct returns ln Γ(x) for 3 < x < 10 by stepping down to (2, 3].
func logGammaProduct(x float64) float64 {
	product := 1.0
	for x > 3 {
		x-- // exact here
		product = float64(product * x)
	}
	return Log(product) + float64((x-2)*logGammaSlope(x-2))
}

// stirling returns ln Γ(a) - ((a-1/2) ln a - a + ln √(2π)) for a >= 10: nine
// terms B(2k)/(2k(2k-1)a^(2k-1)) of Stirling's series (Abramowitz and Stegun
// 6.1.41); the next one is below 2e-18.
func stirling(a float64) float64 {
	z := 1 / a
	return float64(z * horner(float64(z*z), 1.0/12, -1.0/360, 1.0/1260, -1.0/1680, 1.0/1188,
		-691.0/360360, 1.0/156, -3617.0/122400, 43867.0/244188))
}

// gammaStar returns Γ(a) / (√(2π/a) (a/e)^a) for a > 0, which tends to 1 as a
// grows; error below 6 ulp.
func gammaStar(a float64) float64 {
	if a >= stirlingFrom {
		return Exp(stirling(a))
	}
	power := powPositive(twofold{math.E, 0x1.4d57ee2b1013ap-53}.over(twofold{a, 0}), a)
	return float64(float64(gammaSmall(a)*math.Sqrt(a)) * float64(power*oneOverSqrt2Pi))
}

// gammaSmall returns Γ(a) for 0 < a < 10, error below 4 ulp.
func gammaSmall(a float64) float64 {
	if a < 0.5 {
		return 1 / float64(a*reciprocalGamma(a))
	}
	product := 1.0
	for a >= 1.5 {
		a-- // exact here
		product = float64(product * a)
	}
	return product / reciprocalGamma(a-1)
}

// reciprocalGamma returns 1 / Γ(1+t) for |t| <= 0.5. The polynomial
// interpolates at Chebyshev points, error below 2^-62.
func reciprocalGamma(t float64) float64 {
	return horner(t, 1, 0x1.2788cfc6fb619p-1, -0x1.4fcf4026afa2ep-1, -0x1.5815e8fa270c8p-5,
		0x1.5512320b43fc1p-3, -0x1.59af103c32479p-5, -0x1.3b4af284847c2p-7, 0x1.d919c52694c10p-8,
		-0x1.317112cdc107cp-10, -0x1.c364fc221f12cp-13, 0x1.0c8a789b15a59p-13, -0x1.51cf163869d1cp-16,
		-0x1.4fac8273dcaf8p-20, 0x1.304a8f2a6abe9p-20, -0x1.b9b247305bb0bp-23, 0x1.4e6939c4fb456p-28,
		0x1.5f2f4a66138f5p-28)
}

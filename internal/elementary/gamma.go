package elementary

import "math"

const (
	halfLogTwoPi   = 0x1.d67f1c864beb5p-1   // ln √(2π)
	halfLogTwoPiLo = -0x1.65b5a1b7ff5dfp-55 // the rest of it

	// From here on Stirling's series reaches full accuracy with nine terms.
	stirlingFrom = 10
)

// LogGamma returns ln Γ(x) for x > 0, error below 3 ulp, also near the zeros
// at 1 and 2. LogGamma(0) and LogGamma(+Inf) are +Inf, a negative x gives NaN.
func LogGamma(x float64) float64 {
	switch {
	case x != x || x < 0:
		return math.NaN()
	case x < 0.5:
		return logGammaNear(x-1, x) - Log(x)
	case x < 1.3:
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

// logGammaNear returns ln Γ(x) for 0.5 <= x < 1.3 and ln Γ(x+1) for
// 0 <= x < 0.5; in the first case t = x-1, which is exact.
func logGammaNear(t, x float64) float64 {
	if x < 0.5 {
		t = x
	}
	// The two nearly cancel.
	log := logTwofold(twoSum(1, t))
	return twoProduct(t, logGammaSlope(t)).plus(log.negated()).value()
}

// logGammaSlope returns ln Γ(2+t) / t for -0.7 <= t <= 1. The polynomial
// interpolates at Chebyshev points, error below 2^-63.
func logGammaSlope(t float64) float64 {
	return horner(t, 0x1.b0ee6072093cep-2, 0x1.4a34cc4a60fa6p-2, -0x1.13e001a557607p-4,
		0x1.51322ac7d8437p-6, -0x1.e404fc218f40ep-8, 0x1.7add6eadbdb9ap-9, -0x1.38ac5c2c0e79ep-10,
		0x1.0b36af83e5751p-11, -0x1.d3fd4c6762580p-13, 0x1.a127b1ca91519p-14, -0x1.78de5efb9b45cp-15,
		0x1.580db7a3e2e2fp-16, -0x1.3cbc32300afcdp-17, 0x1.25991eb2e938dp-18, -0x1.11bad5705f715p-19,
		0x1.0057cfec456cep-20, -0x1.e192b57dc5ae0p-22, 0x1.c79f9e7e45c0fp-23, -0x1.b5d6c077b1703p-24,
		0x1.9ea1ae7b428f8p-25, -0x1.688bcfae81275p-26, 0x1.4244799b60f2dp-27, -0x1.97e6f635c7cb1p-28,
		0x1.084d5a2fc8eddp-28, -0x1.a3d256ffb0833p-30, 0x1.18d6b20ac9370p-32)
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

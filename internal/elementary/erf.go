package elementary

import "math"

// Erf returns the error function 2/√π ∫ exp(-t²) dt from 0 to x, error below
// 1.5 ulp. Erf(±0) is ±0, Erf(±Inf) is ±1.
func Erf(x float64) float64 {
	a := math.Abs(x)
	switch {
	case x != x:
		return x
	case a < 0.75:
		return erfNear(x)
	case a > 6:
		return math.Copysign(1, x)
	}
	return math.Copysign(1-erfcFar(a), x)
}

// Erfc returns 1 - Erf(x) without losing the digits of a far tail, error
// below 2 ulp (a subnormal result is rounded a second time: one unit of
// 2^-1074 more). Erfc(+Inf) is 0, Erfc(-Inf) is 2.
func Erfc(x float64) float64 {
	switch {
	case x != x:
		return x
	case math.Abs(x) < 0.5:
		return 1 - erfNear(x)
	case x < -6:
		return 2
	case x < 0:
		return 2 - erfcFar(-x)
	case x > 28:
		return 0
	}
	return erfcFar(x)
}

// erfNear returns Erf(x) for |x| < 0.75. The polynomial interpolates
// erf(x)/x - 1 in x² at Chebyshev points, error below 2^-60.
func erfNear(x float64) float64 {
	p := horner(float64(x*x), 0x1.06eba8214db69p-3, -0x1.812746b0379e0p-2, 0x1.ce2f21a0424c3p-4,
		-0x1.b82ce31257412p-6, 0x1.565bcd03657c0p-8, -0x1.c02db1220cfe6p-11, 0x1.f9a2afa3a8f86p-14,
		-0x1.f4c5debf1228ap-17, 0x1.b90ecd4aeec12p-20, -0x1.564f71bbc0d35p-23, 0x1.8a312cb07e6ccp-27)
	return x + float64(x*p)
}

// erfcFar returns Erfc(x) for 0.5 <= x <= 28.
func erfcFar(x float64) float64 {
	m, k := expParts(twoProduct(x, x).negated())
	return scale(m.times(erfcScaled(twofold{x, 0})).value(), k)
}

// erfcScaled returns exp(x²) Erfc(x) for x >= 0.5, error below 2^-53.
//
// (1+2x) exp(x²) Erfc(x) stays between 1 and 1.28 and is smooth in
// u = (x-3.75)/(x+3.75), as Shepherd and Laframboise found (Mathematics of
// Computation 36, 1981). The polynomial interpolates it at Chebyshev points of
// our range, error below 2^-59.
func erfcScaled(x twofold) twofold {
	u := (x.hi - 3.75) / (x.hi + 3.75)
	p := float64(u * horner(u, -0x1.1f367683f89a7p-3, 0x1.d5f2948159a74p-9,
		0x1.510169d096824p-4, -0x1.bda9309a28332p-4, 0x1.7a14188a9912dp-4, -0x1.e0d0fa6e119fcp-5,
		0x1.d0b0037e11b4cp-6, -0x1.3f603c3065b8fp-7, 0x1.cc3a0de679605p-10, 0x1.33fb2186ff09bp-12,
		-0x1.303f96234b200p-12, 0x1.b144a664ad1b1p-15, 0x1.7787dded97ac0p-16, -0x1.800be2acef05ep-17,
		-0x1.04b1818b22f2fp-20, 0x1.d6cb62a97f57dp-20, -0x1.08ea8d61d5582p-24, -0x1.17df95e5519e6p-22,
		0x1.eaa730456a1c4p-26, 0x1.5012af4d68d9dp-25, -0x1.fa4eb80af00efp-28, -0x1.3515a8386f704p-28,
		0x1.7fe5fb4bcf95ep-30))
	bottom := fastTwoSum(float64(2*x.hi), 1)
	bottom.lo += float64(2 * x.lo)
	return fastTwoSum(0x1.3ccda0b5d5dc2p+0, p).over(bottom)
}

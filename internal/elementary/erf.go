package elementary

import "math"

// erfHalf is a little below the x with Erf(x) = 1/2, up to which 1 - Erf(x) is
// good to the last digit or two.
const erfHalf = 0.47

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
	case math.Abs(x) < erfHalf:
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

// erfcFar returns Erfc(x) for erfHalf <= x <= 28.
func erfcFar(x float64) float64 {
	m, k := expParts(twoProduct(x, x).negated())
	return scale(m.times(erfcScaled(twofold{x, 0})).value(), k)
}

// erfcScaled returns exp(x²) Erfc(x) for x >= erfHalf, error below 2^-53.
//
// (1+2x) exp(x²) Erfc(x) stays between 1 and 1.28 and is smooth in
// u = (x-3.75)/(x+3.75), as Shepherd and Laframboise found (Mathematics of
// Computation 36, 1981). The polynomial interpolates it at Chebyshev points of
// our range, error below 2^-59.
func erfcScaled(x twofold) twofold {
	u := (x.hi - 3.75) / (x.hi + 3.75)
	p := float64(u * horner(u, -0x1.1f367683f89a7p-3, 0x1.d5f2948159922p-9, 0x1.510169d096865p-4,
		-0x1.bda9309a280fbp-4, 0x1.7a14188a9871bp-4, -0x1.e0d0fa6e172d0p-5, 0x1.d0b0037e3f3acp-6,
		-0x1.3f603c2f8f87cp-7, 0x1.cc3a0dca61648p-10, 0x1.33fb21021f382p-12, -0x1.303f938f12f02p-12,
		0x1.b144af9fc36ccp-15, 0x1.77874834fe08dp-16, -0x1.800bd2ef5eb9bp-17, -0x1.049c9003ab534p-20,
		0x1.d6c27a0187376p-20, -0x1.0aa2117b16fcap-24, -0x1.178ce019c4824p-22, 0x1.ef193843cc394p-26,
		0x1.4d6e23d6a2688p-25, -0x1.fc0ff4fdd654bp-28, -0x1.2cb13adf70c6ep-28, 0x1.75a352432e360p-30))
	bottom := fastTwoSum(float64(2*x.hi), 1)
	bottom.lo += float64(2 * x.lo)
	return fastTwoSum(0x1.3ccda0b5d5dc2p+0, p).over(bottom)
}

package elementary

import "math"

const (
	oneOverSqrt2Pi   = 0.398942280401432677939946059934381868 // OEIS A231863
	oneOverSqrt2PiLo = -0x1.cbc0d30ebfd15p-56                 // what the float lacks
	sqrtTwoPi        = 2.50662827463100050241576528481104525  // OEIS A019727
	sqrtTwoPiLo      = -0x1.a6a0d6f814637p-53                 // what the float lacks
	sqrtHalfLo       = -0x1.bdd3413b26456p-55
)

// NormalPDF returns the standard normal density exp(-z²/2)/√(2π), error below
// 1 ulp (a subnormal result is rounded a second time: one unit of 2^-1074
// more). NormalPDF(±Inf) is 0.
func NormalPDF(z float64) float64 {
	if z != z {
		return z
	}
	if math.Abs(z) > 39 {
		return 0
	}
	m, k := expParts(twoProduct(z, z).shifted(-0.5))
	return scale(m.times(twofold{oneOverSqrt2Pi, oneOverSqrt2PiLo}).value(), k)
}

// NormalCDF returns the probability that a standard normal variable is at
// most z, error below 2.5 ulp (a subnormal result is rounded a second time: one unit of 2^-1074 more). For
// the upper tail ask for NormalCDF(-z), which keeps its digits.
// NormalCDF(-Inf) is 0, NormalCDF(+Inf) is 1.
func NormalCDF(z float64) float64 {
	x := float64(z * sqrtHalf)
	switch {
	case z != z:
		return z
	case math.Abs(x) < erfHalf:
		return 0.5 + float64(0.5*erfNear(x))
	case z < -39:
		return 0
	case z > 9:
		return 1
	case z > 0:
		return 1 - normalTail(z)
	}
	return normalTail(-z)
}

// normalTail returns the probability above z for 0.66 < z <= 39.
func normalTail(z float64) float64 {
	return normalTailAt(z, twoProduct(z, z))
}

// normalTailAt returns the probability above z for 0 <= z <= 39 when z² is
// known to more digits than z.
func normalTailAt(z float64, square twofold) float64 {
	x := twofold{sqrtHalf, sqrtHalfLo}.scaled(z)
	if x.hi < erfHalf {
		return 0.5 - float64(0.5*erfNear(x.hi))
	}
	m, k := expParts(square.shifted(-0.5))
	return scale(m.times(erfcScaled(x)).shifted(0.5).value(), k)
}

// NormalQuantile returns the z below which a standard normal variable falls
// with probability p, error below 4 ulp, for 0 < p < 1. Near p = 1 the float p
// itself is the limit: for an upper tail q ask for -NormalQuantile(q).
// NormalQuantile(0) is -Inf, NormalQuantile(1) is +Inf, p outside gives NaN.
//
// The form is Wichura's (algorithm AS 241, Applied Statistics 37, 1988), a
// rational function of (p-1/2)² in the middle and of √(-ln p) in the tail, but
// only for what is left beside the leading term √(2π)(p-1/2) or √(-2 ln p).
// The coefficients interpolate at Chebyshev points; their error is below 2^-54.
func NormalQuantile(p float64) float64 {
	switch {
	case !(p >= 0 && p <= 1):
		return math.NaN()
	case p == 0:
		return math.Inf(-1)
	case p == 1:
		return math.Inf(1)
	}
	q := p - 0.5 // exact from 1/4 up, and rounded harmlessly down to 0.075
	if math.Abs(q) <= 0.425 {
		s := float64(q * q)
		return float64(q * (sqrtTwoPi + (sqrtTwoPiLo + float64(s*quantileMiddle(0.180625-s)))))
	}
	tail := p
	if q > 0 {
		tail = 1 - p // exact here
	}
	r := math.Sqrt(-Log(tail))
	return math.Copysign(float64(sqrtTwo*r)-quantileTail(r), q)
}

// quantileMiddle returns (z/q - √(2π))/q² for t = 0.180625 - q² >= 0.
func quantileMiddle(t float64) float64 {
	return horner(t, 0x1.37fc2a497deaap+2, 0x1.a4a3f48a25f64p+7, 0x1.b8b16a6c67941p+11,
		0x1.c6e2427b20ffep+14, 0x1.e51a95dc50c1ep+16, 0x1.00b7022263dd5p+18, 0x1.d7caea9413bc4p+17,
		0x1.0beec8a739d47p+16, 0x1.388a87e597ea9p+9) /
		horner(t, 1, 0x1.895a1c7065a0ep+5, 0x1.e3f763a47736fp+9, 0x1.31d940434dcffp+13, 0x1.a85f8d45c7ca6p+15,
			0x1.40f359a3551d0p+17, 0x1.ef8badd083854p+17, 0x1.4fe8e6d65fd6dp+17, 0x1.156c621b5c061p+15)
}

// quantileTail returns √2 r - z where z has the upper tail exp(-r²), for
// 1.5 <= r <= 27.4.
func quantileTail(r float64) float64 {
	switch {
	case r < 4:
		t := r - 1.5
		return horner(t, 0x1.bd69bf5d0e935p-1, 0x1.bad511c6549b0p+0, 0x1.647fba2d55d4ep+0,
			0x1.2edd6c610456ep-1, 0x1.22d4887a7d69ap-3, 0x1.2cc5cde1f2699p-6, 0x1.1af5e845090d3p-10,
			0x1.4d7358f0777a0p-16, 0x1.3aeb0a618d838p-26) /
			horner(t, 1, 0x1.2d973ea5c5083p+1, 0x1.26fba60582714p+1, 0x1.38e4463afa364p+0, 0x1.876ff4f562a92p-2,
				0x1.20cfee7547febp-4, 0x1.d007e93fc9b77p-8, 0x1.5126870cc8edcp-12, 0x1.239694dd54d48p-18)
	case r < 10:
		t := r - 4
		return horner(t, 0x1.eb0576a57706dp-2, 0x1.8294aca29da47p-2, 0x1.c9a53b2036380p-4,
			0x1.f89f664f64ff4p-7, 0x1.0564de6ad74c6p-10, 0x1.c5db3aee4e361p-16, 0x1.da87f14a297f8p-23,
			0x1.6c545ff692169p-34) /
			horner(t, 1, 0x1.e74254489d07fp-1, 0x1.6ed48d5755544p-2, 0x1.14ca3cd995490p-4, 0x1.b593639c854adp-8,
				0x1.596a59485a376p-12, 0x1.d4697f0f705d6p-18, 0x1.720cc92cb4cb9p-25)
	}
	t := r - 10
	return horner(t, 0x1.03bf56f9f53bap-2, 0x1.1752f174b2e69p-4, 0x1.c21b2c7aef416p-8,
		0x1.51c8be53f5693p-12, 0x1.de0a0b7d13adap-18, 0x1.1ccd0db831e71p-24, 0x1.991df6a9ab414p-33,
		0x1.8940cc7c19fe0p-46) /
		horner(t, 1, 0x1.5de22361c355cp-2, 0x1.78ca0535c5250p-5, 0x1.956155e71a4e8p-9, 0x1.c817cbec84a6ep-14,
			0x1.003b6eb5bb344p-19, 0x1.ef44fc4de4d53p-27, 0x1.175b6e3ee075bp-35)
}

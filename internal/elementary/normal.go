package elementary

import "math"

const (
	oneOverSqrt2Pi = 0.398942280401432677939946059934381868 // OEIS A231863
	sqrtTwoPi      = 2.50662827463100050241576528481104525  // OEIS A019727
)

// NormalPDF returns the standard normal density exp(-z²/2)/√(2π), error below
// 2 ulp (a subnormal result is rounded a second time: one unit of 2^-1074
// more). NormalPDF(±Inf) is 0.
func NormalPDF(z float64) float64 {
	if z != z {
		return z
	}
	if math.Abs(z) > 39 {
		return 0
	}
	square := twoProduct(z, z)
	power := square.shifted(-0.5)
	m, k := expParts(power.hi, power.lo)
	return scale(float64(m*oneOverSqrt2Pi), k)
}

// NormalCDF returns the probability that a standard normal variable is at
// most z, error below 3.5 ulp in the lower tail and 1 ulp from 1/4 up (a
// subnormal result is rounded a second time: one unit of 2^-1074 more). For
// the upper tail ask for NormalCDF(-z), which keeps its digits.
// NormalCDF(-Inf) is 0, NormalCDF(+Inf) is 1.
func NormalCDF(z float64) float64 {
	x := float64(z * sqrtHalf)
	switch {
	case z != z:
		return z
	case math.Abs(x) < 0.5:
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

// normalTail returns the probability above z for 0.7 < z <= 39.
func normalTail(z float64) float64 {
	return normalTailAt(z, twoProduct(z, z))
}

// normalTailAt returns the probability above z for 0 <= z <= 39 when z² is
// known to more digits than z.
func normalTailAt(z float64, square twofold) float64 {
	x := float64(z * sqrtHalf)
	if x < 0.5 {
		return 0.5 - float64(0.5*erfNear(x))
	}
	power := square.shifted(-0.5)
	m, k := expParts(power.hi, power.lo)
	return scale(float64(float64(0.5*m)*erfcScaled(x)), k)
}

// NormalQuantile returns the z below which a standard normal variable falls
// with probability p, error below 4 ulp, for 0 < p < 1. Near p = 1 the float p
// itself is the limit: for an upper tail q ask for -NormalQuantile(q).
// NormalQuantile(0) is -Inf, NormalQuantile(1) is +Inf, p outside gives NaN.
//
// The form, one rational function of (p-1/2)² in the middle and rational
// functions of √(-ln p) in the tail, is Wichura's (algorithm AS 241, Applied
// Statistics 37, 1988). The coefficients here interpolate at Chebyshev points
// of our own ranges; their error is below 2^-53.2.
func NormalQuantile(p float64) float64 {
	switch {
	case !(p >= 0 && p <= 1):
		return math.NaN()
	case p == 0:
		return math.Inf(-1)
	case p == 1:
		return math.Inf(1)
	}
	q := p - 0.5 // exact from 1/4 up, and below 1/4 only used for its size
	if math.Abs(q) <= 0.425 {
		return float64(q * quantileMiddle(0.180625-float64(q*q)))
	}
	if q < 0 {
		return -quantileTail(math.Sqrt(-Log(p)))
	}
	return quantileTail(math.Sqrt(-Log(1 - p)))
}

// quantileMiddle returns z/(p-1/2) for t = 0.180625 - (p-1/2)² >= 0.
func quantileMiddle(t float64) float64 {
	return horner(t, 0x1.b18d91e9eef75p+1, 0x1.2983779ad6104p+7, 0x1.3e87791a83b37p+11,
		0x1.51ee693128c9dp+14, 0x1.75cd871cd9f66p+16, 0x1.a1184e0a8a68ap+17, 0x1.a275526f28ae9p+17,
		0x1.214e452de349cp+16, 0x1.e86356dfd4a95p+11) /
		horner(t, 1, 0x1.77633c715232cp+5, 0x1.b3a4b14ae1af7p+9, 0x1.ff0ebc948152dp+12,
			0x1.41a4981bbd553p+15, 0x1.aabddc09074efp+16, 0x1.122d654498a73p+17, 0x1.1a97ffaf11627p+16,
			0x1.25b569a70b6a8p+13)
}

// quantileTail returns the z with upper tail exp(-r²), for 1.6 <= r <= 27.4.
func quantileTail(r float64) float64 {
	switch {
	case r < 4:
		t := r - 1.6
		return horner(t, 0x1.6c665fde9526ap+0, 0x1.30d932a54e5c6p+2, 0x1.8f52cd681849dp+2,
			0x1.1368c0cdc81b0p+2, 0x1.be28c9d05576ep+0, 0x1.b75cf540131b2p-2, 0x1.fea7c7a3a29c8p-5,
			0x1.35f3ea893ae5ep-8, 0x1.1a6805d584a43p-13) /
			horner(t, 1, 0x1.12c2d1e716df9p+1, 0x1.e4fd88251ba70p+0, 0x1.cb115a39bcafep-1,
				0x1.f9cc5879b9d47p-3, 0x1.4162294e1e20ep-5, 0x1.a28037c16ae34p-9, 0x1.8f555af28e9c7p-14,
				0x1.0772af4009caap-33)
	case r < 10:
		t := r - 4
		return horner(t, 0x1.4b598efd9c4c6p+2, 0x1.f333e79bc73fep+2, 0x1.23dff66efbd94p+2,
			0x1.57509fc418983p+0, 0x1.b359e4e9b46fdp-3, 0x1.24d20d62af464p-6, 0x1.78532e2dffd66p-11,
			0x1.54c033ff35359p-17) /
			horner(t, 1, 0x1.37db95875d0fap+0, 0x1.109dfc63064ccp-1, 0x1.bc154d4a12c31p-4,
				0x1.6013772e424b1p-7, 0x1.f61f9f4287633p-12, 0x1.e1e17ad32d974p-18, 0x1.0e9306f788d3ap-40)
	}
	t := r - 10
	return horner(t, 0x1.bc6e654a21022p+3, 0x1.81a0e7a9b643ep+2, 0x1.105bf49e5b331p+0,
		0x1.917faf6da1a7cp-4, 0x1.487dc2d229b24p-8, 0x1.23e52bbabac09p-13, 0x1.f9472cda5e329p-20,
		0x1.391fbd3b8114ep-27) /
		horner(t, 1, 0x1.529fef0949b80p-2, 0x1.5cf9d7ceb3a5cp-5, 0x1.6097a6c54dcbbp-9,
			0x1.67c6eee388613p-14, 0x1.53fd9f2e89f29p-20, 0x1.bad29aa30993dp-28, 0x1.54ba9622a46ddp-55)
}

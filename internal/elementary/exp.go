package elementary

import "math"

// ln 2 in pieces. The first two have 32 significant bits, so that their
// product with any exponent is exact. Exact value: OEIS A002162; the tests
// recompute it.
const (
	ln2Hi   = 0x1.62e42ffp-1
	ln2Mid  = -0x1.718432a2p-35
	ln2Lo   = 0x1.3c7673007e5edp-69
	ln2Tail = ln2Mid + ln2Lo // rounded once, at compile time

	log2E = 1.44269504088896340735992468100189214 // 1/ln 2, OEIS A007525
)

// Largest x with finite Exp(x), and the x below which Exp(x) rounds to 0.
const (
	expOverflow  = 709.782712893383973096
	expUnderflow = -745.133219101941207
)

// Exp returns e^x, error below 0.75 ulp (a subnormal result is rounded a
// second time: one unit of 2^-1074 more).
//
// Exp(+Inf) and Exp(x) for x > 709.78 are +Inf; Exp(-Inf) and Exp(x) for
// x < -745.13 are 0; Exp(±0) is 1.
func Exp(x float64) float64 {
	switch {
	case x != x:
		return x
	case x > expOverflow:
		return math.Inf(1)
	case x < expUnderflow:
		return 0
	}
	m, k := expParts(twofold{x, 0})
	return scale(m.value(), k)
}

// expTwofold returns e^(x.hi + x.lo); same error and ends as Exp.
func expTwofold(x twofold) float64 {
	if !(x.hi <= expOverflow && x.hi >= expUnderflow) {
		return Exp(x.hi)
	}
	m, k := expParts(x)
	return scale(m.value(), k)
}

// expParts returns m and k with e^x = m * 2^k, 0.7 < m < 1.42, for x between
// expUnderflow and expOverflow. Error of m: below 2^-56.
func expParts(x twofold) (m twofold, k int) {
	r, rest, k := expReduce(x)
	one := 1 + r
	lost := (1 - one) + r
	return twofold{one, lost + expTail(r, rest)}, k
}

// expReduce writes x as k*ln 2 + r + rest with |r| below 0.3467.
func expReduce(x twofold) (r, rest float64, k int) {
	// Adding and taking away 1.5 * 2^52 rounds to the nearest whole number.
	const shifter = 0x1.8p52
	kf := (float64(x.hi*log2E) + shifter) - shifter
	h := x.hi - float64(kf*ln2Hi) // exact
	l := float64(kf*ln2Tail) - x.lo
	r = h - l
	return r, (h - r) - l, int(kf)
}

// expTail returns e^(r+rest) - 1 - r for |r| < 0.3467.
func expTail(r, rest float64) float64 {
	r2 := float64(r * r)
	return float64(0.5*r2) + (float64(r2*expCubic(r, r2)) + (rest + float64(rest*r)))
}

// expCubic returns (e^r - 1 - r)/r² - 1/2 for |r| < 0.3467, r2 being r*r. The
// polynomial interpolates at Chebyshev points; its error is below 2^-65.
func expCubic(r, r2 float64) float64 {
	r4 := float64(r2 * r2)
	a := cubic(r, r2, 0, 0x1.5555555555555p-3, 0x1.5555555555557p-5, 0x1.1111111111111p-7)
	b := cubic(r, r2, 0x1.6c16c16c15a48p-10, 0x1.a01a01a01969bp-13, 0x1.a01a01a9f72adp-16, 0x1.71de3a5aaefb9p-19)
	c := cubic(r, r2, 0x1.27e4d3f50d87fp-22, 0x1.ae642c5c1fa33p-26, 0x1.1f7f6aa421dd8p-29, 0x1.61bff1c64f494p-33)
	return a + float64((b+float64(c*r4))*r4)
}

// scale returns m * 2^k, rounded once, for 2^-60 < m < 4 and -1200 < k < 1030.
func scale(m float64, k int) float64 {
	switch {
	case k > 1020:
		return float64(float64(m*0x1p1000) * powerOfTwo(k-1000))
	case k < -960:
		return float64(float64(m*powerOfTwo(k+500)) * 0x1p-500)
	}
	return float64(m * powerOfTwo(k))
}

// powerOfTwo returns 2^k for -1022 <= k <= 1023.
func powerOfTwo(k int) float64 {
	return math.Float64frombits(uint64(k+1023) << 52)
}

// Expm1 returns e^x - 1 without losing the digits of a small x, error below
// 1 ulp.
//
// Expm1(±0) is ±0; Expm1(-Inf) is -1; above 709.78 the result is +Inf.
func Expm1(x float64) float64 {
	switch {
	case x != x || math.Abs(x) < 0x1p-54:
		return x
	case x > expOverflow:
		return math.Inf(1)
	case x < -38:
		return -1
	case x > 40:
		return Exp(x) - 1
	}
	r, rest, k := expReduce(twofold{x, 0})
	// e^r - 1 = r + r²/2 + ...: a result near 0 needs the second term exactly too.
	square := twoProduct(r, r).shifted(0.5)
	tail := square.lo + (float64(float64(r*r)*expCubic(r, float64(r*r))) + (rest + float64(rest*r)))
	if k == 0 {
		s := fastTwoSum(r, square.hi)
		return s.hi + (s.lo + tail)
	}
	p := powerOfTwo(k)
	one := twoSum(p, -1)
	s := twoSum(one.hi, float64(p*r))
	t := twoSum(s.hi, float64(p*square.hi))
	return t.hi + (t.lo + (s.lo + (one.lo + float64(p*tail))))
}

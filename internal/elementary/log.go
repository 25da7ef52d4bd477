package elementary

import "math"

const (
	sqrtHalf = 0.707106781186547524400844362104849039
	sqrtTwo  = 1.41421356237309504880168872420969808
)

// Log returns the natural logarithm of x, error below 1 ulp.
//
// Log(0) is -Inf, Log(+Inf) is +Inf, a negative x gives NaN.
func Log(x float64) float64 {
	switch {
	case x != x || x > math.MaxFloat64:
		return x
	case x < 0:
		return math.NaN()
	case x == 0:
		return math.Inf(-1)
	}
	m, k := fraction(x)
	return logSum(k, m-1, 0)
}

// Log1p returns ln(1 + x) without losing the digits of a small x, error
// below 1 ulp.
//
// Log1p(±0) is ±0, Log1p(-1) is -Inf, x < -1 gives NaN.
func Log1p(x float64) float64 {
	switch {
	case x != x || math.Abs(x) < 0x1p-54 || x > math.MaxFloat64:
		return x
	case x < -1:
		return math.NaN()
	case x == -1:
		return math.Inf(-1)
	case x > sqrtHalf-1 && x < sqrtTwo-1:
		return logSum(0, x, 0)
	}
	s := twoSum(1, x)
	m, k := fraction(s.hi)
	return logSum(k, m-1, s.lo/s.hi)
}

// fraction writes a positive finite x as m * 2^k with sqrt(1/2) <= m < sqrt(2).
func fraction(x float64) (m float64, k float64) {
	shift := 0
	if x < 0x1p-1022 {
		x, shift = float64(x*0x1p54), 54
	}
	b := math.Float64bits(x)
	e := int(b>>52) - 1022 - shift
	m = math.Float64frombits(b&(1<<52-1) | 1022<<52) // in [1/2, 1)
	if m < sqrtHalf {
		return m + m, float64(e - 1)
	}
	return m, float64(e)
}

// logSum returns k*ln 2 + ln(1 + f) + c for sqrt(1/2) <= 1+f < sqrt(2).
//
// With s = f/(2+f), ln(1+f) = 2 atanh(s) = f - f²/2 + s*(f²/2 + R), where
// R = 2 s²/3 + 2 s⁴/5 + ... is small: only f and f² need care.
func logSum(k, f, c float64) float64 {
	s := f / (2 + f)
	half := float64(0.5 * float64(f*f))
	tail := float64(s*(half+atanhTail(float64(s*s)))) + (float64(k*ln2Tail) + c)
	return float64(k*ln2Hi) - ((half - tail) - f)
}

// atanhTail returns 2 atanh(s)/s - 2 for z = s² <= 0.0295. The polynomial
// interpolates at Chebyshev points, error below 2^-58 z.
func atanhTail(z float64) float64 {
	z2 := float64(z * z)
	a := cubic(z, z2, 0x1.5555555555555p-1, 0x1.9999999999a39p-2, 0x1.2492492476a1ap-2, 0x1.c71c7201a55d7p-3)
	b := cubic(z, z2, 0x1.745cf8e4bba1bp-3, 0x1.3b1c3c1c81c8fp-3, 0x1.0fbde0f4ad17bp-3, 0x1.0c0aff044a970p-3)
	return float64(z * (a + float64(b*float64(z2*z2))))
}

// logTwofold returns ln(x.hi + x.lo) for finite x.hi > 0, relative error
// below 2^-63.
func logTwofold(x twofold) twofold {
	m, k := fraction(x.hi)
	f := m - 1 // exact
	s := twofold{f, 0}.over(twoSum(2, f))
	z := s.times(s)
	// 2s(1 + z(1/3 + z(1/5 + ...))): only what follows 1/5 can be left to a float.
	rest := float64(z.hi * atanhFifth(z.hi))
	third := fastTwoSum(0x1.5555555555555p-2, rest)
	third.lo += 0x1.5555555555555p-56
	log := s.plus(s.times(z.times(third)))
	sum := log.shifted(2)
	sum.lo += x.lo / x.hi
	sum = fastTwoSum(sum.hi, sum.lo)
	sum = twofold{float64(k * ln2Mid), float64(k * ln2Lo)}.plus(sum)
	return twofold{float64(k * ln2Hi), 0}.plus(sum)
}

// atanhFifth returns 1/5 + z/7 + z²/9 + ... for 0 <= z <= 0.0295, the series
// of (atanh(s)/s - 1 - z/3)/z² at z = s²; the first term left out is below 2^-55.
func atanhFifth(z float64) float64 {
	return horner(z, 1.0/5, 1.0/7, 1.0/9, 1.0/11, 1.0/13, 1.0/15, 1.0/17, 1.0/19, 1.0/21, 1.0/23)
}

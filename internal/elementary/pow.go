package elementary

import "math"

// Pow returns x^y, error below 1 ulp (a subnormal result is rounded a second
// time: one unit of 2^-1074 more).
//
// The domain is x > 0 with any y, and x <= 0 with whole y. The ends follow
// IEEE 754 pow: Pow(x, 0) and Pow(1, y) are 1 even for NaN; a zero x to a
// negative power is an infinity; a negative x to a fractional power is NaN.
func Pow(x, y float64) float64 {
	switch {
	case y == 0 || x == 1:
		return 1
	case x != x || y != y:
		return math.NaN()
	case math.IsInf(y, 0):
		return powInfinite(math.Abs(x), y > 0)
	case x == 0 || math.IsInf(x, 0):
		return powOfEnd(x, y)
	}
	if x > 0 {
		return powPositive(twofold{x, 0}, y)
	}
	if y != math.Floor(y) {
		return math.NaN()
	}
	p := powPositive(twofold{-x, 0}, y)
	if odd(y) {
		return -p
	}
	return p
}

// powInfinite returns x^±Inf for x >= 0, x != 1 unless it came from -1.
func powInfinite(x float64, up bool) float64 {
	switch {
	case x == 1:
		return 1
	case (x > 1) == up:
		return math.Inf(1)
	}
	return 0
}

// powOfEnd returns x^y for x = ±0 or ±Inf and finite y != 0.
func powOfEnd(x, y float64) float64 {
	p := 0.0
	if (x == 0) == (y < 0) {
		p = math.Inf(1)
	}
	if odd(y) {
		return math.Copysign(p, x)
	}
	return p
}

// odd says whether y is an odd whole number.
func odd(y float64) bool {
	return math.Abs(y) < 0x1p53 && math.Mod(y, 2) != 0 && y == math.Floor(y)
}

// powPositive returns x^y for x > 0 and finite y.
func powPositive(x twofold, y float64) float64 {
	const huge = 0x1p65 // beyond it even the float next to 1 overflows
	log := logTwofold(x)
	if log.hi == 0 {
		return 1
	}
	if math.Abs(y) > huge {
		if (log.hi > 0) == (y > 0) {
			return math.Inf(1)
		}
		return 0
	}
	return expTwofold(log.scaled(y))
}

// IntPow returns x^n by repeated squaring, error below n ulp (n = 2: half an
// ulp, n = 3: 1 ulp). A negative n gives 1 / x^-n, one ulp more, and more again
// where x^-n is subnormal; where it overflows the result is 0. IntPow(x, 0) is 1
// for every x.
func IntPow(x float64, n int) float64 {
	if n < 0 {
		// -n of the lowest int would overflow; its size as unsigned does not.
		return 1 / intPow(x, uint(-(n+1))+1)
	}
	return intPow(x, uint(n))
}

func intPow(x float64, n uint) float64 {
	p := 1.0
	for ; n > 0; n >>= 1 {
		if n&1 == 1 {
			p = float64(p * x)
		}
		x = float64(x * x)
	}
	return p
}

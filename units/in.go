package units

import (
	"math"
	"math/bits"
)

// In returns how many of unit u the quantity is: the nearest float64. For
// lbf·ft and lbf·in, whose tick count is not whole, it is the number with the
// fewest decimals that Of would round to this same quantity, so that what went
// in comes back. Out of range, or a unit of another dimension, gives Huge.
func (q Quantity[D]) In(u Unit[D]) float64 {
	if !q.Valid() || !dimensioned[D](code(u)) {
		return Huge
	}
	x := readBack(magnitude(q.ticks), ticksPer(code(u)))
	if q.ticks < 0 {
		return -x
	}
	return x
}

func readBack(n uint64, r ratio) float64 {
	const exactInt = 1 << 53
	if r.den == 1 {
		if n <= exactInt {
			// Both are exact as floats, so the division rounds once.
			return float64(n) / float64(r.num)
		}
		return quotient(n, 1, r.num)
	}
	if x, ok := shortDecimal(n, r); ok {
		return x
	}
	return quotient(n, r.den, r.num)
}

// shortDecimal finds the decimal, with one tick's worth of places, that Of
// would have turned into n ticks.
func shortDecimal(n uint64, r ratio) (float64, bool) {
	places := 0
	for pow10(places+1) <= r.num/r.den {
		places++
	}
	if n > math.MaxUint64/r.den {
		return 0, false // so large that a tick is far below the float's own step
	}
	p := pow10(places)
	hi, lo := bits.Mul64(n*r.den, p)
	if hi >= r.num {
		return 0, false
	}
	digits := roundQuotient(hi, lo, r.num)
	if back, ok := scaleDigits(digits, -places, r); !ok || back != n {
		return 0, false
	}
	return quotient(digits, 1, p), true
}

// quotient returns n*k/d rounded once to the nearest float64, half to even.
// It wants d > 0 and n*k/d < 2^64.
func quotient(n, k, d uint64) float64 {
	if n == 0 {
		return 0
	}
	hi, lo := bits.Mul64(n, k)
	if hi >= d {
		return Huge
	}
	// Three words of quotient: whole, then two of fraction; one of the first
	// two pairs always holds 64 significant bits or all that there are.
	whole, rem := bits.Div64(hi, lo, d)
	first, rem := bits.Div64(rem, 0, d)
	second, rem := bits.Div64(rem, 0, d)
	if whole == 0 {
		return pack(first, second, rem != 0, -128)
	}
	return pack(whole, first, second|rem != 0, -64)
}

// pack rounds hi:lo * 2^exp to a float64; sticky says that more bits follow.
func pack(hi, lo uint64, sticky bool, exp int) float64 {
	shift := bits.LeadingZeros64(hi)
	top := hi<<shift | lo>>(64-shift)
	if shift == 0 {
		top = hi
	}
	if lo<<shift != 0 || sticky {
		top |= 1
	}
	return math.Ldexp(float64(top), exp+64-shift)
}

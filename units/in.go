package units

import (
	"math"
	"math/bits"
)

// In returns how many of unit u the quantity is: the decimal that Of rounds to
// this quantity, with decimals no finer than a tick, so that what went in comes
// back; where no float64 does that, the nearest float64. The two differ only for
// decimals that are no whole number of ticks, such as 2.55 US fl oz or 26 lbf·ft,
// and by less than a tick. Out of range, or a unit of another dimension, gives
// Huge.
func (q Quantity[D]) In(u Unit[D]) float64 {
	r := ratioOf[D](code(u))
	if !q.Valid() || r.num == 0 {
		return Huge
	}
	return readBack(q.ticks, r)
}

// readBack returns ticks in a unit, with their sign.
func readBack(ticks int64, r ratio) float64 {
	if ticks < 0 {
		return -amount(magnitude(ticks), r)
	}
	return amount(uint64(ticks), r)
}

func amount(n uint64, r ratio) float64 {
	if r.den == 1 && n <= exactFloat {
		// Both are exact as floats (every unit's ratio is), so the division rounds once.
		x := float64(int64(n)) / float64(int64(r.num))
		if r.num >= 1e9 && math.RoundToEven(x*1e9)/1e9 == x {
			return x // no more than nine decimals, and no finer than a tick
		}
	}
	if x, ok := writtenDecimal(n, r); ok {
		return x
	}
	return quotient(n, r.den, r.num)
}

// writtenDecimal finds the decimal that Of turns into n ticks. Its places are
// limited so that a step of the last is at least a tick: there is at most one.
func writtenDecimal(n uint64, r ratio) (float64, bool) {
	power := uint64(1)
	for power <= r.num/r.den/10 {
		power *= 10
	}
	switch {
	case power == r.num:
		return 0, false // every tick is a decimal, and the nearest float is its float
	case power > 1e9:
		// What is written on a sheet has few places: try nine before all.
		if x, ok := decimalFor(n, r, 1e9); ok {
			return x, true
		}
	}
	return decimalFor(n, r, power)
}

// decimalFor rounds n ticks to a decimal, in steps of 1/power, and answers
// false where Of would not turn it into n again.
func decimalFor(n uint64, r ratio, power uint64) (float64, bool) {
	digits, _ := roundRatio(n, r.den*power, r.num) // fits: the unit has at least den*power ticks
	if back, ok := roundRatio(digits, r.num, r.den*power); !ok || back != n {
		return 0, false
	}
	x := quotient(digits, 1, power)
	// A float tells decimals of up to 15 digits apart; a longer one may be lost in it,
	// and is then no better than the nearest float.
	if digits >= 1e15 {
		if back, ok := decimalTicks(x, r); !ok || uint64(back) != n {
			return 0, false
		}
	}
	return x, true
}

// quotient returns n*k/d rounded once to the nearest float64, half to even.
// It wants d > 0 and n*k/d < 2^64, which holds for every unit and every Ratio.
func quotient(n, k, d uint64) float64 {
	hi, lo := bits.Mul64(n, k)
	if hi == 0 && max(lo, d) <= exactFloat {
		return float64(int64(lo)) / float64(int64(d))
	}
	// A word of whole number, then two of fraction: the first two words that
	// are not zero hold at least 64 significant bits.
	whole, rem := bits.Div64(hi, lo, d)
	first, rem := bits.Div64(rem, 0, d)
	second, rem := bits.Div64(rem, 0, d)
	if whole == 0 {
		return pack(first, second, rem != 0, -128)
	}
	return pack(whole, first, second|rem != 0, -64)
}

// pack rounds hi:lo * 2^exp to a float64, for hi not zero or nothing set at
// all; sticky says that more bits follow.
func pack(hi, lo uint64, sticky bool, exp int) float64 {
	shift := bits.LeadingZeros64(hi)
	top := hi<<shift | lo>>(64-shift)
	if lo<<shift != 0 || sticky {
		top |= 1 // far below the rounding place, but not a tie
	}
	return math.Ldexp(float64(top), exp+64-shift)
}

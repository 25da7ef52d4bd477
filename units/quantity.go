package units

import (
	"cmp"
	"math"
	"math/bits"
)

// Quantity is an exact amount of dimension D: a whole number of ticks. Two
// equal amounts are == whatever unit each was made in. The zero value is zero
// of the dimension, and valid.
//
// Arithmetic never wraps and never panics. A result past the range becomes the
// out-of-range value, which stays out of range through all further arithmetic,
// prints as "out of range", answers false to Valid and is refused by encoders.
type Quantity[D Dimension] struct {
	// Without the tag in the struct, Volume(torque) would compile.
	_     [0]D
	ticks int64
}

// The quantities of a service.
type (
	// Volume counts 1e-14 L; its range is about ±92 233 L.
	Volume = Quantity[VolumeDim]
	// Torque counts 1e-15 N·m; its range is about ±9 223 N·m.
	Torque = Quantity[TorqueDim]
	// Length counts nanometres; its range is about ±9.2e9 m. For parts, not roads.
	Length = Quantity[LengthDim]
	// Mass counts 0.1 ng; its range is about ±922 337 kg.
	Mass = Quantity[MassDim]
	// TemperatureDelta is a difference of temperatures; it counts ninths of a nanokelvin.
	TemperatureDelta = Quantity[TemperatureDeltaDim]
	// Distance is a road distance; it counts millimetres.
	Distance = Quantity[DistanceDim]
)

// outOfRange marks a result past the range. The most negative int64 has no
// positive twin, so giving it up leaves the range symmetric.
const outOfRange = math.MinInt64

// maxTicks is the end of the range.
const maxTicks = math.MaxInt64

// Huge is what float results answer for an out-of-range quantity. A NaN would
// slip through comparisons; this is refused by Of, so the fault stays visible.
const Huge = math.MaxFloat64

func fromTicks[D Dimension](n int64) Quantity[D] { return Quantity[D]{ticks: n} }

func invalid[D Dimension]() Quantity[D] { return Quantity[D]{ticks: outOfRange} }

// Valid is false only for the out-of-range value.
func (q Quantity[D]) Valid() bool { return q.ticks != outOfRange }

// IsZero reports whether q is exactly zero.
func (q Quantity[D]) IsZero() bool { return q.ticks == 0 }

// Sign returns -1, 0 or +1; 0 for the out-of-range value.
func (q Quantity[D]) Sign() int {
	if !q.Valid() {
		return 0
	}
	return cmp.Compare(q.ticks, 0)
}

// Add returns q + r exactly, or the out-of-range value.
func (q Quantity[D]) Add(r Quantity[D]) Quantity[D] {
	return fromTicks[D](addTicks(q.ticks, r.ticks))
}

// Sub returns q - r exactly, or the out-of-range value.
func (q Quantity[D]) Sub(r Quantity[D]) Quantity[D] { return q.Add(r.Neg()) }

// Neg returns -q exactly.
func (q Quantity[D]) Neg() Quantity[D] {
	// The out-of-range value is its own negative in two's complement.
	return fromTicks[D](-q.ticks)
}

// Abs returns q without its sign.
func (q Quantity[D]) Abs() Quantity[D] {
	if q.ticks < 0 {
		return q.Neg()
	}
	return q
}

// Compare returns -1, 0 or +1 as q is less than, equal to or more than r. The
// out-of-range value equals itself and is less than everything else, so that
// sorting is stable; ask Valid first where that matters.
func (q Quantity[D]) Compare(r Quantity[D]) int { return cmp.Compare(q.ticks, r.ticks) }

// Equal reports whether q and r are the same amount; it is ==.
func (q Quantity[D]) Equal(r Quantity[D]) bool { return q == r }

// Scale returns q times the dimensionless factor, rounded once to the nearest
// tick, half to even. The factor is taken as its shortest decimal: 0.1 is one
// tenth. NaN, infinities and results past the range give the out-of-range value.
func (q Quantity[D]) Scale(factor float64) Quantity[D] {
	if !q.Valid() {
		return q
	}
	n, _ := decimalTicks(factor, ratio{magnitude(q.ticks), 1})
	if q.ticks < 0 {
		n = -n // the out-of-range ticks are their own negative
	}
	return fromTicks[D](n)
}

// Ratio returns q/r, the nearest float64. Where r is zero or either is out of
// range there is no ratio, and the answer is Huge.
func (q Quantity[D]) Ratio(r Quantity[D]) float64 {
	if !q.Valid() || !r.Valid() || r.IsZero() {
		return Huge
	}
	x := quotient(magnitude(q.ticks), 1, magnitude(r.ticks))
	if (q.ticks < 0) != (r.ticks < 0) && x != 0 {
		return -x
	}
	return x
}

// exactFloat is the largest integer up to which float64 holds all of them.
const exactFloat = 1 << 53

func magnitude(n int64) uint64 {
	if n < 0 {
		return uint64(-n)
	}
	return uint64(n)
}

func addTicks(a, b int64) int64 {
	if a == outOfRange || b == outOfRange {
		return outOfRange
	}
	sum := a + b
	// Overflow flips the sign only where both operands share it.
	if (a^sum)&(b^sum) < 0 {
		return outOfRange
	}
	return sum
}

// signed gives the magnitude its sign, or reports that it does not fit.
func signed(mag uint64, negative bool) (int64, bool) {
	if mag > math.MaxInt64 {
		return outOfRange, false
	}
	if negative {
		return -int64(mag), true
	}
	return int64(mag), true
}

// roundQuotient divides hi:lo by d, half to even; it stays at the largest
// uint64 where it would round past it. The caller keeps hi < d.
func roundQuotient(hi, lo, d uint64) uint64 {
	quo, rem := bits.Div64(hi, lo, d)
	if roundsUp(quo, rem, d) && quo != math.MaxUint64 {
		quo++
	}
	return quo
}

// roundsUp says whether quo and rem/d is nearer to quo+1, or half way from an odd quo.
func roundsUp(quo, rem, d uint64) bool {
	return rem > d-rem || rem == d-rem && quo&1 == 1
}

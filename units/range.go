package units

import "fmt"

// Range is a quantity known only to lie between two ends, both included, such
// as a capacity given as "12 to 15 qt". The zero value is exactly zero.
type Range[D Dimension] struct{ low, high Quantity[D] }

// NewRange returns the range from low to high. Ends out of range or in the
// wrong order are an error.
func NewRange[D Dimension](low, high Quantity[D]) (Range[D], error) {
	s := specOf[D]()
	if !low.Valid() || !high.Valid() {
		return Range[D]{}, fmt.Errorf("units: range of %s: an end is %w; want two valid ends", s.kind, ErrOutOfRange)
	}
	if low.Compare(high) > 0 {
		return Range[D]{}, fmt.Errorf("units: range of %s: low end %s is above high end %s; want low..high", s.kind, low, high)
	}
	return Range[D]{low, high}, nil
}

// Exactly returns the range that holds q alone. An out-of-range q gives a
// range whose Valid is false.
func Exactly[D Dimension](q Quantity[D]) Range[D] { return Range[D]{q, q} }

// Low returns the low end.
func (r Range[D]) Low() Quantity[D] { return r.low }

// High returns the high end.
func (r Range[D]) High() Quantity[D] { return r.high }

// Mid returns the middle, rounded half to even to a tick.
func (r Range[D]) Mid() Quantity[D] {
	if !r.Valid() {
		return invalid[D]()
	}
	return fromTicks[D](total{}.add(r.low.ticks).add(r.high.ticks).over(2))
}

// Width returns high - low.
func (r Range[D]) Width() Quantity[D] { return r.high.Sub(r.low) }

// Valid reports whether both ends are in range.
func (r Range[D]) Valid() bool { return r.low.Valid() && r.high.Valid() }

// IsZero reports whether r is exactly zero, the zero value.
func (r Range[D]) IsZero() bool { return r.low.IsZero() && r.high.IsZero() }

// Contains reports whether q lies in the range, ends included.
func (r Range[D]) Contains(q Quantity[D]) bool {
	return r.Valid() && q.Valid() && r.low.Compare(q) <= 0 && q.Compare(r.high) <= 0
}

// Text returns "9.60 to 10.40 L", or a single amount where the ends are equal.
// Each end is rounded once, half to even.
func (r Range[D]) Text(u Unit[D], places int) string {
	if !r.Valid() || !dimensioned[D](code(u)) {
		return outOfRangeText
	}
	if r.low == r.high {
		return r.low.Text(u, places)
	}
	low := appendFixed(nil, r.low.ticks, ticksPer(code(u)), places)
	return string(low) + " to " + r.high.Text(u, places)
}

// String returns the exact ends in the dimension's base unit.
func (r Range[D]) String() string {
	if r.low == r.high {
		return r.low.String()
	}
	return r.low.String() + " to " + r.high.String()
}

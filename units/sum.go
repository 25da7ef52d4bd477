package units

import (
	"errors"
	"fmt"
	"math/bits"
)

// Sum returns the exact total; zero for no quantities. Only the total must be
// in range, not the sums on the way, so the order never matters. It is out of
func Sum[D Dimension](qs ...Quantity[D]) Quantity[D] {
	var sum total
	for _, q := range qs {
		if !q.Valid() {
			return q
		}
		sum = sum.add(q.ticks)
	}
	return fromTicks[D](sum.over(1))
}

// Mean returns the arithmetic mean, rounded once to the nearest tick, half to
// even. No quantities, or any out of range, is an error.
func Mean[D Dimension](qs ...Quantity[D]) (Quantity[D], error) {
	kind := specOf[D]().kind
	if len(qs) == 0 {
		return Quantity[D]{}, errNoMean(kind)
	}
	var sum total
	for i, q := range qs {
		if !q.Valid() {
			return Quantity[D]{}, errMeanOf(kind, i, len(qs))
		}
		sum = sum.add(q.ticks)
	}
	return fromTicks[D](sum.over(uint64(len(qs)))), nil
}

// MeanTemperature returns the arithmetic mean of the points, rounded once to
// the nearest tick, half to even. No points, or any out of range, is an error.
func MeanTemperature(points ...Temperature) (Temperature, error) {
	if len(points) == 0 {
		return Temperature{}, errNoMean("temperature")
	}
	var sum total
	for i, p := range points {
		if !p.Valid() {
			return Temperature{}, errMeanOf("temperature", i, len(points))
		}
		sum = sum.add(p.ticks)
	}
	return Temperature{sum.over(uint64(len(points)))}, nil
}

func errNoMean(kind string) error {
	return errors.New("units: mean of no " + kind + "; want at least one")
}

func errMeanOf(kind string, i, n int) error {
	return fmt.Errorf("units: mean of %d: %s %d is %w; want valid ones", n, kind, i+1, ErrOutOfRange)
}

// Min returns the least of the quantities; out of range where any is.
func Min[D Dimension](first Quantity[D], rest ...Quantity[D]) Quantity[D] {
	for _, q := range rest {
		// The out-of-range value is less than everything else, and so wins.
		if q.ticks < first.ticks {
			first = q
		}
	}
	return first
}

// Max returns the greatest of the quantities; out of range where any is.
func Max[D Dimension](first Quantity[D], rest ...Quantity[D]) Quantity[D] {
	for _, q := range rest {
		if !q.Valid() || first.Valid() && q.ticks > first.ticks {
			first = q
		}
	}
	return first
}

// total is a sum of ticks in 128 bits, two's complement, so that no number of
// quantities that fit in memory can leave its range.
type total struct {
	hi int64
	lo uint64
}

func (t total) add(ticks int64) total {
	lo, carry := bits.Add64(t.lo, uint64(ticks), 0)
	return total{hi: t.hi + ticks>>63 + int64(carry), lo: lo}
}

// over returns the total divided by n, half to even, or the out-of-range ticks.
func (t total) over(n uint64) int64 {
	hi, lo := uint64(t.hi), t.lo
	negative := t.hi < 0
	if negative {
		var borrow uint64
		lo, borrow = bits.Sub64(0, lo, 0)
		hi, _ = bits.Sub64(0, hi, borrow)
	}
	if hi >= n {
		return outOfRange
	}
	ticks, _ := signed(roundQuotient(hi, lo, n), negative)
	return ticks
}

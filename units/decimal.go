package units

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// Rounding says what becomes of the digits that are dropped.
type Rounding uint8

// The roundings. The zero value is HalfEven, which Text uses.
const (
	HalfEven Rounding = iota // to the nearest; a tie to the even digit
	HalfAway                 // to the nearest; a tie away from zero, as taught in school
	Down                     // towards zero
	Up                       // away from zero
	Floor                    // towards minus infinity
	Ceiling                  // towards plus infinity
)

// String returns the name of the rounding, such as "half even".
func (r Rounding) String() string {
	switch r {
	case HalfEven:
		return "half even"
	case HalfAway:
		return "half away from zero"
	case Down:
		return "down"
	case Up:
		return "up"
	case Floor:
		return "floor"
	case Ceiling:
		return "ceiling"
	}
	return fmt.Sprintf("rounding %d", uint8(r))
}

// Decimal returns how many of unit u the quantity is, as a decimal number with
// the given number of places: the exact amount, rounded once. Places below 0
// count as 0, above MostPlaces as MostPlaces. An out-of-range quantity, a unit
// of another dimension and an unknown rounding are errors.
func (q Quantity[D]) Decimal(u Unit[D], places int, rounding Rounding) (decimal.Decimal, error) {
	r := ratioOf[D](code(u))
	switch {
	case !q.Valid():
		return decimal.Decimal{}, fmt.Errorf("units: a %s that is %w has no decimal; want a valid one", specOf[D]().kind, ErrOutOfRange)
	case r.num == 0:
		return decimal.Decimal{}, errForeign(specOf[D]().kind)
	case rounding > Ceiling:
		return decimal.Decimal{}, fmt.Errorf("units: %s is not known; want one from HalfEven to Ceiling", rounding)
	}
	return roundDecimal(q, r, min(max(places, 0), MostPlaces), rounding), nil
}

func roundDecimal[D Dimension](q Quantity[D], r ratio, places int, rounding Rounding) decimal.Decimal {
	amount := decimal.New(q.ticks, 0).Mul(decimal.New(int64(r.den), 0))
	per := decimal.New(int64(r.num), 0)
	step := decimal.New(1, -int32(places))
	cut, rem := amount.QuoRem(per, int32(places)) // towards zero; rem has the amount's sign
	if rem.Cmp(decimal.Decimal{}) == 0 {
		return cut
	}
	sign := decimal.New(int64(q.Sign()), 0)
	half := rem.Mul(sign).Mul(decimal.New(2, 0)).Cmp(per.Mul(step))
	_, odd := cut.QuoRem(step.Mul(decimal.New(2, 0)), 0)
	if rounding.away(q.Sign(), half, odd.Cmp(decimal.Decimal{}) != 0) {
		cut = cut.Add(step.Mul(sign))
	}
	return cut
}

// away says whether a number cut towards zero moves one step away from it;
// half compares what was cut off with half a step.
func (r Rounding) away(sign, half int, odd bool) bool {
	switch r {
	case HalfEven:
		return half > 0 || half == 0 && odd
	case HalfAway:
		return half >= 0
	case Up:
		return true
	case Floor:
		return sign < 0
	case Ceiling:
		return sign > 0
	}
	return false
}

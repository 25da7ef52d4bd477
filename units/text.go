package units

import (
	"errors"
	"math/bits"
	"strconv"
)

// ErrOutOfRange is wrapped by every refusal of an out-of-range quantity.
var ErrOutOfRange = errors.New("out of range")

// MostPlaces is the most decimals Text prints.
const MostPlaces = 15

// outOfRangeText is how an out-of-range quantity prints.
const outOfRangeText = "out of range"

// Text returns the quantity in unit u with the given number of decimals and
// the unit's symbol, such as "2.50 US qt". The exact amount is rounded once,
// half to even; zero never carries a sign. Places below 0 count as 0, above
// MostPlaces as MostPlaces. It prints "out of range" for that value and where
// the unit is of another dimension.
func (q Quantity[D]) Text(u Unit[D], places int) string {
	return string(q.append(nil, u, places))
}

func (q Quantity[D]) append(b []byte, u Unit[D], places int) []byte {
	if !q.Valid() || !dimensioned[D](code(u)) {
		return append(b, outOfRangeText...)
	}
	r := ticksPer(code(u))
	b = appendFixed(b, magnitude(q.ticks), q.ticks < 0, r, places)
	b = append(b, ' ')
	return append(b, symbol(code(u))...)
}

// String returns the exact quantity in the dimension's base unit (L, N·m, mm,
// g, km; °C or, where that has no finite decimal, °F), without trailing zeros.
func (q Quantity[D]) String() string { return string(q.appendExact(nil)) }

func (q Quantity[D]) appendExact(b []byte) []byte {
	if !q.Valid() {
		return append(b, outOfRangeText...)
	}
	s := specOf[D]()
	u, places := s.exact, s.places
	if s.fallback != 0 && !finite(q.ticks, u, places) {
		u, places = s.fallback, s.more
	}
	b = appendFixed(b, magnitude(q.ticks), q.ticks < 0, ticksPer(u), places)
	b = trimZeros(b)
	b = append(b, ' ')
	return append(b, symbol(u)...)
}

// finite says whether the ticks have an exact decimal of that many places.
func finite(ticks int64, u code, places int) bool {
	hi, lo := bits.Mul64(magnitude(ticks), pow10(places))
	return bits.Rem64(hi, lo, ticksPer(u).num) == 0
}

// appendFixed appends n ticks in a unit with places decimals, half to even.
func appendFixed(b []byte, n uint64, negative bool, r ratio, places int) []byte {
	places = min(max(places, 0), MostPlaces)
	hi, lo := bits.Mul64(n, r.den)
	whole, rem := bits.Div64(hi, lo, r.num)
	p := pow10(places)
	hi, lo = bits.Mul64(rem, p)
	frac := roundQuotient(hi, lo, r.num)
	if places == 0 {
		// The half-even rule looks at the digit before, which is the whole part here.
		frac = halfEven(rem, r.num, whole)
	}
	if frac == p {
		whole, frac = whole+1, 0
	}
	if negative && (whole != 0 || frac != 0) {
		b = append(b, '-')
	}
	b = strconv.AppendUint(b, whole, 10)
	if places == 0 {
		return b
	}
	b = append(b, '.')
	for d := p / 10; d > frac && d > 1; d /= 10 {
		b = append(b, '0')
	}
	return strconv.AppendUint(b, frac, 10)
}

func halfEven(rem, d, whole uint64) uint64 {
	if rem > d-rem || rem == d-rem && whole&1 == 1 {
		return 1
	}
	return 0
}

// trimZeros drops trailing zeros of a decimal fraction, and its point.
func trimZeros(b []byte) []byte {
	point := false
	for _, c := range b {
		point = point || c == '.'
	}
	if !point {
		return b
	}
	for b[len(b)-1] == '0' {
		b = b[:len(b)-1]
	}
	if b[len(b)-1] == '.' {
		b = b[:len(b)-1]
	}
	return b
}

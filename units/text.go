package units

import (
	"bytes"
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
	var buf [textBytes]byte
	return string(appendUnit[D](buf[:0], q.ticks, code(u), places))
}

// textBytes holds every exact text: sign, 20 digits, point and unit.
const textBytes = 48

func appendUnit[D Dimension](b []byte, ticks int64, c code, places int) []byte {
	r := ratioOf[D](c)
	if ticks == outOfRange || r.num == 0 {
		return append(b, outOfRangeText...)
	}
	b = appendFixed(b, ticks, r, places)
	b = append(b, ' ')
	return append(b, symbol(c)...)
}

// String returns the exact quantity in the dimension's base unit (L, N·m, mm,
// g, km; °C or, where that has no finite decimal, °F), without trailing zeros.
func (q Quantity[D]) String() string {
	var buf [textBytes]byte
	return string(q.appendExact(buf[:0]))
}

func (q Quantity[D]) appendExact(b []byte) []byte {
	if !q.Valid() {
		return append(b, outOfRangeText...)
	}
	s := specOf[D]()
	if s.fallback != 0 && !finite(q.ticks, s.exact, s.places) {
		return appendTrimmed(b, q.ticks, s.fallback, s.more)
	}
	return appendTrimmed(b, q.ticks, s.exact, s.places)
}

// appendTrimmed appends ticks in a unit without trailing zeros.
func appendTrimmed(b []byte, ticks int64, c code, places int) []byte {
	start := len(b)
	b = appendFixed(b, ticks, ticksPer(c), places)
	b = append(b[:start], trimZeros(b[start:])...)
	b = append(b, ' ')
	return append(b, symbol(c)...)
}

// finite says whether the ticks have an exact decimal of that many places.
func finite(ticks int64, u code, places int) bool {
	hi, lo := bits.Mul64(magnitude(ticks), pow10(places))
	return bits.Rem64(hi, lo, ticksPer(u).num) == 0
}

// appendFixed appends ticks in a unit with places decimals, half to even.
func appendFixed(b []byte, ticks int64, r ratio, places int) []byte {
	places = min(max(places, 0), MostPlaces)
	power := pow10(places)
	hi, lo := bits.Mul64(magnitude(ticks), r.den)
	whole, rem := bits.Div64(hi, lo, r.num)
	hi, lo = bits.Mul64(rem, power)
	frac, rem := bits.Div64(hi, lo, r.num)
	last := frac
	if places == 0 {
		last = whole // the digit that a tie makes even
	}
	if roundsUp(last, rem, r.num) {
		frac++
	}
	if frac == power {
		whole, frac = whole+1, 0
	}
	if ticks < 0 && (whole != 0 || frac != 0) {
		b = append(b, '-')
	}
	b = strconv.AppendUint(b, whole, 10)
	if places == 0 {
		return b
	}
	b = append(b, '.')
	for d := power / 10; d > frac && d > 1; d /= 10 {
		b = append(b, '0')
	}
	return strconv.AppendUint(b, frac, 10)
}

// trimZeros drops trailing zeros of a decimal fraction, and its point.
func trimZeros(b []byte) []byte {
	return bytes.TrimSuffix(bytes.TrimRight(b, "0"), []byte("."))
}

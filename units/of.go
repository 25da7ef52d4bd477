package units

import (
	"bytes"
	"fmt"
	"math"
	"math/big"
	"math/bits"
	"strconv"
)

// Of returns x units. The float is taken as its shortest decimal, so that
// USQuart.Of(0.1) is a tenth of a quart and not the binary neighbour of it;
// the result is exact where the unit is, else rounded once to the nearest
// tick, half to even. NaN, infinities and numbers too large give the
// out-of-range value; TryOf says so with an error.
func (u Unit[D]) Of(x float64) Quantity[D] {
	r := ratioOf[D](code(u))
	if r.num == 0 {
		return invalid[D]()
	}
	n, _ := decimalTicks(x, r)
	return fromTicks[D](n)
}

// TryOf is Of with an error where the result would be out of range. For a
// number that is too large or not finite it wraps ErrOutOfRange.
func (u Unit[D]) TryOf(x float64) (Quantity[D], error) {
	q := u.Of(x)
	if q.Valid() {
		return q, nil
	}
	s := specOf[D]()
	switch {
	case !dimensioned[D](code(u)):
		return q, errForeign(s.kind)
	case math.IsNaN(x):
		return q, fmt.Errorf("units: NaN %s is %w; want a finite number", u, ErrOutOfRange)
	}
	return q, fmt.Errorf("units: %v %s is %w; want at most about %s either way", x, u, ErrOutOfRange, fromTicks[D](maxTicks).Text(u, 0))
}

func errForeign(kind string) error {
	return fmt.Errorf("units: not a unit of %s; want one of the package's constants for it", kind)
}

// decimalTicks returns the shortest decimal of x times r, rounded once; where
// it does not fit, the out-of-range ticks and false.
func decimalTicks(x float64, r ratio) (int64, bool) {
	// Nine decimals hold all that is written on a jug or a sheet. A number of
	// at most 15 digits that divides back to x is the only such number: a
	// float64 tells any two decimals of 15 digits apart.
	ax := math.Abs(x)
	if ax < 1e6 {
		if m := math.RoundToEven(ax * 1e9); m/1e9 == ax {
			if n, ok := roundRatio(uint64(m), r.num, r.den*1e9); ok {
				return signed(n, x < 0)
			}
		}
	}
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return outOfRange, false
	}
	var buf [32]byte
	digits, exp := splitDecimal(strconv.AppendFloat(buf[:0], ax, 'e', -1, 64))
	return numeral{lo: digits, exp: exp, over: 1, negative: x < 0}.ticks(r)
}

// splitDecimal reads strconv's own d.ddde±xx form.
func splitDecimal(b []byte) (digits uint64, exp int) {
	mantissa, power, _ := bytes.Cut(b, []byte("e"))
	exp, _ = strconv.Atoi(string(power))
	for i, c := range mantissa {
		if i != 1 { // the point
			digits = digits*10 + uint64(c-'0')
		}
	}
	return digits, exp - max(0, len(mantissa)-2)
}

// scaleDigits returns digits * 10^exp / over * num/den rounded half to even. It
// answers false where 128 bits are not enough; scaleBig then decides. Only one
// of exp and over is at work: a fraction has no exponent.
func scaleDigits(digits uint64, exp int, over uint64, r ratio) (uint64, bool) {
	if exp > 0 || exp < -18 {
		return 0, false
	}
	return roundRatio(digits, r.num, r.den*over*pow10(-exp)) // at most 10 × 10^18
}

// roundRatio returns a*b/d rounded half to even, or false where it needs more
// than 64 bits.
func roundRatio(a, b, d uint64) (uint64, bool) {
	hi, lo := bits.Mul64(a, b)
	if hi >= d {
		return 0, false
	}
	return roundQuotient(hi, lo, d), true
}

// pow10 returns 10^n for 0 <= n <= 18.
func pow10(n int) uint64 {
	return [...]uint64{
		1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9,
		1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18,
	}[n]
}

// scaleBig returns mant * 10^exp / over * num/den rounded half to even, for
// what 128 bits cannot hold.
func scaleBig(mant *big.Int, exp int, over *big.Int, r ratio) (int64, bool) {
	num := new(big.Int).Mul(mant, new(big.Int).SetUint64(r.num))
	den := new(big.Int).Mul(over, new(big.Int).SetUint64(r.den))
	// num is below 2^184 and den below 2^64, so that the answer is known
	// beyond these exponents, and no great power is ever made.
	switch {
	case num.Sign() == 0 || exp < -60:
		return 0, true
	case exp > 60:
		return outOfRange, false
	case exp >= 0:
		num.Mul(num, bigPow10(exp))
	default:
		den.Mul(den, bigPow10(-exp))
	}
	return roundBig(num, den)
}

func bigPow10(n int) *big.Int {
	return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil)
}

// roundBig returns num/den rounded half to even, for non-negative num.
func roundBig(num, den *big.Int) (int64, bool) {
	quo, rem := new(big.Int).QuoRem(num, den, new(big.Int))
	switch rem.Lsh(rem, 1).Cmp(den) {
	case 1:
		quo.Add(quo, big.NewInt(1))
	case 0:
		if quo.Bit(0) == 1 {
			quo.Add(quo, big.NewInt(1))
		}
	}
	if !quo.IsInt64() {
		return outOfRange, false
	}
	return quo.Int64(), true
}

package units

import (
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
	if !dimensioned[D](code(u)) {
		return invalid[D]()
	}
	n, ok := decimalTicks(x, ticksPer(code(u)))
	if !ok {
		return invalid[D]()
	}
	return fromTicks[D](n)
}

// TryOf is Of with an error where the result would be out of range; the error
// then wraps ErrOutOfRange.
func (u Unit[D]) TryOf(x float64) (Quantity[D], error) {
	q := u.Of(x)
	if q.Valid() {
		return q, nil
	}
	s := specOf[D]()
	switch {
	case !dimensioned[D](code(u)):
		return q, fmt.Errorf("units: not a unit of %s: %w; want one of the package's constants for it", s.kind, ErrOutOfRange)
	case math.IsNaN(x):
		return q, fmt.Errorf("units: NaN %s is %w; want a finite number", u, ErrOutOfRange)
	}
	return q, fmt.Errorf("units: %v %s is %w; want at most about %s either way", x, u, ErrOutOfRange, fromTicks[D](maxTicks).Text(u, 0))
}

// decimalTicks returns the shortest decimal of x times r, rounded once.
func decimalTicks(x float64, r ratio) (int64, bool) {
	const fast = 1e9 // nine decimals hold all that is written on a jug or a sheet
	ax := math.Abs(x)
	if ax < 1e6 {
		// At most 15 digits that divide back to x are its shortest decimal.
		if m := math.Round(ax * fast); m/fast == ax && m <= 1e15 {
			if n, ok := scaleDigits(uint64(m), -9, r); ok {
				return signed(n, x < 0)
			}
		}
	}
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return outOfRange, false
	}
	var buf [32]byte
	digits, exp := splitDecimal(strconv.AppendFloat(buf[:0], ax, 'e', -1, 64))
	if n, ok := scaleDigits(digits, exp, r); ok {
		return signed(n, x < 0)
	}
	n, ok := scaleBig(new(big.Int).SetUint64(digits), exp, big.NewInt(1), r)
	if x < 0 {
		n = -n
	}
	return n, ok
}

// splitDecimal reads strconv's own d.ddde±xx form.
func splitDecimal(b []byte) (digits uint64, exp int) {
	point := false
	for i, c := range b {
		switch {
		case c == '.':
			point = true
		case c == 'e':
			e, _ := strconv.Atoi(string(b[i+1:]))
			return digits, exp + e
		default:
			digits = digits*10 + uint64(c-'0')
			if point {
				exp--
			}
		}
	}
	return digits, exp
}

// scaleDigits returns digits * 10^exp * num/den rounded half to even. It
// answers false where 128 bits are not enough; scaleBig then decides.
func scaleDigits(digits uint64, exp int, r ratio) (uint64, bool) {
	if digits == 0 {
		return 0, true
	}
	if exp > 0 || exp < -17 || r.den > 180 {
		return 0, false
	}
	hi, lo := bits.Mul64(digits, r.num)
	d := r.den * pow10(-exp)
	if hi >= d {
		return 0, false
	}
	quo := roundQuotient(hi, lo, d)
	return quo, quo <= math.MaxInt64
}

// pow10 returns 10^n for 0 <= n <= 18.
func pow10(n int) uint64 {
	p := uint64(1)
	for range n {
		p *= 10
	}
	return p
}

// scaleBig returns mant * 10^exp / over * num/den rounded half to even, for
// what 128 bits cannot hold. Exponents are bounded before any power is made.
func scaleBig(mant *big.Int, exp int, over *big.Int, r ratio) (int64, bool) {
	if mant.Sign() == 0 {
		return 0, true
	}
	if exp > 60 {
		return outOfRange, false
	}
	if exp < -400 {
		return 0, true // the largest mantissa here is far below 1e100
	}
	num := new(big.Int).Mul(mant, new(big.Int).SetUint64(r.num))
	den := new(big.Int).Mul(over, new(big.Int).SetUint64(r.den))
	power := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(exp, -exp))), nil)
	if exp >= 0 {
		num.Mul(num, power)
	} else {
		den.Mul(den, power)
	}
	return roundBig(num, den)
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

package units

import (
	"math"
	"math/big"
	"math/rand/v2"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"
)

// The slow versions. They share nothing with the code they check: decimal
// arithmetic for what is rounded to ticks and to text, big.Rat for what is
// rounded to float64.

func decimalOf(ticks int64) decimal.Decimal { return decimal.New(ticks, 0) }

// perUnit is the ticks of a unit as an exact decimal.
func perUnit(c code) decimal.Decimal {
	r := ticksPer(c)
	return decimal.NewFromBigInt(new(big.Int).SetUint64(r.num), 0).DivRound(decimal.NewFromBigInt(new(big.Int).SetUint64(r.den), 0), 20)
}

// slowTicks is x units rounded half to even, or the out-of-range ticks.
func slowTicks(x float64, per decimal.Decimal) int64 {
	d, err := decimal.NewFromString(strconv.FormatFloat(x, 'f', -1, 64))
	if err != nil {
		panic(err)
	}
	n := d.Mul(per).RoundBank(0)
	if n.Abs().Cmp(decimal.New(maxTicks, 0)) > 0 {
		return outOfRange
	}
	return n.IntPart()
}

// edgeFloats are numbers that break things.
func edgeFloats() []float64 {
	xs := []float64{
		0, math.Copysign(0, -1), 1, 0.1, 0.2, 0.3, 0.5, 1.5, 2.5, 0.7, 1.0 / 3, 2.0 / 3, 1e-9, 5e-10, 1e-14, 5e-15, 1.5e-14, 2.5e-14, 1e-15, 1e-16, 1e-20,
		123456.789012345, 999999.999999999, 1e6, 1e6 - 1e-9, 1e15, 1<<53 - 1, 1 << 53, 92233.72036854775, 92233.72036854776, 92233.7203685478, 1e18, 1e19, 1e60, 1e61, 1e300,
		math.MaxFloat64, math.SmallestNonzeroFloat64, 2.2250738585072014e-308, math.Pi, math.E, 0.1 + 0.2, math.Nextafter(2.5, 3), math.Nextafter(2.5, 2), math.Nextafter(1e6, 0),
		12345678.123456789, 98765432.10987654, 8388608.1, // where many decimals of nine places are the same float
	}
	for _, x := range xs[1:] {
		xs = append(xs, -x)
	}
	return xs
}

// ten is 10^n, the nearest float64 on every machine, which math.Pow is not.
func ten(n int) float64 {
	x, err := strconv.ParseFloat("1e"+strconv.Itoa(n), 64)
	if err != nil {
		panic(err)
	}
	return x
}

func manyFloats(n int) []float64 {
	r := rand.New(rand.NewPCG(5, 6))
	xs := edgeFloats()
	for range n {
		xs = append(xs,
			(r.Float64()-0.5)*ten(r.IntN(24)-16),                                   // all sizes, all digits
			math.Round(r.Float64()*1e6)/ten(r.IntN(10)),                            // few digits
			math.Round(r.Float64()*1e15)/ten(r.IntN(20)),                           // about fifteen
			math.Float64frombits(r.Uint64()&^(0x7FF<<52)|uint64(r.IntN(2047))<<52)) // all bits
	}
	return xs
}

func eachUnit(f func(c code)) {
	for c := range lastCode + 1 {
		if ticksPer(c).num != 0 {
			f(c)
		}
	}
}

// nearest rounds an exact number to float64; big.Rat does so half to even.
func nearest(x *big.Rat) float64 {
	f, _ := x.Float64()
	return f
}

// bankers rounds to an integer, half to even, from first principles.
func bankers(x *big.Rat) int64 {
	floor := new(big.Int).Div(x.Num(), x.Denom()) // Euclidean: floor, as the denominator is positive
	rest := new(big.Rat).Sub(x, new(big.Rat).SetInt(floor))
	up := rest.Cmp(big.NewRat(1, 2))
	if up > 0 || up == 0 && floor.Bit(0) == 1 {
		floor.Add(floor, big.NewInt(1))
	}
	if !floor.IsInt64() {
		return outOfRange
	}
	return floor.Int64()
}

// slowText prints with decimal's own half-even rounding.
func slowText(n int64, c code, places int32) string {
	r := ticksPer(c)
	x := decimalOf(n).Mul(decimal.New(int64(r.den), 0))
	per := decimal.New(int64(r.num), 0)
	quo, rem := x.QuoRem(per, places)
	twice := rem.Abs().Mul(decimal.New(2, 0)).Cmp(per.Mul(decimal.New(1, -places)))
	odd := quo.Abs().Mul(decimal.New(1, places)).BigInt().Bit(0) == 1
	if twice > 0 || twice == 0 && odd {
		quo = quo.Add(decimal.New(int64(x.Sign()), -places))
	}
	s := quo.StringFixed(places)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return s + " " + symbol(c)
}

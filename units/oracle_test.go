package units

import (
	"math"
	"math/big"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

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
	}
	for _, x := range xs[1:] {
		xs = append(xs, -x)
	}
	return xs
}

func manyFloats(n int) []float64 {
	r := rand.New(rand.NewPCG(5, 6))
	xs := edgeFloats()
	for range n {
		xs = append(xs,
			(r.Float64()-0.5)*math.Pow(10, float64(r.IntN(24)-16)),                 // all sizes, all digits
			math.Round(r.Float64()*1e6)/math.Pow(10, float64(r.IntN(10))),          // few digits
			math.Round(r.Float64()*1e15)/math.Pow(10, float64(r.IntN(20))),         // about fifteen
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

func TestOfAgreesWithDecimals(t *testing.T) {
	xs := manyFloats(300)
	eachUnit(func(c code) {
		per := perUnit(c)
		for _, x := range xs {
			if math.Abs(x) > 1e200 || x != 0 && math.Abs(x) < 1e-200 {
				continue // decimal would take long; the edge cases below cover them
			}
			got, ok := decimalTicks(x, ticksPer(c))
			if want := slowTicks(x, per); got != want || ok != (want != outOfRange) {
				t.Fatalf("%v %s is %d ticks, want %d", x, symbol(c), got, want)
			}
		}
	})
	for _, x := range []float64{math.MaxFloat64, -math.MaxFloat64, math.Inf(1), math.Inf(-1), math.NaN()} {
		if Litre.Of(x).Valid() {
			t.Errorf("%v L is in range", x)
		}
	}
	for _, x := range []float64{math.SmallestNonzeroFloat64, -math.SmallestNonzeroFloat64, 1e-300} {
		if !Litre.Of(x).IsZero() {
			t.Errorf("%v L is not zero", x)
		}
	}
}

func TestScaleAgreesWithDecimals(t *testing.T) {
	xs, ticks := manyFloats(50), manyTicks(50)
	for _, n := range ticks {
		for _, x := range xs {
			if math.Abs(x) > 1e200 || x != 0 && math.Abs(x) < 1e-200 {
				continue
			}
			got := fromTicks[VolumeDim](n).Scale(x)
			if want := slowTicks(x, decimalOf(n)); got.ticks != want {
				t.Fatalf("%d ticks times %v is %d, want %d", n, x, got.ticks, want)
			}
		}
	}
}

func TestAddSubSumMeanAgreeWithBigIntegers(t *testing.T) {
	ticks := manyTicks(100)
	inRange := func(n *big.Int) int64 {
		if !n.IsInt64() || n.Int64() == outOfRange {
			return outOfRange
		}
		return n.Int64()
	}
	for _, a := range ticks {
		for _, b := range ticks {
			p, q := fromTicks[TorqueDim](a), fromTicks[TorqueDim](b)
			sum := new(big.Int).Add(big.NewInt(a), big.NewInt(b))
			diff := new(big.Int).Sub(big.NewInt(a), big.NewInt(b))
			if got := p.Add(q).ticks; got != inRange(sum) {
				t.Fatalf("%d + %d = %d", a, b, got)
			}
			if got := p.Sub(q).ticks; got != inRange(diff) {
				t.Fatalf("%d - %d = %d", a, b, got)
			}
			if got := Sum(p, q, q.Neg(), p, p.Neg()); got != p {
				t.Fatalf("%d and what cancels sum to %d", a, got.ticks)
			}
			want := decimal.NewFromBigInt(sum, 0).Add(decimalOf(a)).DivRound(decimal.New(3, 0), 1).RoundBank(0)
			if got, err := Mean(p, q, p); err != nil || got.ticks != want.IntPart() {
				t.Fatalf("mean of %d, %d, %d = %d, %v; want %v", a, b, a, got.ticks, err, want)
			}
			half := decimal.NewFromBigInt(sum, 0).Mul(decimal.New(5, -1)).RoundBank(0)
			if got := (Range[TorqueDim]{Min(p, q), Max(p, q)}).Mid(); got.ticks != half.IntPart() {
				t.Fatalf("middle of %d and %d = %d, want %v", a, b, got.ticks, half)
			}
		}
	}
}

// nearest rounds an exact number to float64; big.Rat does so half to even.
func nearest(x *big.Rat) float64 {
	f, _ := x.Float64()
	return f
}

// The decimal that rounds to n ticks, found by trying the neighbours with exact
// arithmetic; else the nearest float.
func TestInAgreesWithSearch(t *testing.T) {
	var decimals, nearests int
	for _, n := range manyTicks(1_000) {
		eachUnit(func(c code) {
			per := ticksOf(c)
			power := big.NewRat(1, 1)
			for next := product("10"); next.Cmp(per) <= 0; next.Mul(next, rat("10")) {
				power.Set(next)
			}
			exact := new(big.Rat).Quo(new(big.Rat).SetInt64(n), per)
			scaled := new(big.Rat).Mul(exact, power)
			floor := new(big.Int).Div(scaled.Num(), scaled.Denom())
			want, found := nearest(exact), 0
			for k := int64(-1); k <= 2; k++ {
				digits := new(big.Int).Add(floor, big.NewInt(k))
				candidate := new(big.Rat).Quo(new(big.Rat).SetInt(digits), power)
				if bankers(new(big.Rat).Mul(candidate, per)) == n {
					want, found = nearest(candidate), found+1
				}
			}
			switch found {
			case 0:
				nearests++
			case 1:
				decimals++
			default:
				t.Fatalf("%d decimals round to %d ticks of %s", found, n, symbol(c))
			}
			if got := readBack(n, ticksPer(c)); math.Float64bits(got) != math.Float64bits(want) {
				t.Fatalf("%d ticks are %v %s, want %v", n, got, symbol(c), want)
			}
		})
	}
	if decimals < 1000 || nearests < 1000 {
		t.Errorf("%d decimals, %d nearest floats: a branch is hardly tried", decimals, nearests)
	}
}

// In is at most half a tick from the quantity, and then rounded to a float64.
func TestInIsNoFurtherThanHalfATick(t *testing.T) {
	for _, n := range manyTicks(3_000) {
		eachUnit(func(c code) {
			r := ticksPer(c)
			got := readBack(n, r)
			near := nearest(new(big.Rat).Quo(new(big.Rat).SetInt64(n), ticksOf(c)))
			ulp := math.Nextafter(math.Abs(near), Huge) - math.Abs(near)
			if math.Abs(got-near) > 0.5/float64(r.num)*float64(r.den)+ulp {
				t.Fatalf("%d ticks are %v %s, the nearest float is %v", n, got, symbol(c), near)
			}
		})
	}
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

func TestRatioIsTheNearestFloat(t *testing.T) {
	ticks := manyTicks(200)
	for _, a := range ticks {
		for _, b := range ticks {
			got := fromTicks[MassDim](a).Ratio(fromTicks[MassDim](b))
			want := Huge
			if b != 0 {
				want = nearest(big.NewRat(a, b))
			}
			if math.Float64bits(got) != math.Float64bits(want) {
				t.Fatalf("%d / %d = %v, want %v", a, b, got, want)
			}
		}
	}
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

func TestTextAgreesWithDecimals(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for _, n := range manyTicks(500) {
		eachUnit(func(c code) {
			places := r.IntN(MostPlaces + 1)
			got := string(appendFixed(nil, n, ticksPer(c), places)) + " " + symbol(c)
			if want := slowText(n, c, int32(places)); got != want {
				t.Fatalf("%d ticks with %d places print %q, want %q", n, places, got, want)
			}
		})
	}
}

func TestTextTies(t *testing.T) {
	for _, c := range []struct {
		ml     float64
		places int
		want   string
	}{
		{0.5, 0, "0 mL"}, {1.5, 0, "2 mL"}, {2.5, 0, "2 mL"}, {-0.5, 0, "0 mL"}, {-1.5, 0, "-2 mL"}, {0.51, 0, "1 mL"},
		{0.125, 2, "0.12 mL"}, {0.375, 2, "0.38 mL"}, {9.995, 2, "10.00 mL"}, {9.985, 2, "9.98 mL"}, {-0.004, 2, "0.00 mL"}, {-0.005001, 2, "-0.01 mL"},
		{99.95, 1, "100.0 mL"}, {0.05, 3, "0.050 mL"}, {1, -3, "1 mL"}, {1, 99, "1.000000000000000 mL"},
	} {
		if got := Millilitre.Of(c.ml).Text(Millilitre, c.places); got != c.want {
			t.Errorf("%v with %d places prints %q, want %q", c.ml, c.places, got, c.want)
		}
	}
	if got := fromTicks[VolumeDim](-maxTicks).Text(Millilitre, 15); got != "-92233720.368547758070000 mL" {
		t.Errorf("the lowest volume prints %q", got)
	}
	if got := fromTicks[LengthDim](maxTicks).Text(Millimetre, 6); got != "9223372036854.775807 mm" {
		t.Errorf("the largest length prints %q", got)
	}
}

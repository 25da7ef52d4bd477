package units

import (
	"math"
	"math/big"
	"testing"
)

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

package units

import (
	"math"
	"math/big"
	"math/bits"
	"math/rand/v2"
	"strconv"
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
				if bankers(new(big.Rat).Mul(candidate, per)) == n && survives(nearest(candidate), per, n) {
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

// survives says whether the shortest decimal of x still rounds to n ticks: a
// decimal of 16 digits or more may be lost in a float.
func survives(x float64, per *big.Rat, n int64) bool {
	return bankers(new(big.Rat).Mul(rat(strconv.FormatFloat(x, 'g', -1, 64)), per)) == n
}

// In comes from an exact ratio where no float brings the ticks back: the
// nearest float, by GNU units' exact ratios of the definitions.
func TestInIsTheNearestWhereNoFloatComesBack(t *testing.T) {
	if got := Gram.Of(4492294.84).In(Ounce); got != 158461.03725245642 {
		t.Errorf("%v oz", got)
	}
	if got := NewtonMetre.Of(28.831551).In(PoundForceInch); got != 255.18072867068508 {
		t.Errorf("%v lbf·in", got)
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

// The hardest divisions: half way between two floats but for the smallest
// amount that a divisor allows, above and below. r·2^j = k·d ± 1 has k odd, so
// that r/d is an odd number of 2^-j and a trifle.
func TestQuotientNextToTies(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	tried := 0
	for range 3_000 {
		d := r.Uint64()>>(2+r.IntN(61)) | 1
		if d < 3 {
			continue
		}
		j := 1 + r.IntN(120)
		power := new(big.Int).Lsh(big.NewInt(1), uint(j))
		inverse := new(big.Int).ModInverse(power, new(big.Int).SetUint64(d)).Uint64()
		for _, rest := range []uint64{inverse, d - inverse} {
			ns := []uint64{rest}
			if w := 54 - j; w > 0 {
				// A whole part that puts the odd bit right behind the float's last.
				whole := 1<<(w-1) | r.Uint64()>>1&(1<<(w-1)-1)
				if hi, lo := bits.Mul64(whole, d); hi == 0 && lo < 1<<63-rest {
					ns = append(ns, lo+rest)
				}
			}
			for _, n := range ns {
				want := nearest(new(big.Rat).SetFrac(new(big.Int).SetUint64(n), new(big.Int).SetUint64(d)))
				if got := quotient(n, 1, d); got != want {
					t.Fatalf("%d / %d = %v, want %v", n, d, got, want)
				}
				tried++
			}
		}
	}
	if tried < 6_000 {
		t.Errorf("only %d divisions", tried)
	}
}

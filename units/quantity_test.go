package units

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
)

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

func TestArithmeticProperties(t *testing.T) {
	ticks := manyTicks(60)
	for _, a := range ticks {
		p := fromTicks[MassDim](a)
		if p.Neg().Neg() != p || p.Abs().Sign() < 0 || p.Sub(p) != (Mass{}) || p.Scale(1) != p || p.Scale(-1) != p.Neg() || p.Scale(0) != (Mass{}) {
			t.Fatalf("%d ticks break an identity", a)
		}
		for _, b := range ticks {
			q := fromTicks[MassDim](b)
			if p.Add(q) != q.Add(p) {
				t.Fatalf("%d + %d depends on the order", a, b)
			}
			if sum := p.Add(q); sum.Valid() && (sum.Sub(q) != p || sum.Sub(p) != q) {
				t.Fatalf("%d + %d does not come back", a, b)
			}
			if p.Compare(q) != -q.Compare(p) || (p.Compare(q) == 0) != (p == q) || p.Equal(q) != (p == q) {
				t.Fatalf("%d and %d are ordered two ways", a, b)
			}
			if diff := p.Sub(q); diff.Valid() && diff.Sign() != p.Compare(q) {
				t.Fatalf("%d - %d has sign %d", a, b, diff.Sign())
			}
			if lo, hi := Min(p, q), Max(p, q); lo.Compare(hi) > 0 || lo != p && lo != q || Sum(lo, hi) != Sum(p, q) {
				t.Fatalf("%d and %d: Min %v, Max %v", a, b, lo, hi)
			}
		}
	}
}

func TestSortingIsTotal(t *testing.T) {
	bad := Litre.Of(math.Inf(-1))
	vs := []Volume{Litre.Of(2), bad, Litre.Of(-1), {}, bad, Litre.Of(1)}
	slices.SortFunc(vs, Volume.Compare)
	if want := []Volume{bad, bad, Litre.Of(-1), {}, Litre.Of(1), Litre.Of(2)}; !slices.Equal(vs, want) {
		t.Errorf("sorted %v", vs)
	}
}

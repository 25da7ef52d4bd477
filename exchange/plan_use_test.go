package exchange

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

func TestBestUseByHand(t *testing.T) {
	r := Request{
		Capacity: dilutionRange(t, 10, 10), Drain: dilutionRange(t, 2, 2), Target: 0.6,
		KeptOnce: dilutionLitres(0.5), FinalAllowance: dilutionLitres(0.5),
	}
	// Six bottles of 1 L, 1 L of allowances: two drains of 2 L and one of 1 L,
	// 0.8 × 0.8 × 0.9 = 0.576; three equal drains of 5/3 L leave (5/6)³ = 0.5787.
	u, err := BestUse(r, Supply{Bottle: dilutionLitres(1), Bottles: 6})
	if err != nil {
		t.Fatal(err)
	}
	if u.Worst.Full != 2 || u.Worst.Part != dilutionLitres(1) || !u.Worst.Left.IsZero() || !u.Met {
		t.Errorf("%+v, met %v", u.Worst, u.Met)
	}
	dilutionNear(t, "share", u.Share.High, 0.576, 1e-15)
	dilutionNear(t, "evenly", u.Evenly, math.Pow(5.0/6, 3), 1e-15)
	// Money for three bottles: the rest after allowances is one full drain.
	u, err = BestUse(r, Supply{Bottle: dilutionLitres(1), BottlePrice: decimal.New(1299, -2), Budget: decimal.New(40, 0)})
	if err != nil || u.Bottles != 3 || u.Worst.Full != 1 || !u.Worst.Part.IsZero() || u.Cost.Cmp(decimal.New(3897, -2)) != 0 {
		t.Errorf("%+v, %v", u, err)
	}
	// What is left would only fill the line that hands it back.
	r.LineReturns = dilutionLitres(0.25)
	u, err = BestUse(r, Supply{Bottle: dilutionLitres(3.25), Bottles: 1})
	if err != nil || u.Worst.Full != 1 || !u.Worst.Part.IsZero() || u.Worst.Left != dilutionLitres(0.25) {
		t.Errorf("%+v, %v", u.Worst, err)
	}
	dilutionNear(t, "share", u.Worst.Share, 1-1.75/10, 1e-15)
	r.LineReturns = units.Volume{}
	// Not even the allowances.
	u, err = BestUse(r, Supply{Bottle: dilutionLitres(1), Bottles: 1})
	if err != nil || u.Worst != (Spread{Share: 1}) || u.Evenly != 1 {
		t.Errorf("%+v, %v", u, err)
	}
}

// Two corners: the largest capacity with the smallest drains, and the other way
// about. 5 L are two drains of 2.5 L, or one of 3 and one of 2.
func TestBestUseCorners(t *testing.T) {
	u, err := BestUse(planRequest(t), Supply{Bottle: dilutionLitres(1), Bottles: 5})
	if err != nil || u.Worst.Full != 2 || u.Best.Full != 1 || u.Best.Part != dilutionLitres(2) {
		t.Fatalf("%+v, %v", u, err)
	}
	dilutionNear(t, "worst", u.Share.High, (1-2.5/15)*(1-2.5/15), 1e-15)
	dilutionNear(t, "best", u.Share.Low, (1-3.0/12)*(1-2.0/12), 1e-15)
	if u, err = BestUse(planRequest(t), Supply{Bottle: dilutionLitres(1), Bottles: useMostBottles}); err != nil || u.Bottles != useMostBottles {
		t.Errorf("%d bottles of a litre: %v", u.Bottles, err)
	}
}

// No way to pour the same fluid over up to five drains, on a grid of tenths of a
// litre, beats full drains first.
func TestBestUseAgainstEveryOtherWay(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	for range 40 {
		c, d := 6+rng.IntN(6), 10+rng.IntN(15) // d in tenths
		bottles := 1 + rng.IntN(6)
		each := rng.IntN(3)
		r := Request{
			Capacity: dilutionRange(t, float64(c), float64(c)), Drain: dilutionRange(t, float64(d)/10, float64(d)/10),
			FilmEachTime: dilutionLitres(float64(each) / 10), Target: 0.5,
		}
		u, err := BestUse(r, Supply{Bottle: dilutionLitres(1), Bottles: bottles})
		if err != nil {
			t.Fatal(err)
		}
		best := useEveryWay(bottles*10, d, each, float64(c)*10, 5)
		if u.Worst.Full+1 <= 5 && u.Worst.Share > best+1e-12 {
			t.Errorf("C %d d %d each %d bottles %d: %+v, another way leaves %v", c, d, each, bottles, u.Worst, best)
		}
		if u.Evenly < u.Worst.Share-1e-12 {
			t.Errorf("equal drains leave %v, less than %v", u.Evenly, u.Worst.Share)
		}
	}
}

// useEveryWay tries every list of at most n drains, each at most d.
func useEveryWay(fluid, d, each int, c float64, n int) float64 {
	best := 1.0
	if n == 0 {
		return best
	}
	for v := 1; v <= d && v+each <= fluid; v++ {
		best = min(best, (1-float64(v)/c)*useEveryWay(fluid-v-each, v, each, c, n-1))
	}
	return best
}

// Larger drains never leave more of the old fluid, so that two corners are the
// whole range.
func TestBestUseMonotone(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 16))
	for range 2000 {
		r := Request{Capacity: dilutionRange(t, 9, 9), Target: 0.5, FilmEachTime: dilutionLitres(0.2 * rng.Float64())}
		s := Supply{Bottle: dilutionLitres(0.946), Bottles: 1 + rng.IntN(9)}
		at := func(d float64) float64 {
			r.Drain = dilutionRange(t, d, d)
			u, err := BestUse(r, s)
			if err != nil {
				t.Fatal(err)
			}
			return u.Worst.Share
		}
		d := 0.5 + 2*rng.Float64()
		if x, y := at(d), at(d*(1+0.3*rng.Float64())); y > x+1e-12 {
			t.Errorf("larger drains than %v leave %v, not %v", d, y, x)
		}
	}
}

func TestBestUseFaults(t *testing.T) {
	r := planRequest(t)
	cases := []struct {
		name string
		s    Supply
		want string
	}{
		{"nothing", Supply{}, "bottle: 0 L"},
		{"no limit", Supply{Bottle: dilutionLitres(1)}, "supply without limit"},
		{"budget without price", Supply{Bottle: dilutionLitres(1), Budget: decimal.New(5, 0)}, "supply without limit"},
		{"negative bottles", Supply{Bottle: dilutionLitres(1), Bottles: -1}, "-1 bottles"},
		{"a lake", Supply{Bottle: dilutionLitres(20), Bottles: 900}, "900 bottles of 20 L"},
		{"many", Supply{Bottle: units.Millilitre.Of(1), Bottles: 5000}, "5000 bottles"},
		{"price", Supply{Bottle: dilutionLitres(1), Bottles: 1, BottlePrice: decimal.New(-2, 0)}, "bottle price: -2.00"},
		{"budget", Supply{Bottle: dilutionLitres(1), Bottles: 1, Budget: decimal.New(1, 5000)}, "budget: too large"},
		{"out of range", Supply{Bottle: units.Litre.Of(math.Inf(1)), Bottles: 1}, "bottle: out of range"},
	}
	for _, c := range cases {
		if _, err := BestUse(r, c.s); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v does not say %q", c.name, err, c.want)
		}
	}
	if _, err := BestUse(Request{}, Supply{}); err == nil || !strings.Contains(err.Error(), "capacity 0 L") || !strings.Contains(err.Error(), "bottle") {
		t.Errorf("faults of request and supply together: %v", err)
	}
	// A drain of a tick does not run for ever.
	r.Drain = units.Exactly(units.Litre.Of(1e-14))
	if u, err := BestUse(r, Supply{Bottle: dilutionLitres(1), Bottles: 1000}); err != nil || u.Worst.Full != planMostCycles {
		t.Errorf("%+v, %v", u.Worst, err)
	}
	// A tiny bottle and a giant budget.
	u, err := BestUse(planRequest(t), Supply{Bottle: units.Litre.Of(1e-14), BottlePrice: decimal.New(1, -9), Budget: decimal.New(1, 9)})
	if err != nil || u.Bottles != useMostBottles {
		t.Errorf("%d bottles, %v", u.Bottles, err)
	}
}

func BenchmarkBestUse(b *testing.B) {
	b.ReportAllocs()
	r, s := planRequest(b), Supply{Bottle: dilutionLitres(0.946), Bottles: 12}
	for b.Loop() {
		if _, err := BestUse(r, s); err != nil {
			b.Fatal(err)
		}
	}
}

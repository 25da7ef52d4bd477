package exchange

import (
	"errors"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

// coverUnlike makes up sizes of no useful common step, many of whose sums tie all
// the same: whole thousands of a unit, some a unit more or less.
func coverUnlike(r *rand.Rand, kind int) (sizes, prices []int64, most []int) {
	k := 2 + r.IntN(5)
	sizes, prices, most = make([]int64, k), make([]int64, k), make([]int, k)
	for i := range k {
		m := 2 + r.Int64N(6)
		sizes[i] = 1_000_000*m + r.Int64N(3) - 1
		prices[i] = 5*m + r.Int64N(3)
		switch kind {
		case 1:
			prices[i] = 4 * m // every choice ties but for what is left over
		case 2:
			prices[i] = 2 + r.Int64N(30)
		}
		if r.IntN(3) == 0 {
			most[i] = 1 + r.IntN(3)
		}
	}
	return sizes, prices, most
}

// Sizes that go in several lists: the cheapest against brute force, paired from
// three lists and from two.
func TestCoverUnlikeSizesAgainstBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	several := 0
	for trial := range 1200 {
		sizes, prices, most := coverUnlike(r, trial%4)
		if trial%4 == 3 {
			clear(prices)
		}
		need := 1_000_000*(1+r.Int64N(18)) + r.Int64N(5) - 2
		want := coverBrute(need, sizes, prices, most)
		o := coverOrder(need, sizes, prices, most, units.Millilitre.Of(1e-6))
		items, _ := coverItems(o.Offers)
		got, err := coverSolve(coverTicks(o.Need), items, len(sizes))
		if !want.ok {
			if !errors.Is(err, ErrNotEnough) {
				t.Fatalf("need %d of %v, most %v: %v, want not enough", need, sizes, most, err)
			}
			continue
		}
		if err != nil || !slices.Equal(got.counts, want.counts) {
			t.Fatalf("need %d of %v at %v, most %v: %v, %v, want %v", need, sizes, prices, most, got.counts, err, want.counts)
		}
		useful := coverUseful(items)
		split := coverParts(coverTicks(o.Need), useful)
		if len(split.thirds[2]) > 0 {
			several++
		}
		var s coverSearch
		s.begin(useful[0])
		s.need, s.limit = coverTicks(o.Need), got.cost
		if !s.find(coverSplit{thirds: split.halves}, len(sizes)) || !slices.Equal(s.found.counts, want.counts) {
			t.Fatalf("from two lists, need %d of %v at %v, most %v: %v, want %v", need, sizes, prices, most, s.found.counts, want.counts)
		}
	}
	if several < 300 {
		t.Errorf("%d of the orders went in three lists", several)
	}
}

// The same for money: the most fluid, against brute force.
func TestCoverUnlikeSizesForMoney(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	for trial := range 1200 {
		sizes, prices, most := coverUnlike(r, trial%3)
		money := r.Int64N(80)
		want := coverSpend(money, sizes, prices, most)
		o := coverOrder(0, sizes, prices, most, units.Millilitre.Of(1e-6))
		p, err := CoverBudget(Budget{Money: decimal.New(money, -2), Offers: o.Offers})
		if err != nil || !slices.Equal(p.Counts, want.counts) {
			t.Fatalf("%d for %v at %v, most %v: %v, %v, want %v", money, sizes, prices, most, p.Counts, err, want.counts)
		}
	}
}

package exchange

import (
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

// coverSpend tries every purchase within the money.
func coverSpend(money int64, sizes, prices []int64, most []int) coverPlain {
	best := coverPlain{}
	counts := make([]int, len(sizes))
	var try func(i int, cost, volume int64, packs int)
	try = func(i int, cost, volume int64, packs int) {
		if i == len(sizes) {
			// Most fluid first: compare with the volume's sign turned.
			if !best.ok || volume > best.volume ||
				volume == best.volume && (coverPlain{true, cost, 0, packs, counts}).better(coverPlain{true, best.cost, 0, best.packs, best.counts}) {
				best = coverPlain{true, cost, volume, packs, slices.Clone(counts)}
			}
			return
		}
		for n := 0; (most[i] == 0 || n <= most[i]) && cost+int64(n)*prices[i] <= money; n++ {
			counts[i] = n
			try(i+1, cost+int64(n)*prices[i], volume+int64(n)*sizes[i], packs+n)
		}
		counts[i] = 0
	}
	try(0, 0, 0, 0)
	return best
}

func TestCoverBudgetAgainstBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for trial := range 2000 {
		k := 1 + r.IntN(4)
		sizes, prices, most := make([]int64, k), make([]int64, k), make([]int, k)
		for i := range k {
			sizes[i], prices[i] = 1+r.Int64N(25), 2+r.Int64N(20)
			if trial%3 == 0 {
				prices[i] = sizes[i] + 1
			}
			if r.IntN(3) == 0 {
				most[i] = 1 + r.IntN(4)
				if r.IntN(3) == 0 {
					prices[i] = 0
				}
			}
		}
		money := r.Int64N(50)
		want := coverSpend(money, sizes, prices, most)
		o := coverOrder(0, sizes, prices, most, units.USQuart.Of(0.25))
		p, err := CoverBudget(Budget{Money: decimal.New(money, -2), Offers: o.Offers})
		if err != nil {
			t.Fatalf("%d of %v at %v, most %v: %v", money, sizes, prices, most, err)
		}
		if !slices.Equal(p.Counts, want.counts) {
			t.Fatalf("%d for %v at %v, most %v: %v, want %v", money, sizes, prices, most, p.Counts, want.counts)
		}
		if p.Need != p.Volume || !p.Leftover.IsZero() || !p.Short.IsZero() {
			t.Fatalf("need %s, volume %s, left over %s, short %s", p.Need, p.Volume, p.Leftover, p.Short)
		}
	}
}

// Where the money reaches the need, budget and order are the same purchase;
// one cent less and it falls short.
func TestCoverBudgetMeetsCover(t *testing.T) {
	offers := coverShop(t, func(l float64) float64 { return 8 + 2/(1+l) })
	stock := Stock{{Name: "opened", Volume: units.Litre.Of(0.7), Count: 1, Opened: true}}
	for _, litres := range []float64{0.5, 3, 11.7, 52, 240} {
		o := Order{Need: units.Litre.Of(litres), Offers: offers, OnHand: stock}
		want, err := Cover(o)
		if err != nil {
			t.Fatal(err)
		}
		b := Budget{Money: want.Cost, Need: o.Need, Offers: offers, OnHand: stock}
		got, err := CoverBudget(b)
		if err != nil || !slices.Equal(got.Counts, want.Counts) || got.Leftover != want.Leftover || got.StockUsed != want.StockUsed {
			t.Errorf("%g L for %s: %v %v, want %v", litres, want.Cost, got.Counts, err, want.Counts)
		}
		if want.Cost.Sign() == 0 {
			continue
		}
		b.Money = want.Cost.Sub(decimal.New(1, -2))
		short, err := CoverBudget(b)
		if err != nil || short.Short.Sign() <= 0 || short.Volume.Add(short.Short) != short.ToBuy || short.Cost.Cmp(b.Money) > 0 {
			t.Errorf("%g L for a cent less: %+v %v", litres, short, err)
		}
	}
}

func TestCoverBudgetRefuses(t *testing.T) {
	litre := Offer{Name: "litre", Size: units.Litre.Of(1)}
	for _, c := range []struct {
		name string
		b    Budget
		want string
	}{
		{"negative money", Budget{Money: decimal.New(-1, 0)}, "money -1.00 is negative; want 0 to"},
		{"free without end", Budget{Offers: []Offer{litre}}, "want a need as well"},
		{"bad offer", Budget{Offers: []Offer{{Name: "x"}}}, "offer 1 (x): size is 0 L; want above 0"},
	} {
		_, err := CoverBudget(c.b)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
	p, err := CoverBudget(Budget{Money: decimal.New(5, 0)})
	if err != nil || p.Containers != 0 {
		t.Errorf("nothing on offer: %v %v", p, err)
	}
	if _, err := CoverBudget(Budget{Money: decimal.New(5, 0), Need: units.Litre.Of(1)}); err != nil && !errors.Is(err, ErrNotEnough) {
		t.Error(err)
	}
}

package exchange

import (
	"errors"
	"slices"
	"testing"

	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

// FuzzCover reads small orders out of bytes and holds each to brute force.
func FuzzCover(f *testing.F) {
	f.Add([]byte{26, 6, 6, 0, 10, 10, 0})
	f.Add([]byte{44, 4, 9, 0, 20, 38, 0})
	f.Add([]byte{50, 7, 0, 3, 11, 0, 0, 13, 0, 2})
	f.Fuzz(func(t *testing.T, b []byte) {
		if len(b) < 4 {
			return
		}
		need := int64(b[0]) % 80
		var sizes, prices []int64
		var most []int
		for k := 1; k+2 < len(b) && len(sizes) < 4; k += 3 {
			sizes = append(sizes, 3+int64(b[k])%40)
			prices = append(prices, int64(b[k+1])%64)
			most = append(most, int(b[k+2])%5)
		}
		o := coverOrder(need, sizes, prices, most, units.CubicInch.Of(1))
		want := coverBrute(need, sizes, prices, most)
		p, err := Cover(o)
		switch {
		case !want.ok:
			if !errors.Is(err, ErrNotEnough) {
				t.Fatalf("%v, want not enough", err)
			}
			return
		case err != nil:
			t.Fatal(err)
		}
		if !slices.Equal(p.Counts, want.counts) {
			t.Fatalf("need %d of %v at %v, most %v: %v, want %v", need, sizes, prices, most, p.Counts, want.counts)
		}
		if p.Volume.Sub(p.ToBuy) != p.Leftover || p.Leftover.Sign() < 0 {
			t.Fatalf("volume %s, to buy %s, left over %s", p.Volume, p.ToBuy, p.Leftover)
		}
	})
}

// FuzzCoverBudget spends small sums read out of bytes, each held to brute force.
func FuzzCoverBudget(f *testing.F) {
	f.Add([]byte{26, 6, 6, 0, 10, 10, 0})
	f.Add([]byte{49, 4, 9, 2, 20, 38, 1})
	f.Add([]byte{50, 7, 0, 3, 11, 5, 0, 13, 2, 2})
	f.Fuzz(func(t *testing.T, b []byte) {
		if len(b) < 4 {
			return
		}
		money := int64(b[0]) % 50
		var sizes, prices []int64
		var most []int
		for k := 1; k+2 < len(b) && len(sizes) < 4; k += 3 {
			price, limit := int64(b[k+1])%22, int(b[k+2])%5
			if limit == 0 {
				price = max(price, 2) // free without a limit is refused
			}
			sizes, prices, most = append(sizes, 1+int64(b[k])%25), append(prices, price), append(most, limit)
		}
		o := coverOrder(0, sizes, prices, most, units.USQuart.Of(0.25))
		p, err := CoverBudget(Budget{Money: decimal.New(money, -2), Offers: o.Offers})
		if err != nil {
			t.Fatalf("%d of %v at %v, most %v: %v", money, sizes, prices, most, err)
		}
		if want := coverSpend(money, sizes, prices, most); !slices.Equal(p.Counts, want.counts) {
			t.Fatalf("%d for %v at %v, most %v: %v, want %v", money, sizes, prices, most, p.Counts, want.counts)
		}
		if p.Cost.Cmp(decimal.New(money, -2)) > 0 || p.Need != p.Volume {
			t.Fatalf("%s of %d spent, need %s, volume %s", p.Cost, money, p.Need, p.Volume)
		}
	})
}

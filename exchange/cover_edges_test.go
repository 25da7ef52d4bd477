package exchange

import (
	"errors"
	"math/big"
	"slices"
	"strings"
	"testing"

	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

// 4.0001 L and 5.9999 L for 4 and 6 come to the same money, fluid and number as two
// of 5 L for 5: of such, more of the offer given first is taken, whatever the order.
// Sizes without a useful common step are searched in two halves.
func TestCoverTiesAcrossUnlikeSizes(t *testing.T) {
	l := units.Litre.Of
	small, large, middle := Offer{Name: "small", Size: l(4.0001), Price: decimal.New(4, 0)}, Offer{Name: "large", Size: l(5.9999), Price: decimal.New(6, 0)}, Offer{Name: "middle", Size: l(5), Price: decimal.New(5, 0)}
	for _, c := range []struct {
		offers []Offer
		counts []int
	}{
		{[]Offer{small, large, middle}, []int{1, 1, 0}},
		{[]Offer{large, middle, small}, []int{1, 0, 1}},
		{[]Offer{middle, small, large}, []int{2, 0, 0}},
		{[]Offer{middle, large, small}, []int{2, 0, 0}},
	} {
		p, err := Cover(Order{Need: l(10), Offers: c.offers})
		if err != nil || !slices.Equal(p.Counts, c.counts) || !p.Cost.Equal(decimal.New(10, 0)) || p.Containers != 2 || !p.Leftover.IsZero() {
			t.Errorf("%s first: %v, %v; want %v", c.offers[0].Name, p.Counts, err, c.counts)
		}
	}
}

// The largest total is 2^61 - 1 billionths of the currency: taken to the last one,
// refused past it. (Odd numbers: prices are divided by what they have in common.)
func TestCoverLargestTotal(t *testing.T) {
	total := func(last string) error {
		price, err := decimal.NewFromString(last)
		if err != nil {
			t.Fatal(err)
		}
		most := decimal.New(1, 9)
		_, err = Cover(Order{Need: units.Litre.Of(3), Offers: []Offer{
			{Name: "a", Size: units.Litre.Of(1), Price: most, Most: 1}, {Name: "b", Size: units.Litre.Of(1), Price: most, Most: 1}, {Name: "c", Size: units.Litre.Of(1), Price: price, Most: 1},
		}})
		return err
	}
	if err := total("305843009.213693951"); err != nil {
		t.Error(err)
	}
	if err := total("305843009.213693953"); !errors.Is(err, ErrTooManyCombinations) || !strings.Contains(err.Error(), "past 18 digits") {
		t.Error(err)
	}
}

// Both are refused, but a million of one container not for being too many of it.
func TestCoverMostOfOneContainer(t *testing.T) {
	order := func(need float64) error {
		_, err := Cover(Order{Need: units.Litre.Of(need), Offers: []Offer{{Size: units.Millilitre.Of(1), Most: 2_000_000}}})
		return err
	}
	if err := order(1000); !errors.Is(err, ErrTooManyCombinations) || strings.Contains(err.Error(), "more than 1000000") {
		t.Error(err)
	}
	if err := order(1000.001); !errors.Is(err, ErrTooManyCombinations) || !strings.Contains(err.Error(), "more than 1000000") {
		t.Error(err)
	}
}

// One mistake is told once, and by what it is.
func TestCoverTellsOneFaultOnce(t *testing.T) {
	l := units.Litre.Of
	none := units.Litre.Of(1e300)
	wide := new(big.Int).Sub(new(big.Int).Lsh(big.NewInt(1), 256), big.NewInt(1))
	for name, c := range map[string]struct {
		offer Offer
		want  string
	}{
		"no size":        {Offer{Size: l(0), Heel: l(0)}, "offer 1: size is"},
		"size too large": {Offer{Size: none, Heel: l(1)}, "offer 1: size is"},
		"heel too large": {Offer{Size: l(1), Heel: none}, "offer 1: heel is"},
		"heel is size":   {Offer{Size: l(1), Heel: l(1)}, "leaves nothing"},
		"256 bits":       {Offer{Size: l(1), Price: decimal.NewFromBigInt(wide, 0)}, "is too large"},
		"257 bits":       {Offer{Size: l(1), Price: decimal.NewFromBigInt(wide.Add(wide, big.NewInt(1)), 0)}, "too many digits"},
		"81 places":      {Offer{Size: l(1), Price: decimal.New(0, -81)}, "too many digits"},
		"21 zeros":       {Offer{Size: l(1), Price: decimal.New(0, 21)}, "too many digits"},
	} {
		_, err := Cover(Order{Need: l(1), Offers: []Offer{c.offer}})
		if err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, exp := range []int32{-80, 20} {
		if _, err := Cover(Order{Need: l(1), Offers: []Offer{{Size: l(1), Price: decimal.New(0, exp)}}}); err != nil {
			t.Errorf("nothing, written with exponent %d: %v", exp, err)
		}
	}
	for length, ends := range map[int]string{40: strings.Repeat("n", 40) + ")", 41: strings.Repeat("n", 40) + "…)"} {
		_, err := Cover(Order{Need: l(1), Offers: []Offer{{Name: strings.Repeat("n", length)}}})
		if err == nil || !strings.Contains(err.Error(), "("+ends) {
			t.Errorf("a name of %d: %v", length, err)
		}
	}
}

// An empty container does not end the list, and without stock no line tells of it.
func TestCoverPoursPastAnEmptyContainer(t *testing.T) {
	l := units.Litre.Of
	o := Order{Need: l(2), Offers: []Offer{{Name: "can", Size: l(1), Price: decimal.New(3, 0)}}}
	p, err := Cover(o)
	if err != nil || strings.Contains(p.Steps.Text(), "from stock") {
		t.Errorf("%v\n%s", err, p.Steps.Text())
	}
	o.OnHand = Stock{{Name: "dregs", Volume: l(0.1), Heel: l(0.1), Count: 1, Opened: true}, {Name: "half", Volume: l(0.5), Count: 1, Opened: true}}
	p, err = Cover(o)
	if err != nil || len(p.FromStock) != 1 || p.FromStock[0].Held.Name != "half" || p.ToBuy != l(1.5) || !strings.Contains(p.Steps.Text(), "to buy = need - from stock") {
		t.Errorf("%v, %v\n%s", p.FromStock, err, p.Steps.Text())
	}
}

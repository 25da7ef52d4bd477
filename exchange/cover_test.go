package exchange

import (
	"errors"
	"fmt"
	"math/big"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

func coverMoney(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// coverPlain is the answer in whole numbers, for the oracles.
type coverPlain struct {
	ok           bool
	cost, volume int64
	packs        int
	counts       []int
}

func (a coverPlain) better(b coverPlain) bool {
	switch {
	case a.ok != b.ok:
		return a.ok
	case a.cost != b.cost:
		return a.cost < b.cost
	case a.volume != b.volume:
		return a.volume < b.volume
	case a.packs != b.packs:
		return a.packs < b.packs
	}
	return slices.Compare(a.counts, b.counts) > 0
}

// coverBrute tries every count of every size: the slow, obvious version.
func coverBrute(need int64, sizes, prices []int64, most []int) coverPlain {
	best := coverPlain{}
	counts := make([]int, len(sizes))
	var try func(i int, rest, cost int64, packs int)
	try = func(i int, rest, cost int64, packs int) {
		if rest <= 0 {
			c := coverPlain{true, cost, need - rest, packs, slices.Clone(counts)}
			if c.better(best) {
				best = c
			}
			return
		}
		if i == len(sizes) {
			return
		}
		for n := 0; most[i] == 0 || n <= most[i]; n++ {
			counts[i] = n
			left := rest - int64(n)*sizes[i]
			try(i+1, left, cost+int64(n)*prices[i], packs+n)
			if left <= 0 {
				break
			}
		}
		counts[i] = 0
	}
	try(0, need, 0, 0)
	return best
}

// coverTable is the dynamic programme over every whole volume, unlimited only.
func coverTable(need int64, sizes, prices []int64) coverPlain {
	top := need + slices.Max(sizes)
	type cell struct {
		ok    bool
		cost  int64
		packs int
	}
	cells := make([]cell, top+1)
	cells[0].ok = true
	for v := int64(1); v <= top; v++ {
		for i, size := range sizes {
			if v < size || !cells[v-size].ok {
				continue
			}
			c := cell{true, cells[v-size].cost + prices[i], cells[v-size].packs + 1}
			old := cells[v]
			if !old.ok || c.cost < old.cost || c.cost == old.cost && c.packs < old.packs {
				cells[v] = c
			}
		}
	}
	best := coverPlain{}
	for v := need; v <= top; v++ {
		c := coverPlain{ok: cells[v].ok, cost: cells[v].cost, volume: v, packs: cells[v].packs}
		if c.ok && (!best.ok || c.cost < best.cost) {
			best = c
		}
	}
	return best
}

func coverOrder(need int64, sizes, prices []int64, most []int, unit units.Volume) Order {
	o := Order{Need: unit.Scale(float64(need))}
	for i := range sizes {
		o.Offers = append(o.Offers, Offer{
			Name: strconv.Itoa(i), Size: unit.Scale(float64(sizes[i])),
			Price: decimal.New(prices[i], -2), Most: most[i],
		})
	}
	return o
}

func coverInts(t *testing.T, parts []string) []int64 {
	t.Helper()
	var out []int64
	for _, p := range parts {
		n, err := strconv.ParseInt(p, 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, n)
	}
	return out
}

func TestCoverPublishedPacks(t *testing.T) {
	for _, row := range published.Load(t, "exchange_packs").Rows() {
		sizes, prices := coverInts(t, row.List("sizes")), coverInts(t, row.List("prices"))
		p, err := Cover(coverOrder(int64(row.Int("need")), sizes, prices, make([]int, len(sizes)), units.Millilitre.Of(1)))
		if err != nil {
			t.Fatalf("%s: %v", row.Text("name"), err)
		}
		if want := decimal.New(int64(row.Int("min_cost")), -2); p.Cost.Cmp(want) != 0 {
			t.Errorf("%s: cost %s, want %s", row.Text("name"), p.Cost, want)
		}
		if want := units.Millilitre.Of(row.Float("leftover")); p.Leftover != want {
			t.Errorf("%s: left over %s, want %s", row.Text("name"), p.Leftover, want)
		}
		if p.Containers != row.Int("packs") {
			t.Errorf("%s: %d containers, want %d", row.Text("name"), p.Containers, row.Int("packs"))
		}
		const first = "counts(first tie by cost,leftover,packs)"
		if row.Has(first) && strings.Trim(strings.ReplaceAll(fmt.Sprint(p.Counts), " ", ";"), "[]") != row.Text(first) {
			t.Errorf("%s: counts %v, want %s", row.Text("name"), p.Counts, row.Text(first))
		}
	}
}

func TestCoverAgainstBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for trial := range 4000 {
		k := 1 + r.IntN(4)
		sizes, prices, most := make([]int64, k), make([]int64, k), make([]int, k)
		kind := trial % 4
		for i := range k {
			sizes[i] = 2 + r.Int64N(25)
			prices[i] = r.Int64N(40)
			switch kind {
			case 1: // equal price for volume: every choice ties but for what is left
				prices[i] = sizes[i] * 3
			case 2:
				prices[i] = 0
			case 3:
				prices[i] = sizes[i]*2 + r.Int64N(3)
			}
			if r.IntN(3) == 0 {
				most[i] = 1 + r.IntN(4)
			}
		}
		need := r.Int64N(60)
		want := coverBrute(need, sizes, prices, most)
		// An odd unit keeps the common step away from round numbers.
		p, err := Cover(coverOrder(need, sizes, prices, most, units.USFluidOunce.Of(1)))
		if !want.ok {
			if !errors.Is(err, ErrNotEnough) {
				t.Fatalf("need %d of %v, most %v: %v, want not enough", need, sizes, most, err)
			}
			continue
		}
		if err != nil {
			t.Fatalf("need %d of %v at %v, most %v: %v", need, sizes, prices, most, err)
		}
		if !slices.Equal(p.Counts, want.counts) {
			t.Fatalf("need %d of %v at %v, most %v: %v, want %v", need, sizes, prices, most, p.Counts, want.counts)
		}
	}
}

func TestCoverAgainstTable(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for trial := range 300 {
		k := 1 + r.IntN(8)
		sizes, prices := make([]int64, k), make([]int64, k)
		for i := range k {
			sizes[i] = 5 + r.Int64N(300)
			prices[i] = sizes[i]*10 + r.Int64N(sizes[i]*4)
			if trial%3 == 0 {
				prices[i] = sizes[i] * 10
			}
		}
		need := 1 + r.Int64N(6000)
		want := coverTable(need, sizes, prices)
		p, err := Cover(coverOrder(need, sizes, prices, make([]int, k), units.Millilitre.Of(7)))
		if err != nil {
			t.Fatalf("need %d of %v at %v: %v", need, sizes, prices, err)
		}
		cost := coverPrices(t, p.Cost)
		if cost != want.cost || p.Containers != want.packs || p.Leftover != units.Millilitre.Of(float64(7*(want.volume-need))) {
			t.Fatalf("need %d of %v at %v: cost %d, %d packs, %s left; want %d, %d, %d", need, sizes, prices, cost, p.Containers, p.Leftover, want.cost, want.packs, want.volume-need)
		}
	}
}

func coverPrices(t *testing.T, d decimal.Decimal) int64 {
	t.Helper()
	c := new(big.Int).Set(d.Mul(decimal.New(100, 0)).BigInt())
	return c.Int64()
}

package exchange

import (
	"cmp"
	"fmt"
	"math"
	"math/bits"
	"slices"

	"example.com/meniscus/units"
)

// coverItem is an offer in whole numbers: ticks of volume, steps of price.
type coverItem struct {
	size  uint64
	price int64
	most  int // 0: no limit
	at    int // place among the offers
}

// coverItems turns checked offers into whole numbers. The step of price is the
// largest that all prices are a multiple of, in 1e-9 of the currency; 0 where
// all are free. A repeat of the very same offer is
// left out: a pack on offer counts once.
func coverItems(offers []Offer) ([]coverItem, int64) {
	items := make([]coverItem, 0, len(offers))
	step := int64(0)
	for i, o := range offers {
		if slices.ContainsFunc(offers[:i], func(e Offer) bool { return e.same(o) }) {
			continue
		}
		price, _ := coverPrice(o.Price) // checked before
		step = coverGCD(step, price)
		items = append(items, coverItem{coverTicks(o.pourable()), price, o.Most, i})
	}
	for i := range items {
		if step > 0 {
			items[i].price /= step
		}
	}
	return items, step
}

func (o Offer) same(p Offer) bool {
	return o.Name == p.Name && o.Size == p.Size && o.Heel == p.Heel && o.Most == p.Most && o.Price.Cmp(p.Price) == 0
}

func coverGCD[T int64 | uint64](a, b T) T {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// coverSolve returns the cheapest purchase, its counts beside the n offers.
func coverSolve(need uint64, items []coverItem, n int) (coverSolution, error) {
	return new(coverSearch).solve(need, items, n)
}

// solve continues with the work that is left.
func (s *coverSearch) solve(need uint64, items []coverItem, n int) (coverSolution, error) {
	if need == 0 {
		return coverSolution{counts: make([]int, n)}, nil
	}
	useful := coverUseful(items)
	most, err := coverGreedy(need, useful)
	if err != nil {
		return coverSolution{}, err
	}
	s.begin(useful[0])
	s.need = need
	parts := coverParts(need, useful)
	least := s.leastCost(need)
	// The dearer a purchase may be, the more there is to search; the cheapest is
	// mostly near the bound, so ask for it there before asking for it anywhere.
	for _, shift := range [...]uint{5, 2, 0} {
		s.limit = least + (most-least)>>shift
		if s.find(parts, n) {
			return s.found, nil
		}
		if s.exhausted() {
			return coverSolution{}, coverTooMany(useful)
		}
	}
	return coverSolution{}, ErrNotEnough // cannot be: the greedy purchase is within the limit
}

func coverTooMany(items []coverItem) error {
	return fmt.Errorf("%w of %d sizes; want fewer offers, or sizes and prices with a larger common step", ErrTooManyCombinations, len(items))
}

// coverUseful drops offers that a cheaper and no smaller unlimited offer
// replaces in every purchase, and sorts the rest by price for volume.
func coverUseful(items []coverItem) []coverItem {
	useful := slices.DeleteFunc(slices.Clone(items), func(x coverItem) bool {
		return slices.ContainsFunc(items, func(y coverItem) bool {
			return y.most == 0 && y.size >= x.size && y.price < x.price
		})
	})
	slices.SortStableFunc(useful, func(x, y coverItem) int { return coverCompareRate(x, y) })
	return useful
}

// coverCompareRate compares price for volume exactly; of equal rates the
// larger container comes first.
func coverCompareRate(x, y coverItem) int {
	xh, xl := bits.Mul64(uint64(x.price), y.size)
	yh, yl := bits.Mul64(uint64(y.price), x.size)
	if c := cmp.Compare(xh, yh); c != 0 {
		return c
	}
	if c := cmp.Compare(xl, yl); c != 0 {
		return c
	}
	return cmp.Compare(y.size, x.size)
}

// coverGreedy returns the cost of some purchase that covers the need: an upper
// limit for the search.
func coverGreedy(need uint64, items []coverItem) (int64, error) {
	const most = math.MaxInt64 / 4 // so that a label's cost plus one price still fits
	cost, rest := int64(0), need
	for _, it := range items {
		if rest == 0 {
			break
		}
		n := it.enough(rest)
		if n > coverMostHeld {
			return 0, fmt.Errorf("%w: more than %d of one container; want larger ones", ErrTooManyCombinations, coverMostHeld)
		}
		h, l := bits.Mul64(n, uint64(it.price))
		if h != 0 || l > uint64(most-cost) {
			return 0, fmt.Errorf("%w: the total is past 18 digits; want prices with fewer digits", ErrTooManyCombinations)
		}
		cost += int64(l)
		rest -= min(rest, n*it.size)
	}
	if rest > 0 {
		return 0, fmt.Errorf("%w: the offers pour %s; want offers for all of it", ErrNotEnough, coverVolume(need-rest))
	}
	return cost, nil
}

// enough is the fewest of the item that cover the rest, or all there are.
func (it coverItem) enough(rest uint64) uint64 {
	n := (rest-1)/it.size + 1
	if it.most > 0 {
		n = min(n, uint64(it.most))
	}
	return n
}

// coverVolume is the way back from ticks, for messages.
func coverVolume(ticks uint64) units.Volume {
	return units.Litre.Of(float64(ticks) / 1e14)
}

package exchange

import (
	"errors"
	"fmt"
	"math/bits"

	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

// Budget is what CoverBudget is asked for.
type Budget struct {
	Money  decimal.Decimal // 0 or more, at most 9 decimals, in the currency of the prices
	Need   units.Volume    // no more than this is wanted; 0: as much as the money buys
	Offers []Offer
	OnHand Stock
}

// CoverBudget returns the purchase that pours out the most fluid for the
// money: then least cost, then fewest containers, then more of the offer given
// earlier. Where the money covers the need, it is the purchase Cover would
// make; where it does not, Short says by how much. Stock on hand counts towards
// the need and is used first.
//
// The answer is exact. Bad input, money that buys more than 30 000 L without a
// need stated, and an unlimited free offer without a need are errors, as is
// what wraps ErrTooManyCombinations.
func CoverBudget(b Budget) (Purchase, error) {
	if err := b.check(); err != nil {
		return Purchase{}, err
	}
	wanted := b.Need
	if wanted.IsZero() {
		wanted = units.Litre.Of(coverMostLitres)
	}
	p := Purchase{Need: b.Need}
	p.FromStock, p.StockUsed, p.StockLeft = b.OnHand.pour(wanted)
	items, step := coverItems(b.Offers)
	money, _ := coverPrice(b.Money) // checked before
	s := coverPurse{items: items, money: money, offers: len(b.Offers)}
	if step > 0 {
		s.money /= step
	}
	best, whole, err := s.most(coverTicks(wanted.Sub(p.StockUsed)))
	if err != nil {
		return Purchase{}, fmt.Errorf("exchange: budget %s: %w", b.Money.StringFixed(2), err)
	}
	if whole && b.Need.IsZero() {
		return Purchase{}, fmt.Errorf("exchange: budget %s buys more than %s; want a need as well", b.Money.StringFixed(2), wanted)
	}
	p.fill(b.Offers, best.counts)
	if b.Need.IsZero() {
		p.Need = p.StockUsed.Add(p.Volume)
	}
	p.ToBuy = p.Need.Sub(p.StockUsed)
	p.Leftover = p.Volume.Sub(p.ToBuy)
	if p.Leftover.Sign() < 0 {
		p.Leftover, p.Short = units.Volume{}, p.Leftover.Neg()
	}
	p.Steps = p.steps()
	return p, nil
}

func (b Budget) check() error {
	_, err := coverPrice(b.Money)
	if err != nil {
		err = fmt.Errorf("exchange: budget: money %w", err)
	}
	return errors.Join(err, Order{Need: b.Need, Offers: b.Offers, OnHand: b.OnHand}.check())
}

// coverPurse is a budget in whole numbers.
type coverPurse struct {
	items  []coverItem
	money  int64
	offers int
}

// most returns the best purchase within the money, and whether it covers all
// that is wanted.
func (s coverPurse) most(wanted uint64) (best coverSolution, whole bool, err error) {
	var search coverSearch
	ceiling := s.ceiling(wanted)
	if ceiling == wanted {
		best, err = search.solve(wanted, s.items, s.offers)
		switch {
		case errors.Is(err, ErrNotEnough): // but perhaps enough for all the money
		case err != nil || best.cost <= s.money:
			return best, err == nil, err
		}
	}
	best, err = search.spendAll(s, ceiling)
	return best, false, err
}

// spendAll returns the largest purchase within the money, which is less than all
// that is wanted; then the cheapest and the fewest containers.
func (s *coverSearch) spendAll(p coverPurse, ceiling uint64) (coverSolution, error) {
	useful := coverUseful(p.items)
	if len(useful) == 0 {
		return coverSolution{counts: make([]int, p.offers)}, nil
	}
	s.begin(useful[0])
	s.spend = true
	parts, least := coverParts(ceiling, useful), p.greedy(useful)
	// As for the cheapest: the best is mostly near the ceiling.
	for _, shift := range [...]uint{5, 2, 0} {
		s.need, s.limit = ceiling-(ceiling-least)>>shift, p.money
		if s.find(parts, p.offers) {
			return s.found, nil
		}
		if s.exhausted() {
			return coverSolution{}, coverTooMany(useful)
		}
	}
	return coverSolution{}, ErrNotEnough // cannot be: the greedy purchase is at least so large
}

// greedy is the volume of some purchase within the money.
func (s coverPurse) greedy(items []coverItem) uint64 {
	volume, money := uint64(0), s.money
	for _, it := range items {
		n := uint64(it.most)
		if it.price > 0 {
			n = uint64(money / it.price)
			if it.most > 0 {
				n = min(n, uint64(it.most))
			}
		}
		volume += n * it.size
		money -= int64(n) * it.price
	}
	return volume
}

// ceiling is a volume the money cannot pass, parts of containers allowed: the
// best prices for volume first.
func (s coverPurse) ceiling(wanted uint64) uint64 {
	volume, money := uint64(0), uint64(s.money)
	for _, it := range coverUseful(s.items) {
		if volume >= wanted {
			break
		}
		most := it.enough(wanted) * it.size // below wanted and one size
		if h, l := bits.Mul64(money, it.size); h < uint64(it.price) {
			q, _ := bits.Div64(h, l, uint64(it.price))
			most = min(most, q)
		}
		volume += most
		// Rounding the money spent down keeps the ceiling above.
		h, l := bits.Mul64(most, uint64(it.price))
		spent, _ := bits.Div64(h%it.size, l, it.size)
		money -= min(money, spent)
	}
	return min(volume, wanted)
}

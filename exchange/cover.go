package exchange

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
	"github.com/shopspring/decimal"
)

// Offer is one kind of container on sale.
type Offer struct {
	Name  string          // at most 200 bytes
	Size  units.Volume    // what it holds; above 0, at most 30 000 L
	Price decimal.Decimal // of one container; 0 or more, at most 9 decimals; all offers in one currency
	Most  int             // how many can be had; 0 is no limit
	Heel  units.Volume    // what stays on the bottom and cannot be poured; less than Size
}

// Order is what Cover is asked for.
type Order struct {
	Need   units.Volume // fluid that must pour out: drains, what a pump keeps, allowances; 0 to 30 000 L
	Offers []Offer      // at most 64; a repeat of the very same offer counts once
	OnHand Stock        // used before anything is bought
}

// Bought is one line of a purchase.
type Bought struct {
	Offer Offer
	Count int
	Cost  decimal.Decimal // Count × Price, exact
}

// Purchase is what to pour from stock and what to buy. Every volume is exact. Money
// is a decimal.Decimal and writes itself, as text and as JSON: where a host sets
// variables of that package, such as MarshalJSONWithoutQuotes, its form follows them.
type Purchase struct {
	Need       units.Volume // as ordered; for a budget without a need, all there is
	FromStock  []Poured     // containers on hand to pour, in the order to pour them
	StockUsed  units.Volume // fluid poured from them
	StockLeft  units.Volume // fluid that could still be poured from stock afterwards
	ToBuy      units.Volume // Need - StockUsed
	Lines      []Bought     // offers taken, in the order they were given
	Counts     []int        // how many of each offer, beside Order.Offers
	Containers int          // sum of Counts
	Cost       decimal.Decimal
	Volume     units.Volume // fluid that pours out of what is bought
	Leftover   units.Volume // Volume - ToBuy, where that is above 0
	Short      units.Volume // ToBuy - Volume, where a budget does not reach
	Heel       units.Volume // fluid that stays on the bottom of what is bought
	Steps      working.Steps
}

var (
	// ErrNotEnough is wrapped where limited offers cannot cover the need.
	ErrNotEnough = errors.New("not enough on offer")
	// ErrTooManyCombinations is wrapped where sizes and prices are so many and
	// so unlike that an exact answer would take too long.
	ErrTooManyCombinations = errors.New("too many combinations")
)

// Cover returns what to pour from stock and what to buy so that the need pours
// out: least cost, then least fluid left over, then fewest containers, then
// more of the offer given earlier (counts compared in the order of the offers).
// Stock on hand is used first, opened containers before sealed ones, else in
// the order given.
//
// The answer is exact, money and volume, and the same whatever the order of
// search. Sizes need no common step: quarts and litres mix, on sale in ten sizes of
// three systems up to 2000 L. What would take more than some tens of milliseconds
// or 32 MB is refused with ErrTooManyCombinations, what cannot be covered with
// ErrNotEnough. Bad input is an error naming the first ten faults of the offers
// and of the stock each.
func Cover(o Order) (Purchase, error) {
	if err := o.check(); err != nil {
		return Purchase{}, err
	}
	p := Purchase{Need: o.Need}
	p.FromStock, p.StockUsed, p.StockLeft = o.OnHand.pour(o.Need)
	p.ToBuy = o.Need.Sub(p.StockUsed)
	items, _ := coverItems(o.Offers)
	best, err := coverSolve(coverTicks(p.ToBuy), items, len(o.Offers))
	if err != nil {
		return Purchase{}, fmt.Errorf("exchange: covering %s: %w", p.ToBuy, err)
	}
	p.fill(o.Offers, best.counts)
	p.Leftover = p.Volume.Sub(p.ToBuy)
	p.Steps = p.steps()
	return p, nil
}

// fill works out the exact sums of a purchase from its counts.
func (p *Purchase) fill(offers []Offer, counts []int) {
	p.Counts = counts
	for i, n := range counts {
		if n == 0 {
			continue
		}
		o := offers[i]
		cost := o.Price.Mul(decimal.NewFromInt(int64(n)))
		p.Lines = append(p.Lines, Bought{Offer: o, Count: n, Cost: cost})
		p.Containers += n
		p.Cost = p.Cost.Add(cost)
		// A whole factor scales ticks exactly.
		p.Volume = p.Volume.Add(o.pourable().Scale(float64(n)))
		p.Heel = p.Heel.Add(o.Heel.Scale(float64(n)))
	}
}

func (o Offer) pourable() units.Volume { return o.Size.Sub(o.Heel) }

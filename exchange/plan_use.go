package exchange

import (
	"errors"
	"fmt"
	"strconv"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
	"github.com/shopspring/decimal"
)

// Supply is the fluid a service may use: so many bottles, so much money, or both.
type Supply struct {
	Bottle      units.Volume    // what one bottle gives; above 0, at most 500 L
	Bottles     int             // how many there are; 0: as many as the budget buys
	BottlePrice decimal.Decimal // of one bottle
	Budget      decimal.Decimal // 0: no limit but the bottles
}

// Use is the best that can be done with a supply: full drains as long as the
// fluid lasts, then one part drain with the rest.
type Use struct {
	Bottles int             // bottles taken
	Cost    decimal.Decimal // of them
	Fluid   units.Volume    // what they hold
	Worst   Spread          // largest capacity, smallest drains
	Best    Spread          // smallest capacity, largest drains
	Share   Share           // old share, best to worst case, in a well-mixed box
	Met     bool            // the worst case meets the request's target
	Evenly  float64         // worst-case old share were the same fluid spread over as many equal drains
	Caveats []Caveat
	Steps   working.Steps
}

// Spread is how the fluid is spread over drains.
type Spread struct {
	Full  int          // full drains
	Part  units.Volume // one more drain, stopped at this volume; zero: none
	Left  units.Volume // fluid left in the bottles, the final allowance not counted
	Share float64      // old share then
}

// BestUse returns what a supply of bottles or money does at best: "six bottles:
// what is the best use of them?" The allowances of the request (kept once, kept
// each time, film, final allowance) come off first. Of all ways to spread a given
// volume over drains, the fewest and largest leave the least old fluid: a small
// drain spends the next one on fluid it has itself thinned. So every drain is a
// full one but the last; 100 at most. MostCycles, Purpose and WhatIfMixing do not
// matter here; shares are those of the well-mixed box.
//
// A supply that does not even cover the allowances and a drop for the box gives
// no drains. Unusable input is an error that names every fault.
func BestUse(r Request, s Supply) (Use, error) {
	if err := errors.Join(r.faults(), s.faults()); err != nil {
		return Use{}, fmt.Errorf("exchange: best use: %w", err)
	}
	r = r.withDefaults()
	var u Use
	u.Bottles = s.count()
	u.Cost = s.BottlePrice.Mul(decimal.New(int64(u.Bottles), 0))
	u.Fluid = lossesTimes(s.Bottle, u.Bottles)
	u.Worst = r.spread(u.Fluid, planSmallest)
	u.Best = r.spread(u.Fluid, planLargest)
	u.Share = Share{u.Best.Share, u.Worst.Share}
	u.Met = cyclesMet(u.Worst.Share, r.Target)
	u.Evenly = r.evenly(u.Worst)
	if r.Sump.IsZero() {
		u.Caveats = append(u.Caveats, SumpNotKnown)
	}
	u.Steps = r.useSteps(u)
	return u, nil
}

const (
	useMostBottles = 1000
	useMostLitres  = 1000
)

func (s Supply) faults() error {
	var faults []error
	most := units.Litre.Of(useMostLitres)
	switch {
	case !s.Bottle.Valid() || s.Bottle.Sign() <= 0 || s.Bottle.Compare(units.Litre.Of(systemMostLitres)) > 0:
		faults = append(faults, fmt.Errorf("bottle: %s; want more than 0 to %d L", s.Bottle, systemMostLitres))
	case s.Bottles > useMostBottles || s.Bottles > 0 && s.Bottle.Scale(float64(s.Bottles)).Compare(most) > 0:
		faults = append(faults, fmt.Errorf("%d bottles of %s; want at most %d and %s together", s.Bottles, s.Bottle, useMostBottles, most))
	}
	if s.Bottles < 0 {
		faults = append(faults, fmt.Errorf("%d bottles; want 0 (as many as the budget buys) or more", s.Bottles))
	}
	for _, money := range [...]struct {
		what string
		of   decimal.Decimal
	}{{"bottle price", s.BottlePrice}, {"budget", s.Budget}} {
		if err := planPriceFault(money.of); err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", money.what, err))
		}
	}
	if len(faults) == 0 && s.Bottles == 0 && (s.Budget.IsZero() || s.BottlePrice.IsZero()) {
		faults = append(faults, errors.New("supply without limit; want a number of bottles, or a budget and the price of a bottle"))
	}
	return errors.Join(faults...)
}

// count is how many bottles are taken: all there are, within the budget and
// within what a service can use.
func (s Supply) count() int {
	most := s.Bottles
	if most == 0 {
		most = int(min(useMostBottles, units.Litre.Of(useMostLitres).Ratio(s.Bottle)))
	}
	if s.Budget.IsZero() || s.BottlePrice.IsZero() {
		return most
	}
	bought, _ := s.Budget.QuoRem(s.BottlePrice, 0)
	if bought.Cmp(decimal.New(int64(most), 0)) >= 0 {
		return most
	}
	n, err := strconv.Atoi(bought.StringFixed(0))
	if err != nil {
		return 0 // cannot be: a whole number below most
	}
	return n
}

// spread pours the fluid into full drains, then a part of one.
func (r Request) spread(fluid units.Volume, end planEnd) Spread {
	capacity := r.Capacity.High()
	if end == planLargest {
		capacity = r.Capacity.Low()
	}
	s := Spread{Share: 1, Left: fluid.Sub(r.onceAllowances())}
	if s.Left.Sign() <= 0 {
		s.Left = units.Volume{}
		return s
	}
	each := r.losses().EachTime()
	for n := 1; n <= planMostCycles; n++ {
		d := r.drain(n, end)
		if left := s.Left.Sub(d).Sub(each); left.Sign() >= 0 {
			s.Full, s.Left = n, left
			s.Share *= remainingFactor(capacity, d.Sub(r.LineReturns))
			continue
		}
		// The rest serves a part drain only if it gives more than it loses.
		if part := s.Left.Sub(each); part.Compare(r.LineReturns) > 0 {
			s.Part, s.Left = part, units.Volume{}
			s.Share *= remainingFactor(capacity, part.Sub(r.LineReturns))
		}
		return s
	}
	return s
}

// evenly is the worst-case share were the fluid of a spread drained in as many
// equal parts.
func (r Request) evenly(s Spread) float64 {
	n := s.Full
	if !s.Part.IsZero() {
		n++
	}
	if n == 0 {
		return 1
	}
	var acting units.Volume
	for k := 1; k <= s.Full; k++ {
		acting = acting.Add(r.acting(k, planSmallest))
	}
	if !s.Part.IsZero() {
		acting = acting.Add(s.Part).Sub(r.LineReturns)
	}
	keep := 1 - acting.Ratio(r.Capacity.High())/float64(n)
	x := 1.0
	for range n {
		x *= keep
	}
	return x
}

func (r Request) useSteps(u Use) working.Steps {
	var s working.Steps
	s = s.Add("fluid", "bottles × bottle", strconv.Itoa(u.Bottles)+" bottles", stepLitres(u.Fluid))
	s = s.Add("kept once and final allowance", "", "", stepLitres(r.onceAllowances()))
	s = s.Add("each drain loses", "kept + film", stepLitres(r.KeptEachTime)+" + "+stepLitres(r.FilmEachTime), stepLitres(r.losses().EachTime()))
	s = s.Add("full drains, worst case", "", "", strconv.Itoa(u.Worst.Full))
	s = s.Add("last part drain, worst case", "", "", stepLitres(u.Worst.Part))
	s = s.Add("old share, worst case", "Π(1 - d/C)", "", shareText(u.Worst.Share))
	s = s.Add("old share, best case", "Π(1 - d/C)", "", shareText(u.Best.Share))
	return s.Add("old share with equal drains", "(1 - Σd/(n·C))^n", "", shareText(u.Evenly))
}

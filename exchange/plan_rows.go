package exchange

import (
	"slices"
	"strconv"

	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

// planEnd picks an end of the drains.
type planEnd bool

const (
	planSmallest planEnd = false
	planLargest  planEnd = true
)

// drain is what drain n, counted from 1, gives.
func (r Request) drain(n int, end planEnd) units.Volume {
	d := r.Drain
	if n == 1 {
		d = r.FirstDrain
	}
	if end == planLargest {
		return d.High()
	}
	return d.Low()
}

// acting is what drain n exchanges, less what a two-way line hands back.
func (r Request) acting(n int, end planEnd) units.Volume { return r.drain(n, end).Sub(r.LineReturns) }

// rows follows the best and the worst corner cycle by cycle.
func (r Request) rows() []Row {
	rows := make([]Row, 0, r.MostCycles)
	share, sumpLeft := allOld(), 1.0
	whatIf := r.whatIfStates()
	fluid := [2]units.Volume{r.onceAllowances(), r.onceAllowances()}
	for n := 1; n <= r.MostCycles; n++ {
		before := share.High
		share.Low = float64(share.Low * remainingFactor(r.Capacity.Low(), r.acting(n, planLargest)))
		share.High = float64(share.High * remainingFactor(r.Capacity.High(), r.acting(n, planSmallest)))
		each := r.losses().EachTime()
		fluid[0] = fluid[0].Add(r.drain(n, planSmallest)).Add(each)
		fluid[1] = fluid[1].Add(r.drain(n, planLargest)).Add(each)
		row := Row{Cycle: n, Share: share, Gain: before - share.High}
		row.Bounds, sumpLeft = r.bounds(n, share, sumpLeft)
		row.WhatIf = planWhatIf(whatIf, r.acting(n, planSmallest), r.WhatIfMixing)
		row.Fluid, _ = units.NewRange(fluid[0], fluid[1])
		r.price(&row, r.drain(n, planSmallest).Add(each))
		rows = append(rows, row)
	}
	return rows
}

// bounds widens the well-mixed share by the worst corner without mixing. left is
// the product of 1 - d/S so far, for a known sump.
func (r Request) bounds(n int, share Share, left float64) (Share, float64) {
	c := r.Capacity.High()
	if r.Sump.IsZero() {
		// Sure to have gone: the larger of the first and the later drains.
		d := r.acting(1, planSmallest)
		if n > 1 && r.acting(n, planSmallest).Compare(d) > 0 {
			d = r.acting(n, planSmallest)
		}
		return Share{share.Low, max(share.High, remainingFactor(c, d))}, left
	}
	left *= remainingFactor(r.Sump, r.acting(n, planSmallest))
	high := remainingFactor(c, r.Sump) + float64(r.Sump.Ratio(c)*left)
	return Share{share.Low, min(1, max(share.High, high))}, left
}

// floor is where the upper bound ends up after many drains.
func (r Request) floor() float64 {
	if !r.Sump.IsZero() {
		return remainingFactor(r.Capacity.High(), r.Sump)
	}
	b, _ := r.bounds(2, Share{}, 1)
	return b.High
}

func (r Request) whatIfStates() []State {
	states := make([]State, len(r.WhatIfMixing))
	for i, m := range r.WhatIfMixing {
		states[i] = stateFull(System{Capacity: r.Capacity.High(), Sump: r.Sump, Mixing: m})
	}
	return states
}

func planWhatIf(states []State, drain units.Volume, mixing []float64) []float64 {
	if len(states) == 0 {
		return nil
	}
	shares := make([]float64, len(states))
	for i, st := range states {
		states[i] = st.drained(drain).refilled(drain, 0).mixed(mixing[i])
		shares[i] = states[i].OldShare()
	}
	return shares
}

// price adds what depends on the fluid of the cycle and on its price.
func (r Request) price(row *Row, takes units.Volume) {
	row.GainPerLitre = row.Gain / takes.In(units.Litre)
	if r.PricePerLitre.IsZero() {
		return
	}
	row.Cost = planCost(r.PricePerLitre, row.Fluid.High())
	if money := planFloat(planCost(r.PricePerLitre, takes)); money > 0 {
		row.GainPerMoney = row.Gain / money
	}
}

// planCost is price times litres, exact.
func planCost(price decimal.Decimal, v units.Volume) decimal.Decimal {
	return price.Mul(planLitres(v))
}

// planLitres is the volume as an exact decimal of litres.
func planLitres(v units.Volume) decimal.Decimal {
	d, err := v.Decimal(units.Litre, units.MostPlaces, units.HalfEven)
	if err != nil {
		return decimal.Decimal{} // cannot be: the volume is valid, and a litre is one
	}
	return d
}

// planFloat is the nearest float64 of a checked amount of money.
func planFloat(d decimal.Decimal) float64 {
	x, err := strconv.ParseFloat(d.StringFixed(24), 64)
	if err != nil {
		return 0
	}
	return x
}

// choose decides how many cycles, and says what that rests on.
func (r Request) choose(p *Proposal) {
	if cyclesMet(1, r.Target) { // nothing needs doing
		p.Met, p.Outcome, p.Best = true, MetWhateverMixing, 1
		return
	}
	low := planFirst(p.Rows, func(row Row) bool { return cyclesMet(row.Share.Low, r.Target) })
	mixed := planFirst(p.Rows, func(row Row) bool { return cyclesMet(row.Share.High, r.Target) })
	sure := planFirst(p.Rows, func(row Row) bool { return cyclesMet(row.Bounds.High, r.Target) })
	needed := mixed
	if r.Purpose == ChangeClass {
		needed = sure
	}
	p.Cycles = CycleCount{Low: low, High: needed, Chosen: needed}
	p.Met = needed > 0
	if !p.Met {
		p.Cycles.Chosen = len(p.Rows)
	}
	switch {
	case sure > 0 && sure <= p.Cycles.Chosen:
		p.Outcome = MetWhateverMixing
	case mixed > 0:
		p.Outcome = MetIfMixed
	default:
		p.Outcome = NotMet
	}
	best := p.Rows[len(p.Rows)-1]
	p.Best = best.Share.High
	if r.Purpose == ChangeClass {
		p.Best = best.Bounds.High
	}
}

// planFirst is the first cycle that satisfies ok, 0 for none.
func planFirst(rows []Row, ok func(Row) bool) int {
	return slices.IndexFunc(rows, ok) + 1
}

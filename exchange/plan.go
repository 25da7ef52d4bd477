package exchange

import (
	"fmt"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
	"github.com/shopspring/decimal"
)

// Request is what a service is planned from. Capacity, Drain and Target are
// needed; all else may stay zero.
type Request struct {
	Capacity   units.Range[units.VolumeDim] // all the fluid in the box; above 0, at most 500 L
	Drain      units.Range[units.VolumeDim] // what one drain gives; above 0, at most the smallest capacity
	FirstDrain units.Range[units.VolumeDim] // the first drain after standing, where it differs; zero: as Drain
	Sump       units.Volume                 // what the drain plug can reach; zero: not known
	Target     float64                      // old share wanted, 0 to 1
	Purpose    Purpose
	MostCycles int // how many cycles the shop would do at most, up to 100; zero: 12

	KeptOnce       units.Volume // stays in the pump, bottle or hose once
	KeptEachTime   units.Volume // stays in the pump or line at every refill
	FilmEachTime   units.Volume // film in pan, jug and funnel at every swap
	LineReturns    units.Volume // old fluid a two-way line hands back with every refill
	FinalAllowance units.Volume // kept ready for the level check

	PricePerLitre decimal.Decimal // 0: no cost is given; at most 1e9, at most 9 decimals
	WhatIfMixing  []float64       // mixing shares to show beside the bounds; needs Sump, at most 10
	Coverage      float64         // probability of the intervals, 0.01 to 0.9999; zero: 0.95
}

// Proposal is the planned service. Where it speaks of the worst case it means
// the largest capacity with the smallest drains; the fluid it asks for covers the
// largest drains.
type Proposal struct {
	Cycles  CycleCount
	Met     bool    // the target is met, as strictly as the purpose asks
	Outcome Outcome // the same with its reason
	Share   Share   // well-mixed old share after the chosen cycles
	Bounds  Share   // whatever the gears do
	Best    float64 // lowest old share the plan can promise for its purpose, 0 to 1
	// Floor is the share no number of drains is sure to go below, were the fluid
	// held back never to move: (C - S)/C, or 1 - d/C where the sump is not known.
	Floor      float64
	Rows       []Row // cycle 1, 2, …, up to MostCycles
	Fluid      FluidNeed
	FluidLeast FluidNeed // the same were every drain the smallest
	// FluidInterval holds the fluid needed with the probability asked for.
	FluidInterval units.Range[units.VolumeDim]
	Caveats       []Caveat
	Steps         working.Steps
}

// CycleCount is how many cycles a target takes.
type CycleCount struct {
	Low    int // smallest capacity, largest drains; 0 with a target not met in reach
	High   int // largest capacity, smallest drains; 0 with a target not met in reach
	Chosen int // what is planned: the worst case, or all the cycles in reach
}

// Row is the state of affairs after one more cycle.
type Row struct {
	Cycle  int
	Share  Share // well-mixed old share, best and worst case
	Bounds Share // old share whatever the gears do, best and worst case
	// Interval holds the well-mixed old share with the probability asked for: each
	// capacity in its range equally likely, each position in the range of the
	// drains too, the same for all drains of the box.
	Interval measure.Interval
	Chance   float64                      // probability that the well-mixed share meets the target, on the same footing, 0 to 1
	WhatIf   []float64                    // worst-case old share at each of Request.WhatIfMixing
	Fluid    units.Range[units.VolumeDim] // fluid needed in all if work stops here, allowances included
	Gain     float64                      // worst-case fall of the old share by this cycle
	// GainPerLitre is Gain per litre of fluid this cycle takes in the worst case.
	GainPerLitre float64
	Cost         decimal.Decimal // of the larger end of Fluid, exact; zero without a price
	GainPerMoney float64         // Gain per unit of money this cycle takes; zero without a price
}

// Plan returns how many drain-and-fills meet the target, what each further one
// gains, and the fluid to have ready, each allowance by its name.
//
// Shares, ranges and the rule for meeting a target are those of
// [RemainingRange], [Bounds] and [Cycles]. A target that cannot be met is not an
// error: Met is false, Outcome and Best say what can be had. Unusable input is an
// error that names every fault.
func Plan(r Request) (Proposal, error) {
	if err := r.faults(); err != nil {
		return Proposal{}, fmt.Errorf("exchange: plan: %w", err)
	}
	r = r.withDefaults()
	var p Proposal
	p.Rows = r.rows()
	r.intervals(p.Rows)
	p.Floor = r.floor()
	r.choose(&p)
	p.Share, p.Bounds = allOld(), allOld()
	if n := p.Cycles.Chosen; n > 0 {
		p.Share, p.Bounds = p.Rows[n-1].Share, p.Rows[n-1].Bounds
	}
	p.Fluid = r.fluid(p.Cycles.Chosen, planLargest)
	p.FluidLeast = r.fluid(p.Cycles.Chosen, planSmallest)
	p.FluidInterval = r.fluidLikely(p.FluidLeast, p.Fluid)
	p.Caveats = r.caveats(p)
	p.Steps = r.steps(p)
	return p, nil
}

package exchange

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

const (
	planUsualCycles  = 12
	planMostCycles   = 100
	planMostWhatIfs  = 10
	planPricePlaces  = 9
	planPriceZeros   = 9
	planMostPrice    = 1_000_000_000
	planPriceBitsMax = 64
)

func (r Request) withDefaults() Request {
	if r.MostCycles == 0 {
		r.MostCycles = planUsualCycles
	}
	if r.FirstDrain.IsZero() {
		r.FirstDrain = r.Drain
	}
	return r
}

func (r Request) losses() Losses {
	return Losses{r.KeptOnce, r.KeptEachTime, r.FilmEachTime, r.LineReturns}
}

func (r Request) faults() error {
	faults := []error{r.capacityFault(), r.sumpFault(), r.drainFault("drain", r.Drain)}
	if !r.FirstDrain.IsZero() { // else it is the drain, which has been judged
		faults = append(faults, r.drainFault("first drain", r.FirstDrain))
	}
	faults = append(faults, r.losses().Check(), lossesFault("final allowance", r.FinalAllowance))
	if !systemIsShare(r.Target) {
		faults = append(faults, systemShareFault("target", r.Target))
	}
	if r.Purpose > ChangeClass {
		faults = append(faults, fmt.Errorf("purpose %d; want Refresh or ChangeClass", uint8(r.Purpose)))
	}
	if r.MostCycles < 0 || r.MostCycles > planMostCycles {
		faults = append(faults, fmt.Errorf("most cycles %d; want 1 to %d, or 0 for %d", r.MostCycles, planMostCycles, planUsualCycles))
	}
	if c := r.coverage(); !intervalCoverage(c) {
		faults = append(faults, fmt.Errorf("coverage %g; want 0.01 to 0.9999, or 0 for %g", c, intervalUsual))
	}
	if err := planPriceFault(r.PricePerLitre); err != nil {
		faults = append(faults, fmt.Errorf("price per litre: %w", err))
	}
	return errors.Join(append(faults, r.whatIfFaults()...)...)
}

func (r Request) capacityFault() error { return planEnds(r.Capacity, systemCapacityFault) }

// sumpFault holds the sump against the smallest capacity, where that makes sense.
func (r Request) sumpFault() error {
	if r.capacityFault() == nil {
		if err := (System{Capacity: r.Capacity.Low(), Sump: r.Sump}).Check(); err != nil {
			return fmt.Errorf("%w (smallest)", err)
		}
		return nil
	}
	switch {
	case !r.Sump.Valid():
		return fmt.Errorf("sump is %w; want 0 (not known) to the capacity", units.ErrOutOfRange)
	case r.Sump.Sign() < 0:
		return fmt.Errorf("sump %s; want 0 (not known) to the capacity", r.Sump)
	}
	return nil
}

// mostDrain is what one drain can give at most, by those of the request's
// figures that make sense.
func (r Request) mostDrain() (units.Volume, string) {
	switch {
	case r.capacityFault() != nil:
		return units.Litre.Of(systemMostLitres), "largest capacity of a box"
	case r.Sump.IsZero() || r.sumpFault() != nil:
		return r.Capacity.Low(), "smallest capacity"
	}
	return r.Sump, "sump"
}

func (r Request) drainFault(what string, d units.Range[units.VolumeDim]) error {
	most, name := r.mostDrain()
	faults := []error{planEnds(d, func(end units.Volume) error { return systemDrainFault(what, end, most, name) })}
	switch low := d.Low(); {
	case low.IsZero():
		faults = append(faults, fmt.Errorf("%s: 0 L; want more than 0", what))
	case low.Sign() > 0 && lossesFault("", r.LineReturns) == nil && low.Compare(r.LineReturns) <= 0:
		faults = append(faults, fmt.Errorf("%s: %s; want more than the line returns, %s", what, low, r.LineReturns))
	}
	return errors.Join(faults...)
}

// planEnds judges both ends of a range, which may be the same.
func planEnds(r units.Range[units.VolumeDim], fault func(units.Volume) error) error {
	if r.Low() == r.High() {
		return fault(r.Low())
	}
	return errors.Join(fault(r.Low()), fault(r.High()))
}

func (r Request) whatIfFaults() []error {
	var faults []error
	if len(r.WhatIfMixing) > planMostWhatIfs {
		return append(faults, fmt.Errorf("%d what-if mixing shares; want at most %d", len(r.WhatIfMixing), planMostWhatIfs))
	}
	if len(r.WhatIfMixing) > 0 && r.Sump.IsZero() {
		faults = append(faults, errors.New("what-if mixing without a sump; want the sump too"))
	}
	for _, m := range r.WhatIfMixing {
		if !systemIsShare(m) {
			faults = append(faults, systemShareFault("what-if mixing share", m))
		}
	}
	return faults
}

// planPriceFault looks at size before it compares: a decimal may hold a number
// whose digits would fill the memory.
func planPriceFault(price decimal.Decimal) error {
	const accepted = "want 0 to 1e9 with at most 9 decimals"
	e := price.Exponent()
	if e < -planPricePlaces || e > planPriceZeros || price.Coefficient().BitLen() > planPriceBitsMax {
		return errors.New("too large or too fine; " + accepted)
	}
	if price.Sign() < 0 || price.Cmp(decimal.New(planMostPrice, 0)) > 0 {
		return fmt.Errorf("%s; %s", price.StringFixed(2), accepted)
	}
	return nil
}

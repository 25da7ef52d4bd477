package exchange

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
)

// Remaining returns the old share, 0 to 1, after the drains, each followed by
// a refill of as much new fluid and a run of the gears. With no sump the box is
// well mixed and the share is the product of the factors (C - d)/C. With a sump
// it is the two-zone model at the system's mixing share.
//
// Each factor is rounded once to the nearest float64, then multiplied in the
// order given: the relative error is below 2.3e-16 times the number of drains in
// a well-mixed box. Drains may be zero; a drain below zero, or above the
// capacity (the sump, where known), is an error, and so are more than 10 000 drains
// and an unusable system. The first ten faults come back at once, and the share
// beside them is 1.
func Remaining(sys System, drains []units.Volume) (float64, error) {
	if err := remainingFaults(sys, drains); err != nil {
		return 1, fmt.Errorf("exchange: remaining: %w", err)
	}
	if !sys.twoZones() {
		return remainingProduct(sys.Capacity, drains), nil
	}
	st := stateFull(sys)
	for _, d := range drains {
		st = st.drained(d).refilled(d, 0).mixed(sys.Mixing)
	}
	return st.OldShare(), nil
}

// RemainingRange returns the old share of a well-mixed box where capacity and
// drains are known as ranges. The share rises with the capacity and falls with
// every drain, so the two ends are exact corners: smallest capacity with largest
// drains, and the other way about. Rounding as for [Remaining]. The largest drain
// must not exceed the smallest capacity; at most 10 000 drains; beside an error both
// ends are 1.
func RemainingRange(capacity units.Range[units.VolumeDim], drains []units.Range[units.VolumeDim]) (Share, error) {
	if err := remainingRangeFaults(capacity, drains); err != nil {
		return allOld(), fmt.Errorf("exchange: remaining: %w", err)
	}
	s := allOld()
	for _, d := range drains {
		s.Low *= remainingFactor(capacity.Low(), d.High())
		s.High *= remainingFactor(capacity.High(), d.Low())
	}
	return s, nil
}

// remainingFactor is (C - d)/C, rounded once: the subtraction is exact in ticks.
func remainingFactor(capacity, drain units.Volume) float64 {
	return capacity.Sub(drain).Ratio(capacity)
}

func remainingProduct(capacity units.Volume, drains []units.Volume) float64 {
	x := 1.0
	for _, d := range drains {
		x *= remainingFactor(capacity, d)
	}
	return x
}

func remainingFaults(sys System, drains []units.Volume) error {
	if err := errors.Join(sys.Check(), remainingCountFault(len(drains))); err != nil {
		return err
	}
	most, name := sys.drainable()
	return remainingDrainFaults(drains, most, name)
}

func remainingDrainFaults(drains []units.Volume, most units.Volume, name string) error {
	var faults []error
	for i, d := range drains {
		if d.Valid() && d.Sign() >= 0 && d.Compare(most) <= 0 {
			continue // the message below is costly; a good list must not pay for it
		}
		if len(faults) == remainingMostFaults {
			break
		}
		faults = append(faults, systemDrainFault(fmt.Sprintf("drain %d", i+1), d, most, name))
	}
	return errors.Join(faults...)
}

const (
	// remainingMostFaults keeps a long bad list from making a longer message.
	remainingMostFaults = 10
	// remainingMostDrains keeps an answer within a millisecond or so.
	remainingMostDrains = 10_000
)

func remainingCountFault(n int) error {
	if n > remainingMostDrains {
		return fmt.Errorf("%d drains; want at most %d", n, remainingMostDrains)
	}
	return nil
}

func remainingRangeFaults(capacity units.Range[units.VolumeDim], drains []units.Range[units.VolumeDim]) error {
	if err := systemCapacityFault(capacity.Low()); err != nil {
		return err
	}
	if err := errors.Join(systemCapacityFault(capacity.High()), remainingCountFault(len(drains))); err != nil {
		return err
	}
	var faults []error
	for i, d := range drains {
		if len(faults) == remainingMostFaults {
			break
		}
		for _, end := range [...]units.Volume{d.Low(), d.High()} {
			if err := systemDrainFault(fmt.Sprintf("drain %d", i+1), end, capacity.Low(), "smallest capacity"); err != nil {
				faults = append(faults, err)
				break
			}
		}
	}
	return errors.Join(faults...)
}

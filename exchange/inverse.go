package exchange

import (
	"errors"
	"fmt"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
)

// RealCycles returns the number of cycles, whole or not, at which the old share
// of a well-mixed box equals the target: ln(target)/ln(1 - d/C). It says how near
// to a whole cycle a target lies; [Cycles] is the answer to act on. Relative error
// below 1e-14. The target must lie above 0 and at most 1; faults as for [Cycles].
func RealCycles(target float64, capacity, drain units.Volume) (float64, error) {
	err := cyclesFaults(target, capacity, drain)
	if err == nil && target == 0 {
		err = errors.New("target 0; want more than 0 to 1")
	}
	if err != nil {
		return 0, fmt.Errorf("exchange: real cycles: %w", err)
	}
	if drain == capacity {
		if target == 1 {
			return 0, nil
		}
		return 0, fmt.Errorf("exchange: real cycles: drain %s empties the box at once; want less than the capacity", drain)
	}
	n := elementary.Log(target) / elementary.Log1p(-drain.Ratio(capacity))
	if n > units.Huge {
		return 0, fmt.Errorf("exchange: real cycles: %w: drain %s; want a larger one", units.ErrOutOfRange, drain)
	}
	return n + 0, nil // no negative zero
}

// DrainFor returns the drain of which n equal ones bring the old share of a
// well-mixed box to the target: C·(1 - target^(1/n)), rounded to the nearest tick
// of a float64 result (relative error below 1e-14). The target must lie between 0
// and 1, n between 1 and 10 000.
func DrainFor(target float64, capacity units.Volume, n int) (units.Volume, error) {
	if err := errors.Join(inverseFault(target, n), systemCapacityFault(capacity)); err != nil {
		return units.Volume{}, fmt.Errorf("exchange: drain for: %w", err)
	}
	return capacity.Scale(inverseTaken(target, n)), nil
}

// CapacityFor returns the largest capacity for which n equal drains still meet
// the target in a well-mixed box: d/(1 - target^(1/n)). It says how far a
// capacity may be off before one more cycle is needed. The target must lie from 0
// to below 1, n between 1 and 10 000, the drain above 0 and at most 500 L; an answer
// past the range of a volume is an error.
func CapacityFor(target float64, drain units.Volume, n int) (units.Volume, error) {
	faults := []error{inverseFault(target, n)}
	if target == 1 {
		faults = append(faults, errors.New("target 1 is met by any capacity; want less than 1"))
	}
	if err := systemCapacityFault(drain); err != nil {
		faults = append(faults, fmt.Errorf("drain %s; want more than 0 to %d L", drain, systemMostLitres))
	}
	if err := errors.Join(faults...); err != nil {
		return units.Volume{}, fmt.Errorf("exchange: capacity for: %w", err)
	}
	c, err := units.Litre.TryOf(drain.In(units.Litre) / inverseTaken(target, n))
	if err != nil {
		return units.Volume{}, fmt.Errorf("exchange: capacity for: %w", err)
	}
	return c, nil
}

// inverseTaken is 1 - target^(1/n), what each of n equal drains must take.
func inverseTaken(target float64, n int) float64 {
	if target == 0 {
		return 1
	}
	return -elementary.Expm1(elementary.Log(target) / float64(n))
}

func inverseFault(target float64, n int) error {
	var faults []error
	if !systemIsShare(target) {
		faults = append(faults, systemShareFault("target", target))
	}
	if n < 1 || n > cyclesLimit {
		faults = append(faults, fmt.Errorf("%d cycles; want 1 to %d", n, cyclesLimit))
	}
	return errors.Join(faults...)
}

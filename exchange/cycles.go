package exchange

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
)

// ErrCannotMeet is wrapped where no number of drain-and-fills in reach gives the
// old share asked for.
var ErrCannotMeet = errors.New("cannot be met by draining")

// cyclesLimit bounds every search for a number of cycles: a service that needs
// more is not a service.
const cyclesLimit = 10_000

// cyclesGuard is the relative slack of share <= target, so that 80 halved twice
// meets 20 and three times nine tenths meets 0.729 although the product is
// rounded. It is worth far less than any reading.
const cyclesGuard = 1e-12

// cyclesMet is the one place that decides whether a share meets a target.
func cyclesMet(share, target float64) bool { return share <= target+float64(target*cyclesGuard) }

// Cycles returns the smallest number of drain-and-fills of the given drain that
// bring the old share of a well-mixed box to the target or below; a share within
// a relative 1e-12 of the target meets it. A target of 1 takes none.
//
// The target must lie between 0 and 1, the drain above zero and at most the
// capacity. A target that more than 10 000 cycles would not meet (zero, unless one
// drain empties the box) is an error that wraps [ErrCannotMeet].
func Cycles(target float64, capacity, drain units.Volume) (int, error) {
	if err := cyclesFaults(target, capacity, drain); err != nil {
		return 0, fmt.Errorf("exchange: cycles: %w", err)
	}
	n, x := cyclesCount(target, remainingFactor(capacity, drain))
	if !cyclesMet(x, target) {
		return 0, fmt.Errorf("exchange: cycles: target %s %% %w: %d drains of %s leave %g; want a higher target or a larger drain",
			sharePercent(target), ErrCannotMeet, n, drain, x)
	}
	return n, nil
}

// CyclesRange returns the fewest and the most cycles that the target can take
// where capacity and drain are ranges: the fewest with the smallest capacity and
// the largest drain, the most the other way about. Faults as for [Cycles].
func CyclesRange(target float64, capacity, drain units.Range[units.VolumeDim]) (fewest, most int, err error) {
	fewest, err = Cycles(target, capacity.Low(), drain.High())
	if err != nil {
		return 0, 0, err
	}
	most, err = Cycles(target, capacity.High(), drain.Low())
	if err != nil {
		return 0, 0, err
	}
	return fewest, most, nil
}

// cyclesCount counts up to the target or the limit, and returns the share then.
func cyclesCount(target, factor float64) (int, float64) {
	x := 1.0
	for n := range cyclesLimit {
		if cyclesMet(x, target) {
			return n, x
		}
		x *= factor
	}
	return cyclesLimit, x
}

func cyclesFaults(target float64, capacity, drain units.Volume) error {
	var faults []error
	if !systemIsShare(target) {
		faults = append(faults, systemShareFault("target", target))
	}
	if err := systemCapacityFault(capacity); err != nil {
		return errors.Join(append(faults, err)...)
	}
	if drain.Valid() && drain.IsZero() {
		faults = append(faults, fmt.Errorf("drain: 0 L; want more than 0"))
	}
	faults = append(faults, systemDrainFault("drain", drain, capacity, "capacity"))
	return errors.Join(faults...)
}

package exchange

import (
	"fmt"

	"example.com/meniscus/units"
)

// Bounds returns the lowest and the highest old share that the drains can have
// left, each followed by a refill of as much new fluid, whatever the gears did
// for mixing in between:
//
//	Π(1 - d/C) <= old share <= H/C + (S/C)·Π(1 - d/S)
//
// with capacity C, sump S and the fluid held back H = C - S. The lower end is
// the well-mixed box; the upper end is a box whose held-back fluid never moves.
// A sump of zero is a sump that is not known: it holds at least the largest
// drain, and the upper end is then 1 - d/C of that drain alone.
//
// Derived from the two-zone model and checked on random histories of it. Faults
// as for [Remaining]; beside an error both ends are 1.
func Bounds(capacity, sump units.Volume, drains []units.Volume) (Share, error) {
	if err := remainingFaults(System{Capacity: capacity, Sump: sump}, drains); err != nil {
		return allOld(), fmt.Errorf("exchange: bounds: %w", err)
	}
	return boundsOf(capacity, sump, drains), nil
}

func boundsOf(capacity, sump units.Volume, drains []units.Volume) Share {
	sump = boundsSump(sump, drains)
	low := remainingProduct(capacity, drains)
	if sump.IsZero() { // nothing was drained
		return Share{low, low}
	}
	held := capacity.Sub(sump).Ratio(capacity)
	part := float64(sump.Ratio(capacity) * remainingProduct(sump, drains))
	// One drain, or a sump that is the whole box, makes both ends the same
	// number by two roads; rounding must not turn them round.
	return Share{low, min(1, max(low, held+part))}
}

// boundsSump is the sump where it is known, else what it holds at least.
func boundsSump(sump units.Volume, drains []units.Volume) units.Volume {
	if !sump.IsZero() {
		return sump
	}
	for _, d := range drains {
		if d.Compare(sump) > 0 {
			sump = d
		}
	}
	return sump
}

package exchange

import (
	"errors"
	"fmt"
	"math"

	"example.com/meniscus/units"
)

// System is the box whose fluid is exchanged. The zero value is no box: every
// use of it is an error.
type System struct {
	// Capacity is all the fluid in the box when its level is right: more than
	// zero, at most 500 L.
	Capacity units.Volume
	// Sump is the part the drain plug can reach, at most Capacity. Zero: not
	// known, and the box counts as well mixed.
	Sump units.Volume
	// Mixing is the share, 0 to 1, of the difference between the sump and the
	// fluid held back that one run of the gears closes. It is a what-if, used
	// only with Sump: nobody can measure it in a workshop. Zero leaves the fluid
	// held back untouched, the worst case; one is the well-mixed box.
	Mixing float64
}

// Check reports every fault of the system at once, nil when it can be used.
func (s System) Check() error {
	if err := systemCapacityFault(s.Capacity); err != nil {
		return err
	}
	var faults []error
	switch {
	case !s.Sump.Valid():
		faults = append(faults, fmt.Errorf("sump is %w; want 0 (not known) to the capacity", units.ErrOutOfRange))
	case s.Sump.Sign() < 0 || s.Sump.Compare(s.Capacity) > 0:
		faults = append(faults, fmt.Errorf("sump %s; want 0 (not known) to the capacity, %s", s.Sump, s.Capacity))
	}
	if !systemIsShare(s.Mixing) {
		faults = append(faults, systemShareFault("mixing share", s.Mixing))
	}
	return errors.Join(faults...)
}

// Held returns what the drain plug cannot reach, Capacity - Sump; zero where
// the sump is not known.
func (s System) Held() units.Volume {
	if s.Sump.IsZero() {
		return units.Volume{}
	}
	return s.Capacity.Sub(s.Sump)
}

// twoZones says that the system keeps sump and held-back fluid apart.
func (s System) twoZones() bool { return !s.Sump.IsZero() }

// systemMostLitres bounds a capacity, so that the fluid of the longest plan stays
// in the range of a Volume. The largest vehicle boxes hold a tenth of it.
const systemMostLitres = 500

func systemCapacityFault(capacity units.Volume) error {
	most := units.Litre.Of(systemMostLitres)
	switch {
	case !capacity.Valid():
		return fmt.Errorf("capacity is %w; want more than 0 to %s", units.ErrOutOfRange, most)
	case capacity.Sign() <= 0 || capacity.Compare(most) > 0:
		return fmt.Errorf("capacity %s; want more than 0 to %s", capacity, most)
	}
	return nil
}

// systemDrainFault judges one drain against the most that can come out.
func systemDrainFault(what string, drain, most units.Volume, mostName string) error {
	switch {
	case !drain.Valid():
		return fmt.Errorf("%s is %w; want 0 to the %s, %s", what, units.ErrOutOfRange, mostName, most)
	case drain.Sign() < 0 || drain.Compare(most) > 0:
		return fmt.Errorf("%s: %s; want 0 to the %s, %s", what, drain, mostName, most)
	}
	return nil
}

// systemIsShare is false for NaN too.
func systemIsShare(x float64) bool { return x >= 0 && x <= 1 }

func systemShareFault(what string, x float64) error {
	if math.IsNaN(x) {
		return fmt.Errorf("%s is not a number; want 0 to 1", what)
	}
	return fmt.Errorf("%s %g; want 0 to 1", what, x)
}

// drainable is the most one drain can give, and what to call it.
func (s System) drainable() (units.Volume, string) {
	if s.twoZones() {
		return s.Sump, "sump"
	}
	return s.Capacity, "capacity"
}

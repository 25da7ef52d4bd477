package thermal

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
)

// Vessel is what fluid is measured in. Its marks are taken to be true at 20 °C.
type Vessel struct {
	ID         string       `json:"id"`                  // stable name: readings in one vessel share its error by it
	Title      string       `json:"title,omitempty"`     // for reports
	Material   Material     `json:"material"`            // must be named; Uncorrected is a choice
	Graduation units.Volume `json:"graduation,omitzero"` // distance between two marks; zero: not known
	ScaleError float64      `json:"scaleError,omitzero"` // relative ± of the whole scale, rectangular, 0 to 0.5
	Capacity   units.Volume `json:"capacity,omitzero"`   // the top mark; zero: not known
	// Interpolated: read between the marks, the eye level with the surface.
	Interpolated bool `json:"interpolated,omitempty"`
	// Entry names one reading, such as "drain-1"; see For. It is no part of the
	// vessel, and is not encoded.
	Entry string `json:"-"`
}

// For returns the vessel for one reading, named so that the doubt of this look
// at the mark is not taken for another reading's.
func (v Vessel) For(entry string) Vessel {
	v.Entry = entry
	return v
}

// Check reports every fault of the vessel's own figures.
func (v Vessel) Check() error {
	var faults []error
	add := func(format string, args ...any) {
		faults = append(faults, fmt.Errorf("thermal: vessel %q: "+format, append([]any{clip(v.ID)}, args...)...))
	}
	if err := v.Material.Check(); err != nil {
		add("%w", err)
	}
	if !v.Graduation.Valid() || v.Graduation.Sign() < 0 {
		add("graduation %s; want 0 or more", v.Graduation)
	}
	if !v.Capacity.Valid() || v.Capacity.Sign() < 0 {
		add("capacity %s; want 0 or more", v.Capacity)
	}
	if !isDoubt(v.ScaleError) {
		add("scale error %v; want a share of the reading, 0 to 0.5", v.ScaleError)
	}
	if v.Capacity.Sign() > 0 && v.Graduation.Compare(v.Capacity) > 0 {
		add("graduation %s is above the capacity %s", v.Graduation, v.Capacity)
	}
	return errors.Join(faults...)
}

// Contents returns the true volume held at the temperature at when the level
// stands at the mark read: read·(1 + γ(at - 20 °C)), rounded once to a tick.
// A reading below zero or above the capacity, a material not named, and a
// temperature outside the material's range are errors.
//
// Source: form of ISO 4787 and ASTM E542, from memory; γ from the material.
func (v Vessel) Contents(read units.Volume, at units.Temperature) (units.Volume, error) {
	k, err := v.factor(read, at)
	if err != nil {
		return units.Volume{}, err
	}
	return v.inRange(read.Scale(k))
}

// Mark returns the mark to fill to so that the vessel holds the true volume
// contents at the temperature at; the inverse of Contents.
func (v Vessel) Mark(contents units.Volume, at units.Temperature) (units.Volume, error) {
	k, err := v.factor(units.Volume{}, at)
	if err != nil {
		return units.Volume{}, err
	}
	mark, err := v.inRange(contents.Scale(1 / k))
	if err != nil {
		return mark, err
	}
	return mark, v.checkMark(mark)
}

func (v Vessel) inRange(x units.Volume) (units.Volume, error) {
	if !x.Valid() {
		return units.Volume{}, fmt.Errorf("thermal: vessel %q: volume %w; want a valid one", clip(v.ID), units.ErrOutOfRange)
	}
	return x, nil
}

func (v Vessel) factor(read units.Volume, at units.Temperature) (float64, error) {
	if err := errors.Join(v.Check(), v.checkMark(read)); err != nil {
		return 0, err
	}
	k, err := v.Material.factor(at)
	if err != nil {
		return 0, fmt.Errorf("thermal: vessel %q: %w", clip(v.ID), err)
	}
	return k, nil
}

func (v Vessel) checkMark(read units.Volume) error {
	switch {
	case !read.Valid() || read.Sign() < 0:
		return fmt.Errorf("thermal: vessel %q: reading %s; want 0 or more", clip(v.ID), read)
	case v.Capacity.Sign() > 0 && read.Compare(v.Capacity) > 0:
		return fmt.Errorf("thermal: vessel %q: %s is above its top mark, %s; use two fills", clip(v.ID), bothJugs(read), bothJugs(v.Capacity))
	}
	return nil
}

// bothJugs prints a volume as both kinds of jug show it.
func bothJugs(v units.Volume) string {
	return v.Text(units.Litre, 3) + " (" + v.Text(units.USQuart, 2) + ")"
}

package jobcard

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
)

// Amount is one measurement of fluid: either a volume read in a vessel at a
// temperature, or a mass read on a scale. A mass needs neither temperature nor
// vessel. The zero value is no measurement.
type Amount struct {
	Volume      units.Volume      `json:"volume,omitzero"`
	Temperature units.Temperature `json:"temperature,omitzero"`  // of the fluid when the volume was read
	Vessel      string            `json:"vessel,omitempty"`      // id; empty: taken as true, no vessel correction
	Thermometer string            `json:"thermometer,omitempty"` // id; empty: the temperature's doubt is not counted
	Mass        units.Mass        `json:"mass,omitzero"`
	Scale       string            `json:"scale,omitempty"`    // id; empty: the mass's doubt is not counted
	PlusMinus   units.Volume      `json:"plusMinus,omitzero"` // limits of an estimate nobody measured, such as what a hose keeps
}

// IsZero reports whether nothing was measured.
func (a Amount) IsZero() bool { return a == Amount{} }

// exact reports whether an amount states no doubt of its own.
func (a Amount) exact() bool {
	return !a.IsZero() && a.Vessel == "" && a.Scale == "" && a.PlusMinus.IsZero()
}

// check returns every fault of the amount by itself; names are checked against
// the job by the caller.
func (a Amount) check() error {
	var faults []error
	say := func(format string, args ...any) { faults = append(faults, fmt.Errorf(format, args...)) }
	switch {
	case a.IsZero():
		say("no amount; want a volume with its temperature, or a mass")
	case !a.Mass.IsZero() && !a.Volume.IsZero():
		say("both a volume and a mass; want the one that was measured")
	case !a.Mass.IsZero():
		a.checkMass(say)
	default:
		a.checkVolume(say)
	}
	return errors.Join(faults...)
}

func (a Amount) checkMass(say func(string, ...any)) {
	if !a.Mass.Valid() || a.Mass.Sign() < 0 {
		say("mass %s; want a positive mass", a.Mass)
	}
	if !a.Temperature.IsZero() || a.Vessel != "" || a.Thermometer != "" || !a.PlusMinus.IsZero() {
		say("a mass takes no temperature, vessel, thermometer or ± volume; it needs none")
	}
}

func (a Amount) checkVolume(say func(string, ...any)) {
	if !a.Volume.Valid() || a.Volume.Sign() <= 0 {
		say("volume %s; want a positive volume", a.Volume)
	}
	if !a.Temperature.Valid() || a.Temperature.IsZero() {
		say("volume %s has no temperature; want the fluid's temperature when the volume was read (a warm quart is less fluid than a cold one)", a.Volume)
	}
	if a.Scale != "" {
		say("a volume takes no scale %.40q; want a vessel", a.Scale)
	}
	if !a.PlusMinus.Valid() || a.PlusMinus.Sign() < 0 || a.PlusMinus.Compare(a.Volume) > 0 {
		say("± %s of a volume of %s; want zero up to the volume itself", a.PlusMinus, a.Volume)
	}
	if a.Vessel != "" && !a.PlusMinus.IsZero() {
		say("both vessel %.40q and ± %s; want the vessel, whose own graduation is the doubt", a.Vessel, a.PlusMinus)
	}
}

// String returns the amount as it was read, such as "2.1 L at 18 °C in jug-a".
func (a Amount) String() string {
	if !a.Mass.IsZero() {
		return a.Mass.Text(units.Kilogram, 3) + " (" + a.Mass.Text(units.Pound, 2) + ")" + named(" on ", a.Scale)
	}
	s := a.Volume.Text(units.Litre, 3) + " (" + a.Volume.Text(units.USQuart, 2) + ") at " +
		a.Temperature.Text(units.CelsiusScale, 1) + " (" + a.Temperature.Text(units.FahrenheitScale, 1) + ")"
	if a.Vessel != "" {
		s += " in " + a.Vessel
	}
	if !a.PlusMinus.IsZero() {
		s += " ± " + a.PlusMinus.Text(units.Millilitre, 0)
	}
	return s
}

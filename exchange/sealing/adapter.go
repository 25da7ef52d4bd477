package sealing

import (
	"fmt"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// Adapter is a wrench lengthened by an extension at its head, such as a
// crow's foot. The zero value of AngleDegrees is straight ahead.
type Adapter struct {
	Wanted       units.Torque // at the plug
	Lever        units.Length // from the middle of the grip to the wrench's own square
	Extension    units.Length // from that square to the plug
	AngleDegrees float64      // between handle line and extension: 0 lengthens, 90 changes nothing, 180 points back
}

// Setting is what the wrench is set to, and how that was reached.
type Setting struct {
	Set   units.Torque
	Steps working.Steps
}

// Setting returns T·L/(L + E·cos a), rounded once to the nearest tick. Levers
// must be positive, extensions not negative, the angle 0 to 180 degrees, and
// the plug must not come to lie under the hand.
//
// Source: torque-wrench adapter formula as published in TM 1-1500-204-23-9 and
// NAVEDTRA 14315, both seen.
func (a Adapter) Setting() (Setting, error) {
	if err := a.check(); err != nil {
		return Setting{}, err
	}
	// In lever lengths, so that nothing is rounded to a nanometre on the way.
	reach := 1 + float64(a.Extension.Ratio(a.Lever)*cosDegrees(a.AngleDegrees))
	if reach <= 1e-9 {
		return Setting{}, fmt.Errorf("sealing: adapter: an extension of %s at %v° puts the plug under the hand; want a shorter extension or a smaller angle", a.Extension, a.AngleDegrees)
	}
	set := a.Wanted.Scale(1 / reach)
	steps := working.Steps{}.Add("wrench setting", "T·L/(L + E·cos a)",
		fmt.Sprintf("%s × %s/(%s + %s × cos %v°)", a.Wanted.Text(units.NewtonMetre, 2), bare(a.Lever), bare(a.Lever), bare(a.Extension), a.AngleDegrees),
		Both(set))
	return Setting{Set: set, Steps: steps}, nil
}

func (a Adapter) check() error {
	switch {
	case !a.Wanted.Valid() || a.Wanted.Sign() <= 0:
		return fmt.Errorf("sealing: adapter: wanted torque is %s; want a positive torque", a.Wanted)
	case !a.Lever.Valid() || a.Lever.Sign() <= 0:
		return fmt.Errorf("sealing: adapter: lever is %s; want the positive length from grip to square", a.Lever)
	case !a.Extension.Valid() || a.Extension.Sign() < 0:
		return fmt.Errorf("sealing: adapter: extension is %s; want zero or a positive length", a.Extension)
	case !(a.AngleDegrees >= 0 && a.AngleDegrees <= 180):
		return fmt.Errorf("sealing: adapter: angle is %v degrees; want 0 (straight) to 180 (pointing back)", a.AngleDegrees)
	}
	return nil
}

// cosDegrees is exact at the three angles a mechanic uses.
func cosDegrees(a float64) float64 {
	switch a {
	case 0:
		return 1
	case 90:
		return 0
	case 180:
		return -1
	}
	const degree = 3.14159265358979323846 / 180
	return elementary.Cos(a * degree)
}

// Both prints a torque as both kinds of wrench show it: "24.0 N·m (17.7 lbf·ft)".
func Both(t units.Torque) string {
	return t.Text(units.NewtonMetre, 1) + " (" + t.Text(units.PoundForceFoot, 1) + ")"
}

package exchange

import (
	"errors"
	"fmt"
	"math"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// RectangularPan is a pan with upright walls, a flat floor and a check hole: the
// one outline whose contents at any tilt have a closed form.
type RectangularPan struct {
	Length units.Length // along the slope; above 0, at most 10 m
	Width  units.Length // across it; above 0, at most 10 m
	Lip    units.Length // height of the hole's lip over the floor
	Hole   units.Length // of the hole from the middle, positive towards the end that positive degrees raise
	Rim    units.Length // radius of the hole's edge where fluid runs over it all round; 0: at a point
	Roof   units.Length // height of the roof over the floor; 0: none near
}

// Retained returns the fluid the pan keeps below the hole at a tilt, -45 to 45
// degrees, exactly but for rounding: also where the surface meets the floor or
// the roof, where A·x·tan t no longer holds. Sizes below 0, a hole outside the
// pan, a lip above the roof and a tilt past 45° are errors.
func (p RectangularPan) Retained(degrees float64) (units.Volume, error) {
	if err := p.check(degrees); err != nil {
		return units.Volume{}, err
	}
	length, width, lip := p.Length.In(units.Metre), p.Width.In(units.Metre), p.Lip.In(units.Metre)
	roof := p.Roof.In(units.Metre)
	if p.Roof.IsZero() {
		roof = math.MaxFloat64
	}
	tan := elementary.Tan(degrees * tiltRadian)
	spill := p.tilt(degrees).spill().In(units.Metre)
	// The depth of fluid falls from one end to the other along a straight line.
	half := float64(length / 2)
	low, high := lip+float64((spill-half)*tan), lip+float64((spill+half)*tan)
	if low > high {
		low, high = high, low
	}
	area := 0.0
	if low >= 0 && high <= roof {
		area = float64(length * (lip + float64(spill*tan)))
	} else {
		// ∫ depth ds with the depth held between floor and roof.
		area = (tiltBelow(high, roof) - tiltBelow(low, roof)) / math.Abs(tan)
	}
	return units.Litre.TryOf(1000 * width * area)
}

// tiltBelow is ∫ of a depth from 0 to z held between 0 and the roof.
func tiltBelow(z, roof float64) float64 {
	switch {
	case z <= 0:
		return 0
	case z <= roof:
		return float64(float64(z*z) / 2)
	}
	return float64(float64(roof*roof)/2) + float64(roof*(z-roof))
}

// Tilt returns the pan's tilt as the general law takes it, with the limit of
// that law. The angle is a reading in degrees. It errors as Retained does.
func (p RectangularPan) Tilt(degrees measure.Reading) (Tilt, error) {
	if err := errors.Join(degrees.Err(), p.check(degrees.Value())); err != nil {
		return Tilt{}, err
	}
	t := p.tilt(0)
	t.Degrees = degrees
	area, err := measure.Exact(p.Length.In(units.Metre) * p.Width.In(units.Metre))
	if err != nil {
		return Tilt{}, fmt.Errorf("exchange: tilt: %w", err)
	}
	t.Area = area
	return t, nil
}

// tilt has all but the area; the angle is exact.
func (p RectangularPan) tilt(degrees float64) Tilt {
	t := Tilt{Hole: measure.MeasuredExactly(p.Hole), Rim: p.Rim, Depth: p.Lip, Extent: p.Length.Scale(0.5)}
	t.Degrees, _ = measure.Exact(degrees)
	if !p.Roof.IsZero() {
		t.Headroom = p.Roof.Sub(p.Lip)
	}
	return t
}

func (p RectangularPan) check(degrees float64) error {
	faults := []error{
		tiltCheckLength("length", p.Length, true), tiltCheckLength("width", p.Width, true),
		tiltCheckLength("lip", p.Lip, false), tiltCheckLength("rim", p.Rim, false), tiltCheckLength("roof", p.Roof, false),
	}
	if !(math.Abs(degrees) <= 45) {
		faults = append(faults, fmt.Errorf("exchange: tilt: %g degrees; want -45 to 45", degrees))
	}
	if !p.Hole.Valid() || p.Hole.Abs().Compare(p.Length.Scale(0.5)) > 0 {
		faults = append(faults, fmt.Errorf("exchange: tilt: hole is %s from the middle; want inside the pan, %s long", p.Hole, p.Length))
	}
	if !p.Roof.IsZero() && p.Lip.Compare(p.Roof) > 0 {
		faults = append(faults, fmt.Errorf("exchange: tilt: lip at %s is above the roof at %s; want it below", p.Lip, p.Roof))
	}
	return errors.Join(faults...)
}

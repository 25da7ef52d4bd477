package exchange

import (
	"errors"
	"fmt"
	"math"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
)

// Tilt is a vehicle that does not stand level while the level is checked. The
// zero value stands level.
//
// The free surface of the fluid, of any outline, turns about its centroid, so
// a check hole away from the centroid lets more or less run out than it should.
// The hole's side is positive towards the end that positive degrees raise.
type Tilt struct {
	Area    measure.Reading // of the free surface at the height of the hole, in m²; above 0, at most 10
	Hole    measure.Length  // distance of the hole from the centroid of the surface, along the slope; at most 10 m
	Degrees measure.Reading // -45 to 45
	// Rim is the radius of the hole's edge, where fluid runs over it all round, as
	// over a standpipe: it then runs over the downhill side. Zero: it leaves at a
	// point.
	Rim units.Length
	// With these three the limit of the law is worked out; leave them zero where
	// they are not known.
	Depth    units.Length // of fluid under the hole, down to the floor of the pan
	Headroom units.Length // from the hole up to the roof over the fluid; zero: none near
	Extent   units.Length // from the centroid to the farther end of the surface, along the slope
}

// Validity is whether a straight law holds where it was used.
type Validity uint8

const (
	// ValidityUnknown: the sizes that limit the law are not known.
	ValidityUnknown Validity = iota
	// ValidityHolds: the law holds.
	ValidityHolds
	// ValidityBroken: the surface meets the floor or the roof; the law is wrong.
	ValidityBroken
)

// String returns "unknown", "holds" or "broken".
func (v Validity) String() string {
	switch v {
	case ValidityHolds:
		return "holds"
	case ValidityBroken:
		return "broken"
	}
	return "unknown"
}

// MarshalText returns String; a value that is none of them is an error.
func (v Validity) MarshalText() ([]byte, error) {
	if v > ValidityBroken {
		return nil, fmt.Errorf("exchange: validity %d; want 0 to %d", uint8(v), uint8(ValidityBroken))
	}
	return []byte(v.String()), nil
}

// TiltEffect is what a tilt does to the level.
type TiltEffect struct {
	Left     measure.Volume // closed at the lip, this much more (+) or less (-) is in than on the level
	Limit    float64        // degrees, this way, at which the surface meets floor or roof; 0: never, or not known
	Validity Validity
	Steps    working.Steps
}

// IsZero reports whether t is the zero value: the vehicle stands level. A tilt
// of 0° with a doubt, or an angle without an area, is not.
func (t Tilt) IsZero() bool {
	none := func(r measure.Reading) bool { return r.Valid() && r.Value() == 0 && r.U() == 0 }
	return none(t.Area) && none(t.Degrees) && none(t.Hole.Reading())
}

// Effect returns what the tilt leaves in the box, closed at the lip of the
// hole: A·x·tan t, more where the hole is uphill. The doubt is that of the three
// readings, first order. It holds for any outline with upright walls as long as
// the surface meets neither floor nor roof: Limit and Validity say, where depth
// and extent are known. A wall that leans out by 0.2 changes it by about 1 % at
// 3°. The area is rarely known: report the effect, never correct for it in
// silence. The zero Tilt has no effect; sizes below 0 or past 10 m, an area past
// 10 m² and a tilt past 45° are errors.
func (t Tilt) Effect() (TiltEffect, error) {
	if t.IsZero() {
		return TiltEffect{Validity: ValidityHolds}, nil
	}
	if err := t.check(); err != nil {
		return TiltEffect{}, err
	}
	degrees := t.Degrees.Value()
	angle := degrees * tiltRadian
	tan := elementary.Tan(angle)
	area, at := t.Area.Value(), t.spill().In(units.Metre)
	reading, err := measure.Combine(1000*area*at*tan,
		measure.Part{Of: t.Area, Sensitivity: 1000 * at * tan},
		measure.Part{Of: t.Hole.Reading(), Sensitivity: 1000 * area * tan},
		measure.Part{Of: t.Degrees, Sensitivity: 1000 * area * at * tiltRadian * (1 + float64(tan*tan))})
	if err != nil {
		return TiltEffect{}, fmt.Errorf("exchange: tilt: %w", err)
	}
	left, err := measure.MeasuredFrom[units.VolumeDim](reading)
	if err != nil {
		return TiltEffect{}, fmt.Errorf("exchange: tilt: %w", err)
	}
	e := TiltEffect{Left: left, Limit: t.limit()}
	switch {
	case e.Limit > 0 && math.Abs(degrees) > e.Limit:
		e.Validity = ValidityBroken
	case t.Extent.Sign() > 0 && t.Depth.Sign() > 0:
		e.Validity = ValidityHolds
	}
	e.Steps = e.Steps.Add("left in by the tilt", "A·x·tan t",
		fmt.Sprintf("%.4g m² × %s × tan %.4g°", area, t.spill().Text(units.Millimetre, 0), degrees),
		left.Best().Text(units.Millilitre, 0))
	return e, nil
}

const tiltRadian = 0.017453292519943295 // π/180

// spill is where fluid runs over: the hole, or the downhill edge of its rim.
func (t Tilt) spill() units.Length {
	switch degrees := t.Degrees.Value(); {
	case degrees > 0:
		return t.Hole.Best().Sub(t.Rim)
	case degrees < 0:
		return t.Hole.Best().Add(t.Rim)
	}
	return t.Hole.Best()
}

// limit is the smaller of the tilts at which the uphill end runs dry and at
// which the downhill end meets the roof; 0 where neither ever happens.
func (t Tilt) limit() float64 {
	extent := t.Extent.In(units.Metre)
	if extent <= 0 {
		return 0
	}
	uphill := t.spill().In(units.Metre)
	if t.Degrees.Value() < 0 {
		uphill = -uphill
	}
	tan := math.MaxFloat64
	if depth := t.Depth.In(units.Metre); depth > 0 && extent > uphill {
		tan = min(tan, depth/(extent-uphill))
	}
	if room := t.Headroom.In(units.Metre); room > 0 && extent > -uphill {
		tan = min(tan, room/(extent+uphill))
	}
	if tan == math.MaxFloat64 {
		return 0
	}
	return tiltArctan(tan) / tiltRadian
}

// tiltArctan inverts the tangent by halving: it is used for one angle in degrees
// shown to a person. It stops at 89.9 degrees.
func tiltArctan(tan float64) float64 {
	low, high := 0.0, 89.9*tiltRadian
	for range 60 {
		mid := (low + high) / 2
		if elementary.Tan(mid) < tan {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

func (t Tilt) check() error {
	faults := []error{t.Area.Err(), t.Hole.Err(), t.Degrees.Err()}
	if a := t.Area.Value(); !(a > 0 && a <= 10) {
		faults = append(faults, fmt.Errorf("exchange: tilt: area %g m²; want above 0, at most 10", a))
	}
	if d := t.Degrees.Value(); !(math.Abs(d) <= 45) {
		faults = append(faults, fmt.Errorf("exchange: tilt: %g degrees; want -45 to 45", d))
	}
	if h := t.Hole.Best(); !h.Valid() || h.Abs().Compare(units.Metre.Of(tiltMostMetres)) > 0 {
		faults = append(faults, fmt.Errorf("exchange: tilt: hole is %s off; want at most 10 m either way", h))
	}
	for _, c := range [...]struct {
		name string
		x    units.Length
	}{{"rim", t.Rim}, {"depth", t.Depth}, {"headroom", t.Headroom}, {"extent", t.Extent}} {
		faults = append(faults, tiltCheckLength(c.name, c.x, false))
	}
	return errors.Join(faults...)
}

const tiltMostMetres = 10

func tiltCheckLength(name string, x units.Length, positive bool) error {
	if x.Valid() && x.Sign() >= 0 && x.Compare(units.Metre.Of(tiltMostMetres)) <= 0 && !(positive && x.IsZero()) {
		return nil
	}
	accepted := "want 0 to 10 m"
	if positive {
		accepted = "want above 0, at most 10 m"
	}
	return fmt.Errorf("exchange: tilt: %s is %s; %s", name, x, accepted)
}

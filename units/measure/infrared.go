package measure

import (
	"errors"
	"fmt"
	"math"

	"example.com/meniscus/units"
)

// Infrared is a thermometer that reads a surface from a distance. Its label
// states limits such as "± 2 °C or 2 % of reading, whichever is greater". They
// say nothing of the surface: what a wrong emissivity or a reflection adds is
// not in them and not in the readings made here.
type Infrared struct {
	ID, Title  string
	Tolerance  units.TemperatureDelta // the limits near 0 °C: 2 °C
	Share      float64                // the share of the reading in °C: 0.02
	Coverage   float64                // their k where one is stated; 0 means limits, rectangular
	Resolution units.TemperatureDelta // the last digit; rectangular over one step
	Entry      string
}

// For returns the thermometer for one reading, named so that its own doubt is not
// taken for another reading's.
func (i Infrared) For(entry string) Infrared {
	i.Entry = entry
	return i
}

// Limits returns the larger of the tolerance and the share of |t| in °C: for 2 °C
// or 2 %, 2 °C up to 100 °C and 3 °C at 150 °C. Figures that cannot be are errors.
func (i Infrared) Limits(at units.Temperature) (units.TemperatureDelta, error) {
	t := &tool{kind: "infrared thermometer", id: i.ID}
	a := i.halfWidth(t, at)
	return units.CelsiusDegree.Of(a), t.check()
}

func (i Infrared) halfWidth(t *tool, at units.Temperature) float64 {
	a := inUnit(t, "tolerance", i.Tolerance, units.CelsiusDegree)
	share := t.relative("share of reading", i.Share)
	if a == 0 && share == 0 {
		t.fail(errors.New("no tolerance; want the figures on its label, such as 2 °C and 0.02"))
	}
	if !at.Valid() {
		t.fail(fmt.Errorf("temperature is %w; want a measured one", units.ErrOutOfRange))
		return 0
	}
	return math.Max(a, share*math.Abs(at.Celsius()))
}

// Read returns the temperature shown, with its doubt, in kelvin, the surface
// taken as the instrument's setting supposes. Errors as for ContactProbe.Read,
// and no tolerance at all.
func (i Infrared) Read(at units.Temperature) (Temperature, error) {
	t := &tool{kind: "infrared thermometer", id: i.ID, title: i.Title, entry: i.Entry}
	shape, u := t.limits(i.halfWidth(t, at), i.Coverage)
	t.shared("offset", "offset, surface not included", shape, u)
	t.digit(i.Resolution)
	return finishTemperature(t, at)
}

package measure

import (
	"fmt"

	"example.com/meniscus/units"
)

// Thermometer is anything that reads a temperature: ContactProbe, BoxSensor,
// Infrared.
type Thermometer interface {
	Read(units.Temperature) (Temperature, error)
}

func (t *tool) offset(part string, a, k float64) {
	shape, u := t.limits(a, k)
	t.shared(part, part, shape, u)
}

func (t *tool) digit(resolution units.TemperatureDelta) {
	shape, u := t.step(inUnit(t, "resolution", resolution, units.CelsiusDegree), false)
	t.own("reading", "last digit", shape, u)
}

func finishTemperature(t *tool, at units.Temperature) (Temperature, error) {
	if !at.Valid() || at.IsZero() {
		t.fail(fmt.Errorf("reading of %v; want a temperature above absolute zero", at))
	}
	if err := t.check(); err != nil {
		return Temperature{}, err
	}
	return NewTemperature(at, t.terms...)
}

package measure

import "example.com/meniscus/units"

// BoxSensor is the gearbox's own fluid sensor, read through its control unit.
// It sits where the maker put it, which is not where the level is: how far the
// fluid at the check plug may differ is a cause of its own, "ID/placement".
type BoxSensor struct {
	ID, Title  string
	Tolerance  units.TemperatureDelta // the largest error of the sensor
	Coverage   float64                // its k where one is stated; 0 means limits, rectangular
	Placement  units.TemperatureDelta // the largest difference between sensor and check plug, rectangular
	Resolution units.TemperatureDelta // the last digit; rectangular over one step
	Entry      string
}

// For returns the sensor for one reading, named so that its own doubt is not taken
// for another reading's.
func (b BoxSensor) For(entry string) BoxSensor {
	b.Entry = entry
	return b
}

// Read returns the temperature shown, with its doubt, in kelvin. Errors as for
// ContactProbe.Read.
func (b BoxSensor) Read(at units.Temperature) (Temperature, error) {
	t := &tool{kind: "box sensor", id: b.ID, title: b.Title, entry: b.Entry}
	t.offset("offset", inUnit(t, "tolerance", b.Tolerance, units.CelsiusDegree), b.Coverage)
	t.offset("placement", inUnit(t, "placement", b.Placement, units.CelsiusDegree), 0)
	t.digit(b.Resolution)
	return finishTemperature(t, at)
}

package measure

import "example.com/meniscus/units"

// ContactProbe is a thermometer that touches the fluid. Its offset is one cause
// shared by all its readings, "ID/offset", and drops out of a difference.
type ContactProbe struct {
	ID, Title string
	// Tolerance is the largest error stated for the probe.
	Tolerance units.TemperatureDelta
	// Coverage is the k of the tolerance where a certificate states one; 0 means
	// limits with nothing else known, rectangular.
	Coverage   float64
	Resolution units.TemperatureDelta // the last digit; rectangular over one step
	Entry      string
}

// For returns the probe for one reading, named so that its own doubt is not taken
// for another reading's.
func (p ContactProbe) For(entry string) ContactProbe {
	p.Entry = entry
	return p
}

// Read returns the temperature shown, with its doubt, in kelvin. A temperature
// out of range, a resolution without an Entry, and figures that cannot be are
// errors, all reported at once.
func (p ContactProbe) Read(at units.Temperature) (Temperature, error) {
	t := &tool{kind: "contact probe", id: p.ID, title: p.Title, entry: p.Entry}
	t.offset("offset", inUnit(t, "tolerance", p.Tolerance, units.CelsiusDegree), p.Coverage)
	t.digit(p.Resolution)
	return finishTemperature(t, at)
}

package measure

import "example.com/meniscus/units"

// Scale is a kitchen or parcel scale. Its zero error needs no figure: weigh full
// and empty on the same scale, and it drops out.
//
// A tolerance in grams stands for a scale that is not straight: it differs from
// load to load, so each reading has its own ("ID/load/Entry"). A gain error in
// percent is one cause shared by all weighings ("ID/gain"). Many small lots of
// equal load repeat the same error: weigh the sum once instead.
type Scale struct {
	ID, Title  string
	Resolution units.Mass // the last digit; rectangular over one step
	Tolerance  units.Mass // the largest error at any load, rectangular
	GainError  float64    // the largest relative error, 0.001 for ± 0.1 %, rectangular
	Capacity   units.Mass // the most it can weigh; zero for no limit
	Entry      string
}

// For returns the scale for one reading, named so that its own doubt is not taken
// for another reading's.
func (s Scale) For(entry string) Scale {
	s.Entry = entry
	return s
}

// Read returns the mass shown, with its doubt, in kilograms. It is the reading
// in air, without correction for buoyancy (about 0.1 % for oil, the same both
// ways). Errors as for Jug.Read.
func (s Scale) Read(m units.Mass) (Mass, error) {
	t := &tool{kind: "scale", id: s.ID, title: s.Title, entry: s.Entry}
	reads(t, m, s.Capacity)
	shape, u := t.limits(t.relative("gain error", s.GainError), 0)
	t.shared("gain", "gain error", shape, u*m.In(units.Kilogram))
	shape, u = t.limits(inUnit(t, "tolerance", s.Tolerance, units.Kilogram), 0)
	t.own("load", "error at this load", shape, u)
	shape, u = t.step(inUnit(t, "resolution", s.Resolution, units.Kilogram), false)
	t.own("reading", "last digit", shape, u)
	return finishQuantity(t, m)
}

package measure

import "example.com/meniscus/units"

// Jug is a vessel with lines, and no class or certificate. Its scale error is
// one cause shared by everything measured in it, "ID/scale"; each look at the
// line is a cause of its own, "ID/reading/Entry". The zero value is no jug.
type Jug struct {
	ID    string // stable; the causes are named from it
	Title string // for people; the ID where empty
	// Graduation is the step between lines. A reading to the nearest line is
	// rectangular over one step (u = step/√12).
	Graduation units.Volume
	// Interpolated: read between the lines with the eye level with the surface;
	// triangular over one step (u = step/√24). Our judgement.
	Interpolated bool
	// ScaleError is the largest relative error of the lines: 0.01 for ± 1 %,
	// rectangular.
	ScaleError float64
	// Capacity is the most that can be read in one filling; zero for no limit.
	Capacity units.Volume
	// Entry names one reading, such as "drain-1"; see For.
	Entry string
}

// For returns the jug for one reading, named so that its own doubt is not taken for
// another reading's. The same entry twice means the same look at the line.
func (j Jug) For(entry string) Jug {
	j.Entry = entry
	return j
}

// Read returns the volume at the line read, with its doubt, in litres. It does
// not correct for temperature. A negative reading, one over the capacity, a
// graduation without an Entry, and figures that cannot be are errors, all
// reported at once.
func (j Jug) Read(v units.Volume) (Volume, error) {
	t := &tool{kind: "jug", id: j.ID, title: j.Title, entry: j.Entry}
	reads(t, v, j.Capacity)
	shape, u := t.limits(t.relative("scale error", j.ScaleError), 0)
	t.shared("scale", "scale error", shape, u*v.In(units.Litre))
	shape, u = t.step(inUnit(t, "graduation", j.Graduation, units.Litre), j.Interpolated)
	t.own("reading", "reading the line", shape, u)
	return finishQuantity(t, v)
}

func finishQuantity[D units.Dimension](t *tool, q units.Quantity[D]) (Measured[D], error) {
	if err := t.check(); err != nil {
		return Measured[D]{}, err
	}
	return NewMeasured(q, t.terms...)
}

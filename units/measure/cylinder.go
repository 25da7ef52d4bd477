package measure

import (
	"fmt"

	"example.com/meniscus/units"
)

// CylinderClass is the grade marked on a measuring cylinder. The zero value is
// no class, and needs a tolerance.
type CylinderClass uint8

// The classes.
const (
	// Unclassed has no tolerance of its own.
	Unclassed CylinderClass = iota
	// GlassA is a glass cylinder of class A.
	GlassA
	// GlassB is a glass cylinder of class B: twice the tolerance of class A.
	GlassB
)

// String returns "unclassed", "glass A" or "glass B"; "?" for none of them.
func (c CylinderClass) String() string {
	switch c {
	case Unclassed:
		return "unclassed"
	case GlassA:
		return "glass A"
	case GlassB:
		return "glass B"
	}
	return "?"
}

// ClassTolerance returns the largest error of a glass cylinder of the class and
// capacity, at any line. 100, 250 and 500 mL: ASTM E1272-02(2012) Table 1, class
// B twice class A (1.1.2). 1000 and 2000 mL: ISO 4788:2005, from memory, the
// wider of the two standards; give the figure marked on your own cylinder where
// you can. Other sizes and no class are errors.
func ClassTolerance(class CylinderClass, capacity units.Volume) (units.Volume, error) {
	a := classA(capacity)
	switch {
	case class == Unclassed || class > GlassB:
		return units.Volume{}, fmt.Errorf("measure: a cylinder of class %v has no tolerance of its own; want glass A or glass B, or state the tolerance", class)
	case a.IsZero():
		return units.Volume{}, fmt.Errorf("measure: no class tolerance for a cylinder of %v; want 100, 250, 500, 1000 or 2000 mL, or state the tolerance", capacity)
	case class == GlassB:
		return a.Add(a), nil
	}
	return a, nil
}

func classA(capacity units.Volume) units.Volume {
	switch capacity {
	case units.Millilitre.Of(100):
		return units.Millilitre.Of(0.5) // ASTM E1272-02(2012) Table 1, seen
	case units.Millilitre.Of(250):
		return units.Millilitre.Of(1) // same
	case units.Millilitre.Of(500):
		return units.Millilitre.Of(2) // same
	case units.Millilitre.Of(1000):
		return units.Millilitre.Of(5) // ISO 4788:2005, from memory
	case units.Millilitre.Of(2000):
		return units.Millilitre.Of(10) // ISO 4788:2005, from memory
	}
	return units.Volume{}
}

// Cylinder is a measuring cylinder with a class. Its scale error is one cause
// shared by everything measured in it, "ID/scale", of the same size at every line;
// each look at the line is a cause of its own, "ID/reading/Entry".
type Cylinder struct {
	ID, Title string
	Class     CylinderClass
	Capacity  units.Volume // the nominal size; also the most that can be read
	// Tolerance replaces the class's own where it is marked on the cylinder.
	Tolerance units.Volume
	// Graduation is the step between lines; rectangular over one step.
	Graduation   units.Volume
	Interpolated bool // read between the lines: triangular over one step
	Entry        string
}

// For returns the cylinder for one reading, named so that its own doubt is not taken
// for another reading's.
func (c Cylinder) For(entry string) Cylinder {
	c.Entry = entry
	return c
}

// Read returns the volume at the line read, with its doubt, in litres. It does
// not correct for temperature; the tolerance holds at 20 °C. Errors as for
// Jug.Read, and a class without a tolerance.
func (c Cylinder) Read(v units.Volume) (Volume, error) {
	t := &tool{kind: "cylinder", id: c.ID, title: c.Title, entry: c.Entry}
	reads(t, v, c.Capacity)
	shape, u := t.limits(inUnit(t, "tolerance", c.tolerance(t), units.Litre), 0)
	t.shared("scale", "scale error", shape, u)
	shape, u = t.step(inUnit(t, "graduation", c.Graduation, units.Litre), c.Interpolated)
	t.own("reading", "reading the line", shape, u)
	return finishQuantity(t, v)
}

func (c Cylinder) tolerance(t *tool) units.Volume {
	if !c.Tolerance.IsZero() {
		return c.Tolerance
	}
	a, err := ClassTolerance(c.Class, c.Capacity)
	t.fail(err)
	return a
}

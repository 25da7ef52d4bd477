package thermal

import (
	"fmt"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// Read is Contents with its doubt, in litres: the vessel's scale ("ID/scale",
// shared by all readings in it), the look at the mark ("ID/reading/Entry",
// half a graduation either way), the expansion of its material ("ID/expansion",
// shared as well, rectangular) and the temperature. Errors as Contents', a
// temperature that is not valid, a vessel without an ID, and a graduation
// without an Entry (see For).
func (v Vessel) Read(read units.Volume, at measure.Temperature) (measure.Volume, error) {
	if err := at.Err(); err != nil {
		return measure.Volume{}, fmt.Errorf("thermal: vessel %q: %w", clip(v.ID), err)
	}
	best, err := v.Contents(read, at.Best())
	if err != nil {
		return measure.Volume{}, err
	}
	mark, err := v.jug().Read(read)
	if err != nil {
		return measure.Volume{}, err
	}
	k, _ := v.Material.factor(at.Best())
	gamma, u, _ := v.Material.Expansion()
	cause, err := measure.NewCause(v.ID+"/expansion", v.name()+": expansion of "+v.Material.String(), measure.Rectangular, 0)
	if err != nil {
		return measure.Volume{}, fmt.Errorf("thermal: vessel %q: %w", clip(v.ID), err)
	}
	dt := at.Best().Sub(VesselReference()).In(units.CelsiusDegree)
	x := read.In(units.Litre)
	return combined(best,
		[]measure.Term{{Cause: cause, Scale: x * dt * u}},
		measure.Part{Of: mark.Reading(), Sensitivity: k},
		measure.Part{Of: at.Reading(), Sensitivity: x * gamma})
}

func (v Vessel) jug() measure.Jug {
	return measure.Jug{ID: v.ID, Title: v.Title, Graduation: v.Graduation, Interpolated: v.Interpolated,
		ScaleError: v.ScaleError, Capacity: v.Capacity, Entry: v.Entry}
}

func (v Vessel) name() string {
	if v.Title == "" {
		return v.ID
	}
	return v.Title
}

package thermal

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// ClosingMeasured is the Off of Closing with its doubt, in litres: that of the
// capacity and of the closing temperature as measured, the fluid's coefficient
// (shared with its other corrections), and the growth of the case
// ("case-<material>/expansion"). The best estimate is Closing's. Errors as
// Closing's, and inputs that are not valid.
func (w Window) ClosingMeasured(fluid Fluid, capacity measure.Volume, caseMaterial Material, at measure.Temperature) (measure.Volume, error) {
	if err := errors.Join(capacity.Err(), at.Err()); err != nil {
		return measure.Volume{}, fmt.Errorf("thermal: closing: %w", err)
	}
	c, err := w.Closing(fluid, capacity.Best(), caseMaterial, at.Best())
	if err != nil {
		return measure.Volume{}, err
	}
	a, _ := fluid.at(at.Best())
	mid, _ := fluid.at(w.Mid())
	gamma, u, _ := caseMaterial.Expansion()
	cause, err := measure.NewCause("case-"+caseMaterial.id()+"/expansion", "case: expansion of "+caseMaterial.String(), measure.Rectangular, 0)
	if err != nil {
		return measure.Volume{}, fmt.Errorf("thermal: closing: %w", err)
	}
	litres := capacity.Best().In(units.Litre)
	full := litres * (1 + c.caseRel) * c.ratio // what the box holds at mid-window
	return combined(c.Off,
		[]measure.Term{
			{Cause: fluid.expansionCause, Scale: full * (a.coefficient - mid.coefficient) * fluid.doubt.Expansion},
			{Cause: cause, Scale: litres * c.ratio * c.Away.In(units.CelsiusDegree) * u},
		},
		measure.Part{Of: capacity.Reading(), Sensitivity: c.Off.In(units.Litre) / litres},
		measure.Part{Of: at.Reading(), Sensitivity: float64(litres*c.ratio*gamma) + float64(full*a.perKelvin)})
}

package thermal

import (
	"errors"
	"fmt"
	"math"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// SurfaceMeasured is Surface for measured temperatures: their doubt is carried
// through, and two causes are added that all readings of this spot share, both
// rectangular: "spot/emissivity" from PlusMinus and "spot/form" from the T⁴
// form. The fields Reading and Reflected are not looked at. Errors as
// Surface's, inputs that are not valid, and a spot that is not an id.
func (i Infrared) SurfaceMeasured(spot string, reading, reflected measure.Temperature) (measure.Temperature, error) {
	if err := errors.Join(reading.Err(), reflected.Err()); err != nil {
		return measure.Temperature{}, fmt.Errorf("thermal: infrared: %w", err)
	}
	i.Reading, i.Reflected = reading.Best(), reflected.Best()
	s, err := i.Surface()
	if err != nil {
		return measure.Temperature{}, err
	}
	emissivity, errA := measure.NewCause(spot+"/emissivity", spot+": emissivity", measure.Rectangular, 0)
	form, errB := measure.NewCause(spot+"/form", spot+": T⁴ for the band of the instrument", measure.Rectangular, 0)
	if err := errors.Join(errA, errB); err != nil || spot == "" {
		return measure.Temperature{}, fmt.Errorf("thermal: infrared: spot %q; want an id of ASCII letters, digits and -_./:#+", clip(spot))
	}
	to := i.slopes(s.Temperature.Kelvin())
	own, err := measure.New(0,
		measure.Term{Cause: emissivity, Scale: to.emissivity * i.PlusMinus / math.Sqrt(3)},
		measure.Term{Cause: form, Scale: s.FormOff.In(units.CelsiusDegree) / math.Sqrt(3)})
	if err != nil {
		return measure.Temperature{}, fmt.Errorf("thermal: infrared: %w", err)
	}
	r, err := measure.Combine(0,
		measure.Part{Of: reading.Reading(), Sensitivity: to.reading},
		measure.Part{Of: reflected.Reading(), Sensitivity: to.reflected},
		measure.Part{Of: own, Sensitivity: 1})
	if err != nil {
		return measure.Temperature{}, fmt.Errorf("thermal: infrared: %w", err)
	}
	return measure.NewTemperature(s.Temperature, r.Terms()...)
}

package thermal

import (
	"errors"
	"fmt"
	"math"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
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

// Steps returns how the surface temperature was worked out; none for the zero
// Surface.
func (s Surface) Steps() working.Steps {
	if s.of.Emissivity == 0 {
		return nil
	}
	i := s.of
	formula, numbers := "Refl⁴ + (Set/ε)·(Reading⁴ - Refl⁴)", "%s⁴ + (%s/%s) × (%s⁴ - %s⁴)"
	args := []any{kelvins(i.Reflected), short(i.Set), short(i.Emissivity), kelvins(i.Reading), kelvins(i.Reflected)}
	if i.Reflection == ReflectionKept {
		formula, numbers = "[Set·Reading⁴ - (1 - ε)·Refl⁴]/ε", "[%s × %s⁴ - (1 - %s) × %s⁴]/%s"
		args = []any{short(i.Set), kelvins(i.Reading), short(i.Emissivity), kelvins(i.Reflected), short(i.Emissivity)}
	}
	var steps working.Steps
	steps = steps.Add("reading", "", bothScales(i.Reading), kelvins(i.Reading)+" K")
	steps = steps.Add("surface, fourth power", formula, fmt.Sprintf(numbers, args...), kelvins(s.Temperature)+"⁴ K⁴")
	return steps.Add("surface temperature, not the fluid's", "",
		fmt.Sprintf("emissivity ±%s: ±%s; form: ±%s", short(i.PlusMinus),
			s.EmissivityOff.Text(units.CelsiusDegree, 1), s.FormOff.Text(units.CelsiusDegree, 1)), bothScales(s.Temperature))
}

func kelvins(t units.Temperature) string { return fixed(t.Kelvin(), 2) }

package thermal

import (
	"fmt"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

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

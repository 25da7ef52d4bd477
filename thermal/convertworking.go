package thermal

import (
	"fmt"
	"strconv"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// ConvertWorking returns the steps of [Fluid.Convert] as a person would write
// them: coefficient, both factors, result. The figures are rounded for reading;
// the result is computed from the unrounded ones. Errors as Convert's.
func (f Fluid) ConvertWorking(v units.Volume, from, to units.Temperature) (working.Steps, error) {
	out, err := f.Convert(v, from, to)
	if err != nil {
		return nil, err
	}
	var s working.Steps
	if f.law == lubricant {
		s = s.Add("coefficient α at 15 °C", "K1/ρ15", "0.6278 / "+short(f.density15), fixed(f.perKelvin*1e6, 2)+"e-6 /K")
	}
	a, _ := f.at(from)
	b, _ := f.at(to)
	s = append(s, f.factorLine(from, a), f.factorLine(to, b))
	return s.Add("volume at "+celsius(to), f.ratioFormula(),
		fmt.Sprintf("%s × %s", litres(v), f.ratioText(from, to, a, b)), litres(out)), nil
}

func (f Fluid) ratioFormula() string {
	if f.law == tabulated {
		return "V·ρ(from)/ρ(to)"
	}
	return "V·F(from)/F(to)"
}

func (f Fluid) ratioText(from, to units.Temperature, a, b expansion) string {
	if f.law == tabulated {
		x, _ := f.table.density(from)
		y, _ := f.table.density(to)
		return fixed(x, 2) + " / " + fixed(y, 2)
	}
	return fixed(a.factor(), 6) + " / " + fixed(b.factor(), 6)
}

// factorLine shows one factor to 15 °C, or one density of a table.
func (f Fluid) factorLine(t units.Temperature, e expansion) working.Line {
	if f.law == tabulated {
		rho, slope := f.table.density(t)
		return working.Line{Quantity: "density at " + celsius(t), Formula: "straight between the rows",
			Substitution: fixed(slope, 4) + " kg/m³ per K there", Result: fixed(rho, 2) + " kg/m³"}
	}
	dt := t.Sub(ReferenceTemperature()).In(units.CelsiusDegree)
	line := working.Line{Quantity: "factor F to 15 °C at " + celsius(t), Result: fixed(e.factor(), 6)}
	x := f.perKelvin * dt
	if f.law == exponential {
		line.Formula = "exp(-c·Δt)"
		line.Substitution = fmt.Sprintf("exp(-%s × %s)", short(f.perKelvin), signed(dt, 3))
		return line
	}
	line.Formula = "exp[-α·Δt·(1 + 0.8·α·Δt)]"
	line.Substitution = fmt.Sprintf("exp[-%s × (1 + 0.8 × %s)], Δt = %s K", signed(x, 7), signed(x, 7), fixed(dt, 3))
	return line
}

func litres(v units.Volume) string { return v.Text(units.Litre, 4) }

func celsius(t units.Temperature) string { return t.Text(units.CelsiusScale, 1) }

// bothScales is for what a technician reads off a gauge.
func bothScales(t units.Temperature) string {
	return celsius(t) + " (" + t.Text(units.FahrenheitScale, 1) + ")"
}

// signed puts a negative number in brackets, so that it can follow an operator.
func signed(x float64, places int) string {
	if x < 0 {
		return "(" + fixed(x, places) + ")"
	}
	return fixed(x, places)
}

func fixed(x float64, places int) string { return strconv.FormatFloat(x, 'f', places, 64) }

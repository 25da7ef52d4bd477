package thermal

import (
	"fmt"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// Steps returns how the forecast was worked out; none for the zero Forecast.
func (f Forecast) Steps() working.Steps {
	if f.fit.Readings == 0 {
		return nil
	}
	var s working.Steps
	s = s.Add("course", "T(t) = Tinf - (Tinf - T0)·exp(-t/τ)",
		fmt.Sprintf("fitted to %d readings, Tinf = %s given, scatter %s", f.fit.Readings, bothScales(f.fit.Plateau), f.fit.Scatter.Text(units.CelsiusDegree, 2)),
		fmt.Sprintf("T0 = %s, τ = %s (%s to %s)", bothScales(f.fit.Start), clock(f.fit.Tau), clock(f.fit.TauLow), clock(f.fit.TauTop)))
	s = append(s, f.passing("window opens", f.first, f.Opens), f.passing("window closes", f.through, f.Closes))
	return s
}

func (f Forecast) passing(what string, end units.Temperature, m Moment) working.Line {
	line := working.Line{Quantity: what + " at " + bothScales(end), Result: m.String()}
	switch {
	case m.Best == Never:
		line.Substitution = "the course settles before it"
	case m.Best == 0:
		line.Substitution = "passed at the start"
	default:
		line.Formula = "τ·ln[(Tinf - T0)/(Tinf - T)]"
		line.Substitution = fmt.Sprintf("%s min × ln(%s/%s)", fixed(f.fit.Tau.Minutes(), 3),
			f.fit.Plateau.Sub(f.fit.Start).Text(units.CelsiusDegree, 2), f.fit.Plateau.Sub(end).Text(units.CelsiusDegree, 2))
	}
	return line
}

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
	return working.Steps{f.course(), f.passing("window opens", f.first, f.Opens), f.passing("window closes", f.through, f.Closes)}
}

func (f Forecast) course() working.Line {
	return working.Line{
		Quantity: "course", Formula: "T(t) = Tinf - (Tinf - T0)·exp(-t/τ)",
		Substitution: fmt.Sprintf("fitted to %d readings, Tinf = %s given, scatter %s", f.fit.Readings, bothScales(f.fit.Plateau), f.fit.Scatter.Text(units.CelsiusDegree, 2)),
		Result:       fmt.Sprintf("T0 = %s, τ = %s (%s to %s)", bothScales(f.fit.Start), clock(f.fit.Tau), clock(f.fit.TauLow), clock(f.fit.TauTop)),
	}
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

// ReachSteps returns the working of Reach: the fitted course, and when it passes
// the target. Errors as there.
func (t Trend) ReachSteps(target units.Temperature) (working.Steps, error) {
	m, err := t.Reach(target)
	if err != nil {
		return nil, err
	}
	fit, err := t.Fit()
	if err != nil {
		return nil, err
	}
	f := Forecast{fit: fit}
	return append(working.Steps{f.course()}, f.passing("reaches target", target, m)), nil
}

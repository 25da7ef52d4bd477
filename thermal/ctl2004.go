package thermal

import (
	"errors"
	"fmt"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
)

// The 2004 form of the petroleum volume correction: API MPMS Ch. 11.1 (2004),
// equations and constants seen second-hand (test data and code of a public
// repository). The temperature is first moved from the scale of 1990 to the one
// of 1968, on which the constants K were fitted.
const (
	scaleShift60  = 0.01374979547 // °F; what 60 °F moves by between the scales; seen second-hand
	base68        = 60.0068749    // °F; 60 °F of 1990 on the scale of 1968; seen second-hand
	scaleDivisor  = 630.0         // °C; seen second-hand
	ctlCurvature  = 0.8           // dimensionless; seen second-hand
	ctlLeast      = 610.6         // kg/m³ at 60 °F; lowest of all groups, from memory
	ctlMost       = 1163.5        // kg/m³ at 60 °F; highest of all groups, seen second-hand
	ctlLow        = -58.0         // °F; seen second-hand
	ctlHigh       = 302.0         // °F; seen second-hand
	ctlMostAlpha  = 2e-3          // per °F; our judgement: twice what the lightest product has
	lubricantK160 = 0.34878       // kg/m³ per °F; K1 of the lubricating group in the 2004 form, seen
)

// CTL2004 is the 2004 form of the petroleum correction to 60 °F, with the
// constants of the product group as input. It is here to be checked against the
// official worked examples, and to show what the metric form of [Lubricant]
// leaves out; for a service, use [Lubricant]. The zero value is refused.
type CTL2004 struct {
	Density60  units.Density // at 60 °F and atmospheric pressure, 610.6 to 1163.5 kg/m³
	K0, K1, K2 float64       // of the product group, for kg/m³ and °F; lubricating oils have 0, 0.34878, 0
}

// CTLParts are the steps of the 2004 calculation, unrounded.
type CTLParts struct {
	Scale68     float64       // the temperature in °F on the scale of 1968
	DensityStar units.Density // density at the base temperature of the scale of 1968
	Alpha60     float64       // coefficient of expansion per °F
	Factor      float64       // V60 = V·Factor
}

// LubricatingCTL returns the 2004 form for a lubricating oil of the given
// density at 60 °F. Evaluate checks the density; one that is no density at all
// gives the zero CTL2004, which it refuses.
func LubricatingCTL(density60 units.Density) CTL2004 {
	if !density60.Valid() {
		return CTL2004{}
	}
	return CTL2004{Density60: density60, K1: lubricantK160}
}

// Evaluate returns the correction at t, -58 to 302 °F, unrounded. A density or
// a temperature outside the ranges, or constants that give no expansion between
// 0 and 0.002 per °F, is an error.
//
// Source: API MPMS Ch. 11.1 (2004), seen second-hand.
func (c CTL2004) Evaluate(t units.Temperature) (CTLParts, error) {
	if err := c.check(t); err != nil {
		return CTLParts{}, err
	}
	p := CTLParts{Scale68: scale68(t)}
	rho := float64(c.Density60)
	slope := c.K0 + float64((c.K1+float64(c.K2*rho))*rho)
	a := scaleShift60 / 2 * (float64((c.K0/rho+c.K1)/rho) + c.K2)
	b := (float64(2*c.K0) + float64(c.K1*rho)) / slope
	star := rho * (1 + (elementary.Exp(a*(1+float64(ctlCurvature*a)))-1)/
		(1+float64(a*(1+float64(2*ctlCurvature*a))*b)))
	p.DensityStar = units.Density(star)
	p.Alpha60 = float64((c.K0/star+c.K1)/star) + c.K2
	d := p.Scale68 - base68
	p.Factor = elementary.Exp(-p.Alpha60 * d * (1 + float64(ctlCurvature*p.Alpha60*(d+scaleShift60))))
	return p, nil
}

func (c CTL2004) check(t units.Temperature) error {
	rho := float64(c.Density60)
	var faults []error
	if !(rho >= ctlLeast && rho <= ctlMost) {
		faults = append(faults, fmt.Errorf("thermal: 2004 form: density %s at 60 °F: %w; want 610.6 to 1163.5 kg/m³", c.Density60, ErrOutsideLaw))
	} else if alpha := float64((c.K0/rho+c.K1)/rho) + c.K2; !(alpha > 0 && alpha <= ctlMostAlpha) {
		faults = append(faults, fmt.Errorf("thermal: 2004 form: constants %v, %v, %v give an expansion of %v per °F; want above 0, at most 0.002", c.K0, c.K1, c.K2, alpha))
	}
	if !t.Valid() || t.Compare(units.Fahrenheit(ctlLow)) < 0 || t.Compare(units.Fahrenheit(ctlHigh)) > 0 {
		faults = append(faults, fmt.Errorf("thermal: 2004 form: temperature %s: %w; want -58 to 302 °F", t, ErrOutsideLaw))
	}
	return errors.Join(faults...)
}

// scale68 moves a temperature of 1990 to the scale of 1968, in °F.
func scale68(t units.Temperature) float64 {
	c := t.Celsius()
	tau := c / scaleDivisor
	// Highest power first; from the eighth to the first.
	shift := 0.0
	for _, k := range [...]float64{-3.536296, 7.438081, -1.871251, -4.089591, 1.269056, 1.080760, -0.267408, -0.148759} {
		shift = float64(shift+k) * tau
	}
	return float64((c-shift)*1.8) + 32
}

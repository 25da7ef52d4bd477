package exchange

import (
	"fmt"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// steps shows the fitted line and how the capacity follows from it.
func (f *estimateFit) steps(e CapacityEstimate) working.Steps {
	var s working.Steps
	quantity, fitted := "ln(marker)", "least squares of ln(marker)"
	if f.m.Noise == AbsoluteNoise {
		fitted = "least squares of the marker"
	}
	if f.m.Fresh != 0 {
		quantity = "ln(marker - new fluid)"
	}
	s = s.Add("fall of "+quantity+" a drain", fitted, fmt.Sprintf("%d readings", len(f.points)), fmt.Sprintf("%.5f ± %.5f", e.Step, e.StepU))
	mean := f.mean.Text(units.Litre, 3)
	s = s.Add("capacity", "d/(1 - exp(-step))", fmt.Sprintf("%s/(1 - exp(-%.5f))", mean, e.Step), e.Capacity.Text(units.Litre, 2))
	s = s.Add("standard error", "C·u(step)·exp(-step)/(1 - exp(-step))",
		fmt.Sprintf("%s × %.5f × %.4f", e.Capacity.Text(units.Litre, 2), e.StepU, estimateRelative(e.Step)), e.U.Text(units.Litre, 2))
	dof := "known reading error"
	if e.DoF > 0 {
		dof = fmt.Sprintf("%.0f degrees of freedom", e.DoF)
	}
	high := "no upper end"
	if !e.High.IsZero() {
		high = e.High.Text(units.Litre, 2)
	}
	s = s.Add("95 % interval", "d/(1 - exp(-(step ± t·u)))", fmt.Sprintf("t = %.3f, %s", estimateFactor(e.DoF), dof), e.Low.Text(units.Litre, 2)+" to "+high)
	if e.Straightness != StraightnessUnknown {
		s = s.Add("step shrinks a drain", "second difference", "", fmt.Sprintf("%.4f ± %.4f, %s", e.Curvature, e.CurvatureU, e.Straightness))
	}
	return s
}

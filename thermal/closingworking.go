package thermal

import (
	"fmt"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// Steps returns how the closing was worked out; none for the zero Closing.
func (c Closing) Steps() working.Steps {
	if c.fluid.law == noLaw {
		return nil
	}
	var s working.Steps
	s = s.Add("mid-window", "(low + high)/2",
		fmt.Sprintf("(%s + %s)/2", bothScales(c.window.Low), bothScales(c.window.High)), bothScales(c.window.Mid()))
	s = s.Add("fluid left once at mid-window", "F(at)/F(mid)", "at "+bothScales(c.at), fixed(c.ratio, 6))
	s = s.Add("growth of the case ("+c.material.String()+")", "1 + γ·(at - mid)",
		fmt.Sprintf("1 + %s × %s", plain(growthOf(c.material).gamma), signed(c.Away.In(units.CelsiusDegree), 2)), fixed(1+c.caseRel, 6))
	return s.Add("off at mid-window", "C·(growth × fluid - 1)",
		fmt.Sprintf("%s × (%s × %s - 1)", litres(c.capacity), fixed(1+c.caseRel, 6), fixed(c.ratio, 6)),
		c.Off.Text(units.Millilitre, 1)+", worth "+c.Away.Abs().Text(units.CelsiusDegree, 1))
}

package exchange

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// BoundsSteps returns the working of [Bounds]: the well-mixed product, the fluid
// held back and what the sump keeps if nothing ever mixes. Shares are printed to
// four decimals. Faults as there, and at most 1000 drains.
func BoundsSteps(capacity, sump units.Volume, drains []units.Volume) (working.Steps, error) {
	r, err := Bounds(capacity, sump, drains)
	if err == nil && len(drains) > traceMostPasses {
		err = fmt.Errorf("exchange: bounds: %d drains; want at most %d", len(drains), traceMostPasses)
	}
	if err != nil {
		return nil, err
	}
	s := working.Steps{}.Add("lowest, every run mixes fully", "Π(1 - d/C)", boundsFactors(drains, capacity), shareText(r.Low))
	if sump.IsZero() {
		sump = boundsSump(sump, drains)
		s = s.Add("sump, not known, holds at least", "largest drain", "", stepLitres(sump))
	}
	if sump.IsZero() {
		return s.Add("highest, nothing was drained", "", "", shareText(r.High)), nil
	}
	s = s.Add("held back", "H = C - S", stepLitres(capacity)+" - "+stepLitres(sump), stepLitres(capacity.Sub(sump)))
	s = s.Add("sump, nothing mixed into it", "Π(1 - d/S)", boundsFactors(drains, sump), shareText(remainingProduct(sump, drains)))
	return s.Add("highest, the gears never mix", "H/C + (S/C)·Π(1 - d/S)",
		fmt.Sprintf("%s / %s + %s / %s × %s", stepLitres(capacity.Sub(sump)), stepLitres(capacity), stepLitres(sump), stepLitres(capacity), shareText(remainingProduct(sump, drains))),
		shareText(r.High)), nil
}

// boundsFactors writes the product out; a run of equal drains is one power.
func boundsFactors(drains []units.Volume, of units.Volume) string {
	var parts []string
	for i := 0; i < len(drains); {
		j := i + 1
		for j < len(drains) && drains[j] == drains[i] {
			j++
		}
		part := "(1 - " + stepLitres(drains[i]) + " / " + stepLitres(of) + ")"
		if j-i > 1 {
			part += "^" + strconv.Itoa(j-i)
		}
		parts = append(parts, part)
		i = j
	}
	return strings.Join(parts, " × ")
}

package thermal

import (
	"fmt"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// Measurement is a mark read in a vessel at a temperature.
type Measurement struct {
	Vessel Vessel
	Mark   units.Volume
	At     units.Temperature
}

// PutBack returns the mark to which the vessel into must be filled, at the
// temperature at, to hold just what came out: out's mark corrected for its
// vessel, for the fluid between the two temperatures, and back for the vessel
// into, each rounded once to a tick. The same vessel at the same temperature
// gives the same mark: the best way to measure. What stays in a hose or pump is
// the caller's to add. Errors as [Vessel.Contents], [Fluid.Convert] and
// [Vessel.Mark].
func (f Fluid) PutBack(out Measurement, into Vessel, at units.Temperature) (units.Volume, error) {
	p, err := f.putBack(out, into, at)
	return p.mark, err
}

// PutBackWorking returns the steps of PutBack. Errors as PutBack's.
func (f Fluid) PutBackWorking(out Measurement, into Vessel, at units.Temperature) (working.Steps, error) {
	p, err := f.putBack(out, into, at)
	if err != nil {
		return nil, err
	}
	steps, err := f.ConvertWorking(p.held, out.At, at)
	if err != nil {
		return nil, err
	}
	first := vesselLine("came out, "+out.Vessel.name(), "mark·[1 + γ·(t - 20 °C)]", "×", out.Vessel.Material, out.Mark, out.At, p.held)
	last := vesselLine("fill to the mark, "+into.name(), "V/[1 + γ·(t - 20 °C)]", "/", into.Material, p.fresh, at, p.mark)
	return append(append(working.Steps{first}, steps...), last), nil
}

type putBack struct{ held, fresh, mark units.Volume }

func (f Fluid) putBack(out Measurement, into Vessel, at units.Temperature) (p putBack, err error) {
	if p.held, err = out.Vessel.Contents(out.Mark, out.At); err != nil {
		return putBack{}, err
	}
	if p.fresh, err = f.Convert(p.held, out.At, at); err != nil {
		return putBack{}, err
	}
	if p.mark, err = into.Mark(p.fresh, at); err != nil {
		return putBack{}, err
	}
	return p, nil
}

func vesselLine(what, formula, sign string, m Material, v units.Volume, t units.Temperature, result units.Volume) working.Line {
	dt := t.Sub(VesselReference()).In(units.CelsiusDegree)
	return working.Line{Quantity: what, Formula: formula,
		Substitution: fmt.Sprintf("%s %s [1 + %s × %s]", litres(v), sign, short(growthOf(m).gamma), signed(dt, 2)), Result: litres(result)}
}

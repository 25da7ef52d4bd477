package thermal

import (
	"errors"
	"fmt"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// ConvertMeasured is Convert for measured inputs. The doubt of the volume and
// of both temperatures is carried through, and the doubt of the coefficient is
// added as one cause that all corrections of this fluid share: between like
// temperatures it cancels by itself. First-order propagation, JCGM 100:2008
// 5.1.2; the best estimate is Convert's. Errors as Convert's, and inputs that
// are not valid.
func (f Fluid) ConvertMeasured(v measure.Volume, from, to measure.Temperature) (measure.Volume, error) {
	if err := errors.Join(v.Err(), from.Err(), to.Err()); err != nil {
		return measure.Volume{}, fmt.Errorf("thermal: convert: %w", err)
	}
	best, err := f.Convert(v.Best(), from.Best(), to.Best())
	if err != nil {
		return measure.Volume{}, err
	}
	a, _ := f.at(from.Best())
	b, _ := f.at(to.Best())
	x := best.In(units.Litre)
	return combined(best,
		[]measure.Term{{Cause: f.expansionCause, Scale: x * (a.coefficient - b.coefficient) * f.doubt.Expansion}},
		measure.Part{Of: v.Reading(), Sensitivity: elementary.Exp(a.ln - b.ln)},
		measure.Part{Of: from.Reading(), Sensitivity: x * a.perKelvin},
		measure.Part{Of: to.Reading(), Sensitivity: -x * b.perKelvin})
}

// MassMeasured is Mass for measured inputs, with the doubt of the density as
// one cause that all masses of this fluid share. Errors as Mass's, and inputs
// that are not valid.
func (f Fluid) MassMeasured(v measure.Volume, t measure.Temperature) (measure.Mass, error) {
	if err := errors.Join(v.Err(), t.Err()); err != nil {
		return measure.Mass{}, fmt.Errorf("thermal: mass: %w", err)
	}
	best, err := f.Mass(v.Best(), t.Best())
	if err != nil {
		return measure.Mass{}, err
	}
	rho, _ := f.Density(t.Best())
	e, _ := f.at(t.Best())
	x := best.In(units.Kilogram)
	return combined(best,
		f.massTerms(x, e),
		measure.Part{Of: v.Reading(), Sensitivity: float64(rho) / 1000},
		measure.Part{Of: t.Reading(), Sensitivity: x * e.perKelvin})
}

// VolumeMeasured is Volume for measured inputs, with the doubt of the density
// as one cause that all masses of this fluid share: weighed out and weighed
// back in, it cancels. Errors as Volume's, and inputs that are not valid.
func (f Fluid) VolumeMeasured(m measure.Mass, t measure.Temperature) (measure.Volume, error) {
	if err := errors.Join(m.Err(), t.Err()); err != nil {
		return measure.Volume{}, fmt.Errorf("thermal: volume: %w", err)
	}
	best, err := f.Volume(m.Best(), t.Best())
	if err != nil {
		return measure.Volume{}, err
	}
	rho, _ := f.Density(t.Best())
	e, _ := f.at(t.Best())
	x := best.In(units.Litre)
	return combined(best,
		f.massTerms(-x, e),
		measure.Part{Of: m.Reading(), Sensitivity: 1000 / float64(rho)},
		measure.Part{Of: t.Reading(), Sensitivity: -x * e.perKelvin})
}

// massTerms is what the fluid's own figures add to a mass, or with its sign
// turned to a volume made from a mass.
func (f Fluid) massTerms(x float64, e expansion) []measure.Term {
	return []measure.Term{
		{Cause: f.expansionCause, Scale: x * e.coefficient * f.doubt.Expansion},
		{Cause: f.densityCause, Scale: x * f.doubt.Density},
	}
}

// combined gives an exact best estimate the doubt of its parts and terms of its own.
func combined[D units.Dimension](best units.Quantity[D], own []measure.Term, parts ...measure.Part) (measure.Measured[D], error) {
	extra, err := measure.New(0, own...)
	if err != nil {
		return measure.Measured[D]{}, fmt.Errorf("thermal: %w", err)
	}
	r, err := measure.Combine(0, append(parts, measure.Part{Of: extra, Sensitivity: 1})...)
	if err != nil {
		return measure.Measured[D]{}, fmt.Errorf("thermal: %w", err)
	}
	return measure.NewMeasured(best, r.Terms()...)
}

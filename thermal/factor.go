package thermal

import (
	"errors"
	"fmt"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
)

// expansion is the law at one temperature: ln F and how it answers to its two
// inputs. Logarithms, because a conversion between any two temperatures is then
// one difference, exactly zero where the temperatures are equal.
type expansion struct {
	ln          float64 // ln F
	perKelvin   float64 // d ln F / d t
	coefficient float64 // d ln F / d ln(coefficient)
}

// at evaluates the law. For a table whose range leaves out 15 °C, ln F is
// counted from the table's first row: differences are still right, and Factor
// refuses.
func (f Fluid) at(t units.Temperature) (expansion, error) {
	if err := f.check(t); err != nil {
		return expansion{}, err
	}
	if f.law == tabulated {
		return f.table.at(t), nil
	}
	a := f.perKelvin
	x := a * t.Sub(ReferenceTemperature()).In(units.CelsiusDegree)
	if f.law == exponential {
		return expansion{ln: -x, perKelvin: -a, coefficient: -x}, nil
	}
	bend := 1 + float64(2*lubricantCurvature*x)
	return expansion{
		ln:          -x * (1 + float64(lubricantCurvature*x)),
		perKelvin:   -a * bend,
		coefficient: -x * bend,
	}, nil
}

// check refuses a fluid without a law and a temperature outside it.
func (f Fluid) check(t units.Temperature) error {
	if f.law == noLaw {
		return errNoLaw("correct for temperature")
	}
	if !t.Valid() {
		return fmt.Errorf("thermal: temperature %w; want a measured one", units.ErrOutOfRange)
	}
	low, high := f.Limits()
	if t.Compare(low) < 0 || t.Compare(high) > 0 {
		return fmt.Errorf("thermal: %s is %w (%s); want %s to %s", t, ErrOutsideLaw, f.lawName(), low, high)
	}
	return nil
}

// Factor returns the volume correction factor to 15 °C: V15 = V·Factor(t). It
// is 1 at 15 °C and falls as t rises. It is unrounded (the petroleum tables
// round to 1e-5), its relative computing error at most 2e-16. A temperature outside the law is an error that wraps
// [ErrOutsideLaw].
func (f Fluid) Factor(t units.Temperature) (float64, error) {
	e, err := f.at(t)
	if err != nil {
		return 0, err
	}
	if f.law == tabulated {
		if err := f.check(ReferenceTemperature()); err != nil {
			return 0, fmt.Errorf("thermal: factor to 15 °C: the table leaves 15 °C out: %w", err)
		}
	}
	return e.factor(), nil
}

// Convert returns the volume that v, read at the temperature from, takes up at
// the temperature to: v·Factor(from)/Factor(to), rounded once to a tick. Equal
// temperatures return v itself. A volume out of range, or a temperature outside
// the law, is an error.
func (f Fluid) Convert(v units.Volume, from, to units.Temperature) (units.Volume, error) {
	k, err := f.ratio(from, to)
	if err != nil {
		return units.Volume{}, fmt.Errorf("thermal: convert: %w", err)
	}
	out := v.Scale(k)
	if !out.Valid() {
		return units.Volume{}, fmt.Errorf("thermal: convert: volume %w; want a valid one", units.ErrOutOfRange)
	}
	return out, nil
}

// ratio is V(to)/V(from).
func (f Fluid) ratio(from, to units.Temperature) (float64, error) {
	a, errA := f.at(from)
	b, errB := f.at(to)
	if f.law == noLaw {
		return 0, errA
	}
	if err := errors.Join(errA, errB); err != nil {
		return 0, err
	}
	return elementary.Exp(a.ln - b.ln), nil
}

func (e expansion) factor() float64 { return elementary.Exp(e.ln) }

package thermal

import (
	"errors"
	"fmt"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
)

// Closing is what it costs to close the check plug at a temperature away from
// the middle of the window, with the level right at the hole at that moment.
type Closing struct {
	Off       units.Volume           // too much (+) or too little (-) once the box is at mid-window
	Away      units.TemperatureDelta // how far from mid-window the plug was closed: what Off is worth
	Window    units.Volume           // what the whole window is worth, low end to high end
	Low, High units.Volume           // Off for closing at the low and at the high end of the window

	fluid          Fluid
	window         Window
	capacity       units.Volume
	material       Material
	at             units.Temperature
	ratio, caseRel float64
}

// Closing returns what closing at the temperature at costs. The capacity is
// the whole content of the box when right at mid-window. Closed hot the box is
// low at mid-window, closed cold it is high; the growth of the case takes part
// of it back (Uncorrected leaves the case out on purpose). The arithmetic:
//
//	Off = C·{[1 + γ(at - mid)]·F(at)/F(mid) - 1}
//
// with F the fluid's volume correction and γ the cubic expansion of the case.
// Volumes are rounded once to a tick. A window that Check refuses, a capacity
// not above zero, an unknown case material, and temperatures outside the law
// are errors.
//
// Source: the definition of the volume correction factor; γ from the material.
func (w Window) Closing(fluid Fluid, capacity units.Volume, caseMaterial Material, at units.Temperature) (Closing, error) {
	err := errors.Join(w.Check(), caseMaterial.Check(), checkCapacity(capacity))
	if err != nil {
		return Closing{}, fmt.Errorf("thermal: closing: %w", err)
	}
	c := Closing{fluid: fluid, window: w, capacity: capacity, material: caseMaterial, at: at, Away: at.Sub(w.Mid())}
	if c.Off, c.ratio, c.caseRel, err = c.off(at); err != nil {
		return Closing{}, fmt.Errorf("thermal: closing: %w", err)
	}
	var low, high error
	c.Low, _, _, low = c.off(w.Low)
	c.High, _, _, high = c.off(w.High)
	if err := errors.Join(low, high); err != nil {
		return Closing{}, fmt.Errorf("thermal: closing: %w", err)
	}
	c.Window = c.Low.Sub(c.High)
	return c, nil
}

func checkCapacity(capacity units.Volume) error {
	if capacity.Valid() && capacity.Sign() > 0 {
		return nil
	}
	return fmt.Errorf("capacity %s; want more than 0 L", capacity)
}

// off returns how far the box is off at mid-window when closed at t, the ratio
// F(t)/F(mid), and how much the case is larger at t than at mid-window.
func (c Closing) off(t units.Temperature) (off units.Volume, ratio, caseRel float64, err error) {
	if _, err := c.material.factor(t); err != nil {
		return off, 0, 0, err
	}
	a, errA := c.fluid.at(t)
	m, errM := c.fluid.at(c.window.Mid())
	if err := errors.Join(errA, errM); err != nil {
		return off, 0, 0, err
	}
	caseRel = float64(growthOf(c.material).gamma * t.Sub(c.window.Mid()).In(units.CelsiusDegree))
	less := elementary.Expm1(a.ln - m.ln)
	// (1 + g)(1 + e) - 1 without losing the digits of small g and e.
	off = c.capacity.Scale(less + caseRel + float64(less*caseRel))
	if !off.Valid() {
		return off, 0, 0, fmt.Errorf("volume %w; want a valid one", units.ErrOutOfRange)
	}
	return off, 1 + less, caseRel, nil
}

// Worth expresses any volume, such as a tilt of the vehicle or an overfill, as
// the shift of closing temperature that would cost as much: positive for a
// volume too much (as if closed that much colder). It takes the window as
// straight, which over 10 K is good to 1 %.
func (c Closing) Worth(v units.Volume) (units.TemperatureDelta, error) {
	if !c.Window.Valid() || c.Window.Sign() <= 0 {
		return units.TemperatureDelta{}, fmt.Errorf("thermal: worth: no closing worked out; want the result of Window.Closing")
	}
	if !v.Valid() {
		return units.TemperatureDelta{}, fmt.Errorf("thermal: worth: volume %w; want a valid one", units.ErrOutOfRange)
	}
	d := c.window.High.Sub(c.window.Low).Scale(v.Ratio(c.Window))
	if !d.Valid() {
		return units.TemperatureDelta{}, fmt.Errorf("thermal: worth: temperature difference %w; want a valid one", units.ErrOutOfRange)
	}
	return d, nil
}

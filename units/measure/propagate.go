package measure

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Input is one input of a formula, with the name a budget calls it by.
type Input struct {
	Name string
	Of   Reading
}

// Propagation is a formula and its inputs.
type Propagation struct {
	Inputs []Input
	// Model is the formula; x holds the inputs' values in order, and is the
	// model's to scribble on. It must give a finite number near the estimates; a
	// panic becomes an error that says with which input it came.
	Model func(x []float64) float64
	// Sensitivities are the partial derivatives at the estimates, in the order of
	// the inputs. Nil means they are found numerically.
	Sensitivities []float64
}

// Propagate returns the formula's value at the estimates with its doubt carried
// through by first-order propagation: each input's terms times its sensitivity,
// shared causes added with their signs (JCGM 100:2008 5.1.2, 5.2.2). DoF and
// Expanded of the result follow Welch-Satterthwaite. Nothing of second order is
// added: where the formula bends within the doubt, use Simulate.
//
// Numeric sensitivities are central differences over an eighth and a sixteenth
// of the input's standard uncertainty, extrapolated to zero step; exact for
// polynomials to the fourth degree but for rounding, which adds less than 1e-12
// of the value to each contribution.
//
// No model, a model that gives NaN, an infinity or a panic, a count of sensitivities
// other than that of the inputs, more than 1000 inputs or 100 000 of their terms
// in all, and readings that are not valid are errors.
func Propagate(p Propagation) (Reading, error) {
	value, slopes, err := p.evaluate()
	if err != nil {
		return Reading{}, fmt.Errorf("measure: propagate: %w", err)
	}
	parts := make([]Part, len(slopes))
	for i, c := range slopes {
		parts[i] = Part{p.Inputs[i].Of, c}
	}
	return Combine(value, parts...)
}

func (p Propagation) evaluate() (value float64, slopes []float64, err error) {
	if err := p.check(); err != nil {
		return 0, nil, err
	}
	moved := -1 // which input is not at its estimate
	defer func() {
		if r := recover(); r != nil {
			value, slopes, err = 0, nil, p.panicked(moved, r)
		}
	}()
	d := differences{model: p.Model, at: estimates(p.Inputs), x: make([]float64, len(p.Inputs))}
	if value = d.value(); !finite(value) {
		return 0, nil, fmt.Errorf("the model gives %v at the estimates; want a finite number", value)
	}
	if p.Sensitivities != nil {
		return value, p.Sensitivities, nil
	}
	slopes = make([]float64, len(p.Inputs))
	for i, in := range p.Inputs {
		moved = i
		if slopes[i] = d.slope(i, in.Of.U()); !finite(slopes[i]) {
			return 0, nil, fmt.Errorf("the model gives no finite slope for input %d (%s) at %v; want a model that is smooth there, or its sensitivities",
				i+1, quote(in.Name), d.at[i])
		}
	}
	return value, slopes, nil
}

// panicked is the error of a model that panicked.
func (p Propagation) panicked(moved int, r any) error {
	where := "at the estimates"
	if moved >= 0 {
		where = fmt.Sprintf("with input %d (%s) moved from %v", moved+1, quote(p.Inputs[moved].Name), p.Inputs[moved].Of.value)
	}
	return fmt.Errorf("the model panicked %s: %s; want a finite number near the estimates", where, quote(fmt.Sprint(r)))
}

func (p Propagation) check() error {
	var faults []error
	if p.Model == nil {
		faults = append(faults, errors.New("no model; want a function of the inputs"))
	}
	if n := len(p.Sensitivities); p.Sensitivities != nil && n != len(p.Inputs) {
		faults = append(faults, fmt.Errorf("%d sensitivities for %d inputs; want one for each, or none", n, len(p.Inputs)))
	}
	return errors.Join(append(faults, checkInputs(p.Inputs), checkSlopes(p.Sensitivities))...)
}

func checkSlopes(slopes []float64) error {
	if i := slices.IndexFunc(slopes, func(c float64) bool { return !finite(c) }); i >= 0 {
		return fmt.Errorf("sensitivity %d is %v; want a finite number", i+1, slopes[i])
	}
	return nil
}

// mostInputs bounds a formula: the work goes with the square of their number.
const mostInputs = 1000

func checkInputs(inputs []Input) error {
	if len(inputs) > mostInputs {
		return fmt.Errorf("%d inputs; want at most %d", len(inputs), mostInputs)
	}
	var faults told
	terms := 0
	for i, in := range inputs {
		terms += len(in.Of.doubt.terms)
		if err := in.Of.doubt.fault; err != nil {
			faults.add(fmt.Errorf("input %d (%s): %w", i+1, quote(in.Name), err))
		}
	}
	if terms > mostGathered {
		faults.add(errGathered(terms))
	}
	return faults.join()
}

func estimates(inputs []Input) []float64 {
	x := make([]float64, len(inputs))
	for i, in := range inputs {
		x[i] = in.Of.value
	}
	return x
}

// differences finds the slopes of a model at a point.
type differences struct {
	model func([]float64) float64
	at, x []float64
}

func (d *differences) value() float64 {
	copy(d.x, d.at)
	return d.model(d.x)
}

// slope is the Richardson extrapolation of two central differences. The step
// follows the doubt, because a value may be zero or far larger than it.
func (d *differences) slope(i int, u float64) float64 {
	if u == 0 {
		return 0
	}
	const least = 1.0 / (1 << 26) // of the value: below it the difference is rounding
	h := math.Max(u/8, math.Abs(d.at[i])*least)
	wide, narrow := d.central(i, h), d.central(i, h/2)
	return narrow + (narrow-wide)/3
}

func (d *differences) central(i int, h float64) float64 {
	above, below := d.at[i]+h, d.at[i]-h
	copy(d.x, d.at)
	d.x[i] = above
	high := d.model(d.x)
	copy(d.x, d.at)
	d.x[i] = below
	return (high - d.model(d.x)) / (above - below)
}

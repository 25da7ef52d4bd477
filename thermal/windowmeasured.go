package thermal

import (
	"fmt"

	"example.com/meniscus/units/measure"
)

// JudgeMeasured judges a measured temperature at the risk the caller accepts of
// calling it inside when it is not: above 0, below 0.5, usually 0.05. It is
// measure.Decide with the ends of the window in kelvin; see there for the
// probabilities and the range of readings that would pass. A window that Check
// refuses, a reading that is not valid and a bad risk are errors, with an
// undecided Decision.
func (w Window) JudgeMeasured(reading measure.Temperature, risk float64) (measure.Decision, error) {
	if err := w.Check(); err != nil {
		return measure.Decision{}, err
	}
	if err := reading.Err(); err != nil {
		return measure.Decision{}, fmt.Errorf("thermal: window: %w", err)
	}
	if reading.Best().IsZero() {
		return measure.Decision{}, fmt.Errorf("thermal: window: reading %s; want a measured temperature", reading.Best())
	}
	d, err := measure.Decide(measure.Between(w.Low.Kelvin(), w.High.Kelvin()), reading.Reading(), risk)
	if err != nil {
		return measure.Decision{}, fmt.Errorf("thermal: window: %w", err)
	}
	return d, nil
}

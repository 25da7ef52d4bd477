package thermal

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// Limits a window is checked against, so that a slip of the pen is noticed.
const (
	windowColdest = -40.0 // °C; our judgement
	windowHottest = 150.0 // °C; our judgement, the end of the lubricating-oil equation
)

// Window is the range of fluid temperature in which the maker wants the level
// checked, and under which conditions. Both ends belong to it. The zero value
// is no window, and using it is an error.
type Window struct {
	Low          units.Temperature `json:"low"`
	High         units.Temperature `json:"high"`
	EngineIdling bool              `json:"engineIdling,omitempty"` // the level is checked with the engine idling
	Level        bool              `json:"level,omitempty"`        // the vehicle stands level
	Note         string            `json:"note,omitempty"`         // what else the maker says
}

// Check refuses a window whose ends are missing, out of range or the wrong way
// round, and ends below -40 °C or above 150 °C.
func (w Window) Check() error {
	if w.Low.IsZero() && w.High.IsZero() {
		return fmt.Errorf("thermal: window: no temperatures given; want a low and a high end")
	}
	err := errors.Join(checkEnd("low", w.Low), checkEnd("high", w.High))
	if err == nil && w.Low.Compare(w.High) >= 0 {
		err = fmt.Errorf("thermal: window: low end %s is not below high end %s; want low below high", w.Low, w.High)
	}
	return err
}

func checkEnd(name string, t units.Temperature) error {
	if t.Valid() && t.Compare(units.Celsius(windowColdest)) >= 0 && t.Compare(units.Celsius(windowHottest)) <= 0 {
		return nil
	}
	return fmt.Errorf("thermal: window: %s end %s; want -40 to 150 °C", name, t)
}

// Mid returns the middle of the window, rounded half to even to a tick. For a
// window that Check refuses it means nothing.
func (w Window) Mid() units.Temperature {
	return w.Low.Add(w.High.Sub(w.Low).Scale(0.5))
}

// Judge says where a plain reading lies, known to ± plusMinus: Inside when the
// whole interval reading ± plusMinus lies in the window, Below or Above when
// the whole of it lies outside, Undecided when it straddles an end. Zero
// plusMinus is allowed and takes the reading as exact. A window that Check
// refuses, a temperature out of range and a negative plusMinus are errors, with
// Undecided.
func (w Window) Judge(reading units.Temperature, plusMinus units.TemperatureDelta) (measure.Verdict, error) {
	if err := w.Check(); err != nil {
		return measure.Undecided, err
	}
	if !plusMinus.Valid() || plusMinus.Sign() < 0 {
		return measure.Undecided, fmt.Errorf("thermal: window: ± %s; want 0 or more", plusMinus)
	}
	low, high := reading.Add(plusMinus.Neg()), reading.Add(plusMinus)
	if !low.Valid() || !high.Valid() || reading.IsZero() {
		return measure.Undecided, fmt.Errorf("thermal: window: reading %s ± %s: %w; want a measured temperature", reading, plusMinus, units.ErrOutOfRange)
	}
	switch {
	case high.Compare(w.Low) < 0:
		return measure.Below, nil
	case low.Compare(w.High) > 0:
		return measure.Above, nil
	case low.Compare(w.Low) >= 0 && high.Compare(w.High) <= 0:
		return measure.Inside, nil
	}
	return measure.Undecided, nil
}

package measure

import (
	"errors"
	"fmt"
)

// Limits are the ends of what is allowed, both included, in the reading's unit;
// either may be absent. The zero value allows exactly 0.
type Limits struct {
	Low, High     float64
	NoLow, NoHigh bool // true: no limit on that side, and its number is not looked at
}

// Between returns limits on both sides.
func Between(low, high float64) Limits { return Limits{Low: low, High: high} }

// AtLeast returns a low limit alone.
func AtLeast(low float64) Limits { return Limits{Low: low, NoHigh: true} }

// AtMost returns a high limit alone.
func AtMost(high float64) Limits { return Limits{High: high, NoLow: true} }

func (l Limits) check() error {
	var faults []error
	if !l.NoLow && !finite(l.Low) {
		faults = append(faults, fmt.Errorf("low limit %v; want a finite number, or none", l.Low))
	}
	if !l.NoHigh && !finite(l.High) {
		faults = append(faults, fmt.Errorf("high limit %v; want a finite number, or none", l.High))
	}
	if l.NoLow && l.NoHigh {
		faults = append(faults, errors.New("no limit on either side; want at least one"))
	}
	if !l.NoLow && !l.NoHigh && l.Low > l.High {
		faults = append(faults, fmt.Errorf("low limit %v above high limit %v; want them in order", l.Low, l.High))
	}
	return errors.Join(faults...)
}

package sealing

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
)

// Tool is a torque wrench or driver.
type Tool struct {
	ID        string       `json:"id"`
	Low       units.Torque `json:"low"`                // smallest setting
	High      units.Torque `json:"high"`               // largest setting
	Tolerance float64      `json:"tolerance,omitzero"` // relative, such as 0.04 for ±4 %; zero: StandardTolerance(High)
}

// StandardTolerance returns the relative tolerance of a hand torque tool by
// its largest setting: 0.06 up to and including 10 N·m, 0.04 above.
//
// Source: ISO 6789 (2003-era wording, type II class A), seen second-hand.
func StandardTolerance(largest units.Torque) float64 {
	if largest.Compare(units.NewtonMetre.Of(10)) <= 0 {
		return 0.06
	}
	return 0.04
}

// Check returns every fault of the tool's own figures.
func (t Tool) Check() error {
	var faults []error
	if t.ID == "" {
		faults = append(faults, errors.New(`sealing: torque tool: has no id; want a short name such as wrench-50`))
	}
	if !t.Low.Valid() || !t.High.Valid() || t.Low.Sign() < 0 || t.Low.Compare(t.High) >= 0 {
		faults = append(faults, fmt.Errorf("sealing: torque tool %.40q: range %s to %s; want a low end below the high end", t.ID, t.Low, t.High))
	}
	if !(t.Tolerance >= 0 && t.Tolerance < 1) {
		faults = append(faults, fmt.Errorf("sealing: torque tool %.40q: tolerance %v; want a share of the setting such as 0.04", t.ID, t.Tolerance))
	}
	return errors.Join(faults...)
}

// Spread returns the torques a plug may really get at that setting, rounded to
// the nearest tick. A setting outside the tool's range is an error.
func (t Tool) Spread(setting units.Torque) (low, high units.Torque, err error) {
	if err := t.Check(); err != nil {
		return low, high, err
	}
	if !setting.Valid() {
		return low, high, fmt.Errorf("sealing: torque tool %.40q: the setting is %w; want one from %s to %s, or take another tool", t.ID, units.ErrOutOfRange, Both(t.Low), Both(t.High))
	}
	if setting.Compare(t.Low) < 0 || setting.Compare(t.High) > 0 {
		return low, high, fmt.Errorf("sealing: torque tool %.40q sets %s to %s, not %s; take another tool", t.ID, Both(t.Low), Both(t.High), Both(setting))
	}
	half := setting.Scale(t.relative())
	return setting.Sub(half), setting.Add(half), nil
}

func (t Tool) relative() float64 {
	if t.Tolerance == 0 {
		return StandardTolerance(t.High)
	}
	return t.Tolerance
}

// Within reports whether a torque that was set agrees with the plug's: inside
// its spread, or where none is stated inside the tolerance of a standard hand
// tool of that size. A plug without a torque agrees with nothing.
func (p Plug) Within(set units.Torque) bool {
	if p.Torque.Sign() <= 0 || !set.Valid() {
		return false
	}
	spread := p.Spread
	if spread.IsZero() {
		spread = p.Torque.Scale(StandardTolerance(p.Torque))
	}
	return set.Sub(p.Torque).Abs().Compare(spread) <= 0
}

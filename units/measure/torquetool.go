package measure

import (
	"errors"

	"example.com/meniscus/units"
)

// TorqueTool is a setting or indicating torque wrench. Its calibration error is
// one cause shared by every tightening with it, "ID/scale".
type TorqueTool struct {
	ID, Title string
	Largest   units.Torque // the most it can be set to
	// Error is the largest relative error, 0.04 for ± 4 %. Where it is zero the
	// limit of ISO 6789 for a hand torque tool is taken from Largest: ± 4 % above
	// 10 N·m, ± 6 % at or below (seen second-hand).
	Error      float64
	Coverage   float64      // its k where a certificate states one; 0 means limits, rectangular
	Resolution units.Torque // the step of the setting; rectangular over one step
	Entry      string
}

// For returns the tool for one tightening, named so that its own doubt is not taken
// for another's.
func (w TorqueTool) For(entry string) TorqueTool {
	w.Entry = entry
	return w
}

// Read returns the torque set or shown, with its doubt, in newton metres. It is the
// torque the tool gives, which says little about clamping force. A torque over
// Largest, a tool with neither Error nor Largest, a resolution without an Entry
// and figures that cannot be are errors.
func (w TorqueTool) Read(q units.Torque) (Torque, error) {
	t := &tool{kind: "torque tool", id: w.ID, title: w.Title, entry: w.Entry}
	reads(t, q, w.Largest)
	shape, u := t.limits(w.share(t), w.Coverage)
	t.shared("scale", "calibration", shape, u*q.In(units.NewtonMetre))
	shape, u = t.step(inUnit(t, "resolution", w.Resolution, units.NewtonMetre), false)
	t.own("reading", "setting", shape, u)
	return finishQuantity(t, q)
}

func (w TorqueTool) share(t *tool) float64 {
	if w.Error != 0 {
		return t.relative("error", w.Error)
	}
	largest := inUnit(t, "largest torque", w.Largest, units.NewtonMetre)
	switch {
	case largest == 0:
		t.fail(errors.New("neither error nor largest torque; want the figure on its certificate, or its range"))
		return 0
	case largest > 10:
		return 0.04
	}
	return 0.06
}

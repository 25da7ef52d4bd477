package jobcard

import (
	"errors"
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units/measure"
)

// LevelCheck returns what the ledger says before the check plug was looked at,
// ready to ask what should run out; see exchange.LevelCheck.Expect. The
// temperature is that of the last window reading; where there is none yet it is taken
// to lie anywhere in the window, which is its doubt. cameIn is what was known of the level before the job. A card
// without a window is an error.
func (c *Card) LevelCheck(cameIn exchange.CameIn) (exchange.LevelCheck, error) {
	if c == nil || !c.open {
		return exchange.LevelCheck{}, errors.New("jobcard: no card; want one made by Open or Decode")
	}
	l := c.state
	if !l.spec.hasWindow() {
		return exchange.LevelCheck{}, errors.New("jobcard: level check: the job has no check window; want a spec with one")
	}
	capacity, err := l.spec.capacityMeasured(l.law)
	if err != nil {
		return exchange.LevelCheck{}, err
	}
	check := exchange.LevelCheck{
		NetAt: l.spec.reference(), CameIn: cameIn, Capacity: capacity, Fluid: l.law,
		Case: l.spec.CaseMetal, Window: l.spec.Window,
	}
	if check.At, err = somewhereInside(l.spec.Window); err != nil {
		return exchange.LevelCheck{}, err
	}
	if check.Case == thermal.UnknownMaterial {
		check.Case = thermal.Uncorrected
	}
	if l.observed.entry > 0 {
		check.Net = l.observed.before.netMeasured()
	} else {
		check.Net = l.flows.netMeasured()
	}
	if n := l.window.entry; n > 0 {
		e := c.entries[n-1]
		if check.At, err = l.spec.readingMeasured(n, e); err != nil {
			return exchange.LevelCheck{}, err
		}
	}
	return check, nil
}

// somewhereInside is a temperature nobody read: mid-window, give or take half of it.
func somewhereInside(w thermal.Window) (measure.Temperature, error) {
	assumed := Thermometer{ID: "not-read", PlusMinus: w.High.Sub(w.Mid())}
	return assumed.probe().Read(w.Mid())
}

// capacityMeasured is the middle capacity at mid-window, known only to lie in
// its range.
func (s *Spec) capacityMeasured(law thermal.Fluid) (measure.Volume, error) {
	mid, err := law.Convert(s.Capacity.Mid(), s.reference(), s.Window.Mid())
	if err != nil {
		return measure.Volume{}, err
	}
	half := Amount{Volume: mid, PlusMinus: s.Capacity.Width().Scale(0.5)}
	if half.PlusMinus.IsZero() {
		return measure.MeasuredExactly(mid), nil
	}
	return estimate(half, "capacity", "capacity known as a range")
}

// readingMeasured is a window reading with its doubt.
func (s *Spec) readingMeasured(n int, e Entry) (measure.Temperature, error) {
	if e.Thermometer != "" || e.PlusMinus.IsZero() {
		return s.temperature(n, e.Temperature, e.Thermometer)
	}
	stated := Thermometer{ID: "stated", PlusMinus: e.PlusMinus}
	return stated.probe().For(entryName(n)).Read(e.Temperature)
}

// Observation returns the last look at the check plug, ready to be held
// against what the ledger expects, with why it proves nothing where it does not;
// false where nobody looked.
func (c *Card) Observation() (exchange.Observation, bool) {
	if c == nil || !c.open || c.state.observed.entry == 0 {
		return exchange.Observation{}, false
	}
	n := c.state.observed.entry
	e := c.entries[n-1]
	seen := exchange.Observation{First: e.Flow, Last: e.Flow, Watched: time.Duration(e.Lasting), NoProof: c.state.observed.why}
	if c.volumes[n-1] == nil {
		return seen, true
	}
	seen.Caught, seen.CaughtKnown = *c.volumes[n-1], true
	seen.CaughtAt = measure.TemperatureExactly(c.spec.reference())
	return seen, true
}

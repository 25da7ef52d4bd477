package jobcard

import (
	"errors"
	"fmt"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// apply returns the ledger after one more entry, which has no fault of its own, or
// why it cannot be.
func (l ledger) apply(e line) (ledger, error) {
	switch {
	case l.closed && e.Kind != Noted:
		return l, errors.New("the card is closed; want a note, or a new card")
	case e.At.Before(l.last):
		return l, fmt.Errorf("time %s is before the entry that went before, %s; entries stand in the order things happened", e.At.Format(stamp), l.last.Format(stamp))
	}
	l.n++
	l.last = e.At
	if e.moves() && e.Amount.exact() {
		l.flows.unstated++
	}
	switch e.Kind {
	case FillPlugOpened:
		return l.fillPlugOpened(e)
	case Drained:
		return l.drained(e)
	case Refilled, ToppedUp:
		return l.refilled(e)
	case Mixed:
		return l.mixed(e)
	case Kept:
		return l.kept(e)
	case Spilled:
		return l.spilled(e)
	case Supplied:
		return l.supplied(e)
	case WasherFitted:
		return l.washerFitted(e)
	case PlugTorqued:
		return l.plugTorqued(e)
	case WindowRead:
		return l.windowRead(e)
	case CheckPlugObserved:
		return l.checkObserved(e)
	case Closed:
		return l.close()
	}
	return l, nil // notes and strikes change nothing here
}

// stamp is how times are printed.
const stamp = "2006-01-02 15:04:05Z07:00"

func (l ledger) fillPlugOpened(e line) (ledger, error) {
	if err := l.rolePlug(e.Plug, sealing.Fill); err != nil {
		return l, err
	}
	l.fillProved = true
	l.openPlug(e.Plug, sealing.Fill)
	return l, nil
}

// rolePlug refuses a plug that the job lists for something else, or not at all.
func (l ledger) rolePlug(id string, role sealing.Role) error {
	if id == "" {
		return nil
	}
	i, ok := l.plug(id)
	if !ok {
		return l.spec.noPlug(id)
	}
	if p := &l.spec.Plugs[i]; p.Role != role && p.Role != sealing.NoRole {
		return fmt.Errorf("plug %.40q is the %s plug; want the %s plug", id, p.Role, role)
	}
	return nil
}

func (l ledger) drained(e line) (ledger, error) {
	if !l.fillProved {
		return l, errors.New("the fill plug is not known to open; record it open before the drain plug is touched (a drained box that cannot be filled does not drive away)")
	}
	if e.fault != nil {
		return l, e.fault
	}
	if l.flows.cycles == 0 || l.flows.drainClosed {
		l.flows.startCycle()
	}
	if err := l.takeOut(e.volume, true); err != nil {
		return l, err
	}
	if out := l.flows.cycleOut; out.Compare(l.flows.largest) > 0 {
		l.flows.largest = out
	}
	if l.unmixed {
		l.note("not-mixed", said("drained before the gears were run after the last refill: mostly new fluid came out, so the old share is higher than computed"))
		l.unmixed = false
	}
	l.warmest = e.Amount.Temperature
	l.openPlug("", sealing.Drain)
	return l, nil
}

// takeOut moves fluid from the box to the outside, as part of the drain of a cycle
// where it says so.
func (l *ledger) takeOut(v *measure.Volume, drain bool) error {
	next, sumpWrong, err := l.shares.drain(v.Best())
	if err != nil {
		return err
	}
	if sumpWrong {
		l.note("sump-larger", said("more came out than the sump is said to hold: the bound on the old share that rests on the sump is given up"))
	}
	l.shares = next
	l.flows.take(v, drain)
	l.levelChanged()
	return nil
}

func (l ledger) mixed(e line) (ledger, error) {
	short := l.owed()
	if l.flows.cycles > 0 && short.Compare(l.flows.cycleOut.Scale(0.5)) > 0 {
		return l, fmt.Errorf("the box is %s short of what was drained; put it back before the gears are run (a pump that runs dry is damaged)", both(short))
	}
	if l.spec.Runs > 0 && e.Runs < l.spec.Runs {
		asked := l.spec.Runs
		l.note("few-runs", func() string {
			return fmt.Sprintf("%s through the gears; the sheet asks for %d", times(e.Runs, "run"), asked)
		})
	}
	l.unmixed = false
	return l, nil
}

func (l ledger) kept(e line) (ledger, error) {
	if e.fault != nil {
		return l, e.fault
	}
	if most := l.spec.Capacity.Low().Scale(0.5); e.best().Compare(most) > 0 {
		return l, fmt.Errorf("%s kept in the hose or pump; want at most half of the box, %s", both(e.best()), both(most))
	}
	l.withhold(e.volume)
	return l, nil
}

// withhold takes back from the refill what never reached the box.
func (l *ledger) withhold(v *measure.Volume) {
	l.shares = l.shares.withhold(v.Best())
	l.flows.withhold(v)
	l.levelChanged()
}

func (l ledger) spilled(e line) (ledger, error) {
	if e.fault != nil {
		return l, e.fault
	}
	v := e.best()
	switch e.Origin {
	case FromBox:
		if err := l.takeOut(e.volume, true); err != nil {
			return l, err
		}
	case FromRefill:
		if v.Compare(l.flows.cycleIn) > 0 {
			return l, fmt.Errorf("%s of a refill spilled, but only %s was put in since the last drain", both(v), both(l.flows.cycleIn))
		}
		l.withhold(e.volume)
	case FromStock:
		l.flows.used = l.flows.used.Add(v)
	}
	return l, nil
}

func (l ledger) supplied(e line) (ledger, error) {
	if e.fault != nil {
		return l, e.fault
	}
	l.flows.supplied = l.flows.supplied.Add(e.best())
	return l, nil
}

// left returns the fluid not yet used, at the reference temperature.
func (l ledger) left() units.Volume {
	return l.onHand.Add(l.flows.supplied).Sub(l.flows.used)
}

func (l ledger) close() (ledger, error) {
	if blocks := l.blocking(); len(blocks) > 0 {
		var faults []error
		for _, b := range blocks {
			faults = append(faults, errors.New(b.Text))
		}
		return l, fmt.Errorf("not ready to close: %w", errors.Join(faults...))
	}
	l.closed = true
	return l, nil
}

// both prints a volume as both kinds of jug show it.
func both(v units.Volume) string {
	return v.Text(units.Litre, 3) + " (" + v.Text(units.USQuart, 2) + ")"
}

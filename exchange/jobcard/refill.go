package jobcard

import (
	"errors"
	"fmt"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/units"
)

// mostAbove is how far a refill may leave the box above its level, beyond the
// overfill planned, as a share of the smallest capacity; a top-up at the level
// check may fill a box that came in low. Both are our judgement: they catch a
// slipped unit, not a technician.
const (
	mostAboveRefill = 0.10
	mostAboveTopUp  = 0.40
)

func (l ledger) refilled(e line) (ledger, error) {
	if !l.fillProved {
		return l, errors.New("the fill plug is not known to open; record it open before anything is put in")
	}
	if e.fault != nil {
		return l, e.fault
	}
	v := e.best()
	above := mostAboveRefill
	if e.Kind == ToppedUp {
		above = mostAboveTopUp
	}
	most := l.spec.Overfill.Add(l.spec.Capacity.Low().Scale(above))
	if net := l.flows.net.Add(v); net.Compare(most) > 0 {
		return l, fmt.Errorf("%s would leave the box %s above its level; want at most %s above: check the unit and what was drained (a box that came in low is topped up at the level check)",
			both(v), both(net), both(most))
	}
	l.shares = l.shares.refill(v, e.OldShare)
	l.flows.put(e.volume, e.OldShare)
	l.endDrain()
	l.unmixed = l.unmixed || e.Kind == Refilled
	if e.Kind == Refilled {
		l.openPlug("", sealing.Fill)
	}
	l.levelChanged()
	l.checkStock()
	return l, nil
}

// endDrain judges the drain once it is known to be whole: a small jug takes
// several entries to measure one drain.
func (l *ledger) endDrain() {
	usual, out := l.spec.UsualDrain, l.flows.cycleOut
	if l.flows.drainClosed || usual.IsZero() || l.flows.cycles == 0 {
		l.flows.drainClosed = true
		return
	}
	l.flows.drainClosed = true
	switch {
	case out.Compare(usual.Low()) < 0:
		l.note("drain-unusual", func() string {
			return both(out) + " came out, less than the usual " + usual.Text(units.Litre, 2) + ": was the box low before, or not left to drain?"
		})
	case out.Compare(usual.High()) > 0:
		l.note("drain-unusual", func() string {
			return both(out) + " came out, more than the usual " + usual.Text(units.Litre, 2) + ": was the box overfilled before?"
		})
	}
}

// checkStock says once when more was used than was brought.
func (l *ledger) checkStock() {
	if l.spec.OnHand.IsZero() && l.flows.supplied.IsZero() {
		return
	}
	if left := l.left(); left.Sign() < 0 {
		l.note("stock-short", func() string {
			return "more fluid has gone in than was brought: " + both(left.Neg()) + " over; record what else was supplied"
		})
	}
}

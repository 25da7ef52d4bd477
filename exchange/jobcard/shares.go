package jobcard

import (
	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
)

// shares follows the old fluid through the job in several boxes at once: the
// middle capacity for the estimate, and those that bound it.
type shares struct {
	mid, low, high exchange.State // fully mixed, three capacities
	held           exchange.State // the largest capacity, nothing ever mixed
	bounded        bool           // held is followed: the sump is known

	pending    units.Volume // put in since the last drain, not yet in the boxes
	pendingOld units.Volume // how much of pending is old fluid
}

// startShares opens the boxes. Where the sump is known, the largest capacity
// with no mixing at all bounds the old share from above whatever mixes; where
// it is not, the range holds for full mixing only.
func startShares(s Spec) (shares, error) {
	sh := shares{bounded: s.Sump.Sign() > 0}
	for _, box := range [...]struct {
		state *exchange.State
		sys   exchange.System
	}{
		{&sh.mid, exchange.System{Capacity: s.Capacity.Mid()}},
		{&sh.low, exchange.System{Capacity: s.Capacity.Low()}},
		{&sh.high, exchange.System{Capacity: s.Capacity.High()}},
		{&sh.held, exchange.System{Capacity: s.Capacity.High(), Sump: s.Sump}},
	} {
		state, err := exchange.Start(box.sys)
		if err != nil {
			return shares{}, err
		}
		*box.state = state
	}
	return sh, nil
}

// each runs a step on every box that is followed.
func (sh shares) each(step func(exchange.State) (exchange.State, error)) (shares, error) {
	boxes := [...]*exchange.State{&sh.mid, &sh.low, &sh.high, &sh.held}
	followed := len(boxes)
	if !sh.bounded {
		followed--
	}
	for _, box := range boxes[:followed] {
		next, err := step(*box)
		if err != nil {
			return sh, err
		}
		*box = next
	}
	return sh, nil
}

// settle puts the pending refill into the boxes.
func (sh shares) settle() (shares, error) {
	if sh.pending.Sign() <= 0 {
		return sh, nil // fluid kept before the first refill is owed to the next one
	}
	v, old := sh.pending, min(max(sh.pendingOld.Ratio(sh.pending), 0), 1)
	sh.pending, sh.pendingOld = units.Volume{}, units.Volume{}
	return sh.each(func(st exchange.State) (exchange.State, error) { return st.Refill(v, old) })
}

// drain takes fluid out of the boxes, the pending refill being in by then. More
// than the stated sump can give shows that the sump is larger than stated: the
// bound that rests on it is then given up, and the answer says so.
func (sh shares) drain(v units.Volume) (next shares, sumpWrong bool, err error) {
	sh, err = sh.settle()
	if err != nil {
		return sh, false, err
	}
	take := func(st exchange.State) (exchange.State, error) { return st.Drain(v) }
	if sh.bounded {
		if _, err := take(sh.held); err != nil {
			sh.bounded, sumpWrong = false, true
		}
	}
	sh, err = sh.each(take)
	return sh, sumpWrong, err
}

// refill adds to what is pending.
func (sh shares) refill(v units.Volume, oldShare float64) shares {
	sh.pending = sh.pending.Add(v)
	sh.pendingOld = sh.pendingOld.Add(v.Scale(oldShare))
	return sh
}

// withhold takes back part of the pending refill, in the mixture it has.
func (sh shares) withhold(v units.Volume) shares {
	if sh.pending.Sign() > 0 {
		sh.pendingOld = sh.pendingOld.Sub(v.Scale(min(1, max(0, sh.pendingOld.Ratio(sh.pending)))))
	}
	sh.pending = sh.pending.Sub(v)
	return sh
}

// Share is the old share of the fluid in the box.
type Share struct {
	Estimate float64 `json:"estimate"` // middle capacity, fully mixed each time
	Low      float64 `json:"low"`      // smallest capacity, fully mixed each time
	High     float64 `json:"high"`     // largest capacity, fully mixed each time
	Most     float64 `json:"most"`     // largest capacity, whatever the gears did; see exchange.Bounds
}

// now returns the shares with the pending refill in. largest is the largest
// drain so far: where the sump is not known, it held at least that much.
func (sh shares) now(s Spec, largest units.Volume) Share {
	settled, err := sh.settle()
	if err != nil {
		settled = sh // a refill the boxes refuse was refused as an entry
	}
	share := Share{Estimate: settled.mid.OldShare(), Low: settled.low.OldShare(), High: settled.high.OldShare()}
	if settled.bounded {
		share.Most = settled.held.OldShare()
	} else if bound, err := exchange.Bounds(s.Capacity.High(), units.Volume{}, []units.Volume{largest}); err == nil {
		share.Most = bound.High
	}
	share.Most = max(share.Most, share.High)
	return share
}

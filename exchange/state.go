package exchange

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
)

// ErrNoBox is wrapped by every step on a zero State.
var ErrNoBox = errors.New("no box yet")

// State is the ledger of a box between steps: how much fluid it holds and what
// share of it is old. It is a value: a step returns the next state and leaves
// its receiver as it was; a refused step returns the receiver itself beside the
// error. The zero value is no box, holds nothing and refuses every step.
//
// Volumes are exact. The box may stand below its capacity between a drain and
// its refill, or above it before a level check. With a known sump the fluid held
// back stays where it is: drains take from the sump, refills go to the sump, and
// only [State.Mix] and [State.Settle] move fluid between the two. Fluid within
// one zone counts as mixed at once.
//
// The volume of old fluid, OldShare × Contents, is conserved by Mix and Settle,
// falls by the old fluid drained and rises by the old fluid refilled, each to
// within a few roundings of float64.
type State struct {
	system System
	// One zone: all is in the sump and held is zero.
	sump, held           units.Volume
	sumpShare, heldShare float64
}

// stateMostFill is how far a box may stand above its capacity, as a multiple.
// Judgement: workshops overfill by a few per cent on purpose; half as much again
// is a slip of the pen.
const stateMostFill = 1.5

// Start returns the full box with all its fluid old. An unusable system is an
// error and the state beside it is the zero State.
func Start(sys System) (State, error) {
	if err := sys.Check(); err != nil {
		return State{}, fmt.Errorf("exchange: start: %w", err)
	}
	return stateFull(sys), nil
}

// Arrival is a box that did not come in full of old fluid.
type Arrival struct {
	System   System
	Contents units.Volume // what it holds, 0 to half as much again as the capacity
	OldShare float64      // 0 to 1, the same throughout the box
}

// StartFrom returns a box that came in low, overfilled or already part
// serviced. Where a sump is known the shortage or excess stands in the sump: the
// contents must cover the fluid held back.
func StartFrom(a Arrival) (State, error) {
	st, err := Start(a.System)
	if err != nil {
		return State{}, err
	}
	var faults []error
	if !systemIsShare(a.OldShare) {
		faults = append(faults, systemShareFault("old share", a.OldShare))
	}
	if least, most := st.held, st.mostContents(); !a.Contents.Valid() || a.Contents.Compare(least) < 0 || a.Contents.Compare(most) > 0 {
		faults = append(faults, fmt.Errorf("contents: %s; want %s (held back) to %s", a.Contents, least, most))
	}
	if err := errors.Join(faults...); err != nil {
		return State{}, fmt.Errorf("exchange: start: %w", err)
	}
	st.sump = a.Contents.Sub(st.held)
	st.sumpShare, st.heldShare = a.OldShare, a.OldShare
	return st, nil
}

func stateFull(sys System) State {
	st := State{system: sys, sump: sys.Capacity, sumpShare: 1, heldShare: 1}
	if sys.twoZones() {
		st.sump, st.held = sys.Sump, sys.Held()
	}
	return st
}

// Drain takes v out through the drain plug. Below zero, or more than stands
// where the plug reaches, is an error.
func (s State) Drain(v units.Volume) (State, error) {
	if err := s.usable(); err != nil {
		return s, fmt.Errorf("exchange: drain: %w", err)
	}
	name := "contents"
	if s.system.twoZones() {
		name = "contents of the sump"
	}
	if err := systemDrainFault("drain", v, s.sump, name); err != nil {
		return s, fmt.Errorf("exchange: %w", err)
	}
	return s.drained(v), nil
}

// Refill puts v in, of which oldShare is old fluid: 0 for fluid from a new
// bottle, more where drained fluid goes back or a pump held some. Below zero, or
// so much that the box would hold more than half as much again as its capacity, is
// an error; so is a share outside 0 to 1.
func (s State) Refill(v units.Volume, oldShare float64) (State, error) {
	if err := s.usable(); err != nil {
		return s, fmt.Errorf("exchange: refill: %w", err)
	}
	var faults []error
	if !systemIsShare(oldShare) {
		faults = append(faults, systemShareFault("old share", oldShare))
	}
	if room := s.mostContents().Sub(s.Contents()); !v.Valid() || v.Sign() < 0 || v.Compare(room) > 0 {
		faults = append(faults, fmt.Errorf("%s; want 0 to %s", v, room))
	}
	if err := errors.Join(faults...); err != nil {
		return s, fmt.Errorf("exchange: refill: %w", err)
	}
	return s.refilled(v, oldShare), nil
}

// Mix runs the gears: it closes the given share, 0 to 1, of the difference
// between the sump and the fluid held back. In a well-mixed box there is no
// difference and nothing changes.
func (s State) Mix(share float64) (State, error) {
	if err := s.usable(); err != nil {
		return s, fmt.Errorf("exchange: mix: %w", err)
	}
	if !systemIsShare(share) {
		return s, fmt.Errorf("exchange: mix: %w", systemShareFault("mixing share", share))
	}
	return s.mixed(share), nil
}

// OldShare returns the share of old fluid in all the box holds, 0 to 1. An
// empty box answers with the share of the fluid that was last in it.
func (s State) OldShare() float64 {
	if s.held.IsZero() {
		return s.sumpShare
	}
	a, b := s.weights()
	return min(1, float64(a*s.sumpShare)+float64(b*s.heldShare))
}

// Contents returns all the fluid in the box, exactly.
func (s State) Contents() units.Volume { return s.sump.Add(s.held) }

// System returns the box the state belongs to.
func (s State) System() System { return s.system }

func (s State) usable() error {
	if s.system.Capacity.IsZero() {
		return fmt.Errorf("%w; want a State made by Start", ErrNoBox)
	}
	return nil
}

func (s State) mostContents() units.Volume { return s.system.Capacity.Scale(stateMostFill) }

// weights are the shares of the contents in the sump and held back.
func (s State) weights() (sump, held float64) {
	all := s.Contents()
	return s.sump.Ratio(all), s.held.Ratio(all)
}

func (s State) drained(v units.Volume) State {
	s.sump = s.sump.Sub(v)
	return s
}

// refilled with new fluid is one product, and so the same bits as Remaining.
func (s State) refilled(v units.Volume, c float64) State {
	if v.IsZero() {
		return s
	}
	s.sumpShare = stateJoined(s.sump, s.sumpShare, v, c)
	s.sump = s.sump.Add(v)
	return s
}

// mixed moves both zones toward their common mean: mean - s is b(h - s) and
// mean - h is -a(h - s), so that what one loses the other gains.
func (s State) mixed(m float64) State {
	if s.held.IsZero() || m == 0 {
		return s
	}
	a, b := s.weights()
	gap := float64(m * (s.heldShare - s.sumpShare))
	sump := s.sumpShare + float64(b*gap)
	held := s.heldShare - float64(a*gap)
	s.sumpShare, s.heldShare = stateBetween(sump, s.sumpShare, s.heldShare), stateBetween(held, s.sumpShare, s.heldShare)
	return s
}

// stateBetween keeps a mixture between its two parts where rounding would not.
func stateBetween(x, p, q float64) float64 { return min(max(x, min(p, q)), max(p, q)) }

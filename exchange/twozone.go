package exchange

import (
	"fmt"

	"example.com/meniscus/units"
)

// DrainShare returns the old share, 0 to 1, of what the drain plug would release
// now. It is never above [State.OldShare] in a box that started all alike and
// was refilled with fluid no older than its own: a drained sample flatters.
func (s State) DrainShare() float64 { return s.sumpShare }

// HeldShare returns the old share of the fluid held back. In a well-mixed box
// that is the share of the whole.
func (s State) HeldShare() float64 {
	if s.held.IsZero() {
		return s.sumpShare
	}
	return s.heldShare
}

// SumpContents returns what stands where the drain plug reaches: in a well-mixed
// box all of it.
func (s State) SumpContents() units.Volume { return s.sump }

// Settle moves the boundary between the zones so that the sump holds v. Standing
// lets fluid run back from the converter into the sump, so that the first, cold
// drain releases another volume than later ones taken after running. The fluid
// that crosses takes its share with it and the total is unchanged. Only a box
// with a known sump can settle; v must lie between zero and the contents.
func (s State) Settle(v units.Volume) (State, error) {
	if err := s.usable(); err != nil {
		return s, fmt.Errorf("exchange: settle: %w", err)
	}
	if !s.system.twoZones() {
		return s, fmt.Errorf("exchange: settle: the sump is not known; want a System with a Sump")
	}
	if !v.Valid() || v.Sign() < 0 || v.Compare(s.Contents()) > 0 {
		return s, fmt.Errorf("exchange: settle: sump of %s; want 0 to the contents, %s", v, s.Contents())
	}
	return s.settled(v), nil
}

func (s State) settled(v units.Volume) State {
	moved := v.Sub(s.sump)
	if moved.Sign() > 0 {
		s.sumpShare = stateJoined(s.sump, s.sumpShare, moved, s.heldShare)
	}
	if moved.Sign() < 0 {
		s.heldShare = stateJoined(s.held, s.heldShare, moved.Neg(), s.sumpShare)
	}
	s.sump, s.held = v, s.held.Sub(moved)
	return s
}

// stateJoined is the share of a volume of one share joined by more of another.
func stateJoined(volume units.Volume, share float64, more units.Volume, moreShare float64) float64 {
	x := moreShare + float64((share-moreShare)*volume.Ratio(volume.Add(more)))
	return stateBetween(x, share, moreShare)
}

package exchange

import (
	"errors"
	"fmt"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// Flow is how new fluid moves through a box while old fluid leaves it. The zero
// value is not known.
type Flow uint8

const (
	// FlowUnknown gives the range from FlowPlug to FlowMixed.
	FlowUnknown Flow = iota
	// FlowMixed: what comes in is mixed with everything at once; old share exp(-θ).
	FlowMixed
	// FlowPlug: new pushes old out before it; old share 1 - θ, then 0.
	FlowPlug
	// FlowTanks: so many equal, mixed tanks one after the other, between the two.
	FlowTanks
)

// String returns "unknown", "mixed", "plug" or "tanks".
func (f Flow) String() string {
	switch f {
	case FlowMixed:
		return "mixed"
	case FlowPlug:
		return "plug"
	case FlowTanks:
		return "tanks"
	}
	return "unknown"
}

// ThroughFlow is a continuous exchange: new fluid in at one line while as much
// old fluid leaves at another. θ is the volume passed over the capacity.
type ThroughFlow struct {
	Capacity units.Volume // above 0, at most 500 L
	Volume   units.Volume // new fluid passed through; 0 to 10 000 L
	Flow     Flow
	Tanks    int // for FlowTanks only: 1 to 10 000
}

// Flushed is the state after a through-flow.
type Flushed struct {
	Theta   float64 // volume passed over capacity
	Share   Share   // old share of what remains in the box
	Outlet  Share   // old share of what leaves it at that moment
	Caveats []Caveat
	Steps   working.Steps
}

const (
	flowMostLitres = 10_000
	flowMostTanks  = 10_000
)

// Flush returns the old share left in a box that was full of old fluid, and the
// old share of what leaves it. They differ: a clean outlet proves nothing. Where
// the flow is not known the share is the range from plug to mixed, and the outlet's
// says next to nothing; a dead corner that the flow does not reach would be worse
// than mixed.
//
// Tanks in series use the Poisson form P(X <= N) - θ·P(X <= N-1) of mean Nθ (O.
// Levenspiel, Chemical Reaction Engineering, ch. 14), with positive terms only,
// in logs. Relative error below 1e-14·(10 + Nθ); results below 1e-300 are 0.
func (f ThroughFlow) Flush() (Flushed, error) {
	if err := f.faults(); err != nil {
		return Flushed{Share: allOld(), Outlet: allOld()}, fmt.Errorf("exchange: flush: %w", err)
	}
	r := Flushed{Theta: f.Volume.Ratio(f.Capacity), Caveats: []Caveat{CleanOutletProvesNothing}}
	switch f.Flow {
	case FlowUnknown:
		r.Share = Share{flowPlug(r.Theta), elementary.Exp(-r.Theta)}
		// An outlet that only falls has let out its present share of old fluid
		// or more all along, and never more than there was.
		r.Outlet = Share{0, min(1, 1/max(1, r.Theta))}
	default:
		x, out := f.at(r.Theta)
		r.Share, r.Outlet = Share{x, x}, Share{out, out}
	}
	r.Steps = f.steps(r)
	return r, nil
}

// VolumeTo returns the new fluid to pass until the target share is left, the
// Volume of f being ignored: C·ln(1/target) mixed, C·(1 - target) plug, and for
// tanks the solution of the same equation as Flush, to a relative 1e-12. Where the
// flow is not known it is the mixed one, the larger. The target must lie above 0
// and at most 1, 0 also for plug flow.
func (f ThroughFlow) VolumeTo(target float64) (units.Volume, error) {
	f.Volume = units.Volume{}
	faults := []error{f.faults()}
	if !systemIsShare(target) {
		faults = append(faults, systemShareFault("target", target))
	} else if target < flowLeastTarget && f.Flow != FlowPlug {
		faults = append(faults, fmt.Errorf("target %g is never reached; want %g to 1", target, flowLeastTarget))
	}
	if err := errors.Join(faults...); err != nil {
		return units.Volume{}, fmt.Errorf("exchange: volume to: %w", err)
	}
	var theta float64
	switch f.Flow {
	case FlowPlug:
		theta = 1 - target
	case FlowTanks:
		theta = flowSolve(f, target)
	default:
		theta = -elementary.Log(target) + 0
	}
	return f.Capacity.Scale(theta), nil
}

// flowLeastTarget is less than any share that could be told from none.
const flowLeastTarget = 1e-15

// at gives what remains and what leaves, for a known flow.
func (f ThroughFlow) at(theta float64) (share, outlet float64) {
	switch f.Flow {
	case FlowPlug:
		if theta < 1 {
			return flowPlug(theta), 1
		}
		return 0, 0
	case FlowTanks:
		return tanksShare(f.Tanks, theta), tanksOutlet(f.Tanks, theta)
	}
	x := elementary.Exp(-theta)
	return x, x
}

func flowPlug(theta float64) float64 { return max(0, 1-theta) }

// flowSolve halves the interval in which the share crosses the target: the share
// falls with theta and is at most that of the mixed box.
func flowSolve(f ThroughFlow, target float64) float64 {
	low, high := 0.0, -elementary.Log(target)
	for range 60 {
		mid := low + float64((high-low)/2)
		if x, _ := f.at(mid); x > target {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

func (f ThroughFlow) faults() error {
	faults := []error{systemCapacityFault(f.Capacity)}
	if most := units.Litre.Of(flowMostLitres); !f.Volume.Valid() || f.Volume.Sign() < 0 || f.Volume.Compare(most) > 0 {
		faults = append(faults, fmt.Errorf("volume: %s; want 0 to %s", f.Volume, most))
	}
	switch {
	case f.Flow > FlowTanks:
		faults = append(faults, fmt.Errorf("flow %d; want unknown, mixed, plug or tanks", uint8(f.Flow)))
	case f.Flow == FlowTanks && (f.Tanks < 1 || f.Tanks > flowMostTanks):
		faults = append(faults, fmt.Errorf("%d tanks; want 1 to %d", f.Tanks, flowMostTanks))
	case f.Flow != FlowTanks && f.Tanks != 0:
		faults = append(faults, fmt.Errorf("%d tanks with a flow that is %s; want none, or FlowTanks", f.Tanks, f.Flow))
	}
	return errors.Join(faults...)
}

func (f ThroughFlow) steps(r Flushed) working.Steps {
	var s working.Steps
	s = s.Add("θ", "V/C", stepLitres(f.Volume)+" / "+stepLitres(f.Capacity), shareText(r.Theta))
	formula, outlet := "exp(-θ)", "exp(-θ)"
	switch f.Flow {
	case FlowUnknown:
		formula, outlet = "max(0, 1 - θ) to exp(-θ)", "0 to 1/max(1, θ)"
	case FlowPlug:
		formula, outlet = "max(0, 1 - θ)", "1 while θ < 1, then 0"
	case FlowTanks:
		formula, outlet = "P(X <= N) - θ·P(X <= N-1), X Poisson of mean N·θ", "P(X <= N-1)"
	}
	s = s.Add("old share left in the box", formula, "", r.Share.String())
	return s.Add("old share of what leaves", outlet, "", r.Outlet.String())
}

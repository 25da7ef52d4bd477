package measure

import (
	"errors"
	"fmt"
	"math"
)

// Decision is what can be said of a quantity against limits at a stated risk.
type Decision struct {
	Verdict Verdict
	// The probabilities that the quantity lies inside the limits, below the low
	// one and above the high one; they add to 1.
	Inside, Below, Above float64
	Risk                 float64
	// A value from AcceptLow to AcceptHigh would be judged inside with this same
	// doubt; the strips between them and the limits are the guard bands. An end
	// without a limit is not set. CanAccept is false where the doubt is too large
	// for any value to be judged inside.
	AcceptLow, AcceptHigh float64
	CanAccept             bool
}

// Decide judges a reading against limits: inside where the probability of lying
// within them is at least 1 - risk, below or above where that of lying beyond one
// is, otherwise undecided (JCGM 106:2012 7.2 and 8.3.2, with guard bands set by
// the probability and not by a fixed multiple of u). The reading is
// taken as normal, or as Student's t where its degrees of freedom are finite; for
// other shapes use DecideOn. risk is the specific risk of a wrong "inside", above
// 0 and below 0.5. Bad limits or risk, and a reading that is not valid, are errors.
func Decide(l Limits, r Reading, risk float64) (Decision, error) {
	c, err := NewCurve(r, Student)
	if err != nil {
		return Decision{}, err
	}
	return DecideOn(l, c, risk)
}

// DecideOn is Decide for a distribution of any shape: a Curve, a simulated
// *Outcome, a Mixture. AcceptLow and AcceptHigh are then the medians that the
// distribution, moved as it is, could have.
func DecideOn(l Limits, on Distribution, risk float64) (Decision, error) {
	if err := errors.Join(l.check(), checkRisk(risk), checkDistribution(on)); err != nil {
		return Decision{}, fmt.Errorf("measure: decide: %w", err)
	}
	j := judge{limits: l, on: on, sure: 1 - risk}
	d := Decision{Risk: risk}
	d.Below, d.Above = j.beyond(0)
	if !isProbability(d.Below) || !isProbability(d.Above) {
		return Decision{}, fmt.Errorf("measure: decide: a distribution with probabilities %v and %v; want 0 to 1", d.Below, d.Above)
	}
	d.Inside = max(0, 1-d.Below-d.Above)
	switch {
	case d.Inside >= j.sure:
		d.Verdict = Inside
	case d.Below >= j.sure:
		d.Verdict = Below
	case d.Above >= j.sure:
		d.Verdict = Above
	}
	return d, j.accept(&d, risk)
}

func checkRisk(risk float64) error {
	if !(risk > 0 && risk < 0.5) {
		return fmt.Errorf("risk of %v; want a probability above 0 and below 0.5, such as 0.05", risk)
	}
	return nil
}

func checkDistribution(on Distribution) error {
	if on == nil {
		return errors.New("no distribution; want a Curve, an *Outcome or a Mixture")
	}
	_, err := on.Quantile(0.5)
	return err
}

func isProbability(p float64) bool { return p >= 0 && p <= 1 }

// judge asks where a distribution lies once moved along by a shift.
type judge struct {
	limits Limits
	on     Distribution
	sure   float64
}

// beyond returns the probabilities on the far side of each limit. A limit
// itself is inside, so below is strictly less: at most the next float down.
func (j judge) beyond(shift float64) (below, above float64) {
	if !j.limits.NoLow {
		below = j.on.CDF(before(j.limits.Low - shift))
	}
	if !j.limits.NoHigh {
		above = 1 - j.on.CDF(j.limits.High-shift)
	}
	return below, above
}

func (j judge) inside(shift float64) bool {
	below, above := j.beyond(shift)
	return 1-below-above >= j.sure
}

// accept finds the range of medians that would be judged inside.
func (j judge) accept(d *Decision, risk float64) error {
	median, err := j.on.Quantile(0.5)
	if err != nil {
		return err
	}
	low, errLow := j.on.Quantile(risk)
	high, errHigh := j.on.Quantile(1 - risk)
	if err := errors.Join(errLow, errHigh); err != nil {
		return err
	}
	l := j.limits
	switch {
	case l.NoHigh:
		d.AcceptLow, d.CanAccept = l.Low+(median-low), true
	case l.NoLow:
		d.AcceptHigh, d.CanAccept = l.High-(high-median), true
	default:
		middle := float64(l.Low/2) + float64(l.High/2)
		if d.CanAccept = j.inside(middle - median); !d.CanAccept {
			return nil
		}
		// With the median on a limit at least half lies beyond it, so each end is bracketed.
		d.AcceptLow = median + j.edge(middle-median, l.Low-median)
		d.AcceptHigh = median + j.edge(middle-median, l.High-median)
	}
	return nil
}

// edge halves the way from a shift that is inside to one that is not.
func (j judge) edge(in, out float64) float64 {
	if j.inside(out) {
		return out // no doubt at all: the limit itself
	}
	for range 64 {
		middle := float64(in/2) + float64(out/2)
		if middle == in || middle == out {
			break
		}
		if j.inside(middle) {
			in = middle
		} else {
			out = middle
		}
	}
	return in
}

// before is the next float64 down.
func before(x float64) float64 {
	switch {
	case x > 0:
		return math.Float64frombits(math.Float64bits(x) - 1)
	case x == 0:
		return -math.SmallestNonzeroFloat64
	}
	return math.Float64frombits(math.Float64bits(x) + 1)
}

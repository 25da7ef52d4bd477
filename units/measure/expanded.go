package measure

import (
	"fmt"
	"math"

	"example.com/meniscus/internal/elementary"
)

// Expanded is an expanded uncertainty: value ± U covers the quantity with
// probability Coverage, where U = K·u.
type Expanded struct {
	Coverage float64 // probability, such as 0.95
	K        float64 // coverage factor
	U        float64 // expanded uncertainty, in the reading's unit
	DoF      float64 // effective degrees of freedom; 0 for infinite
}

// endless is from where degrees of freedom are as good as infinite: Student's t
// then differs from the normal distribution by less than a part in 1e8.
const endless = 1e9

// DoF returns the effective degrees of freedom of the standard uncertainty by
// the Welch-Satterthwaite formula, u⁴/Σ(uᵢ⁴/νᵢ) over the causes (JCGM 100:2008
// G.4.1), not truncated; 0 means infinite, as where every cause is known, and
// stands for anything above 1e9 too. No doubt at all, or a reading that is not
// valid, also gives 0.
func (r Reading) DoF() float64 {
	u := r.U()
	if u == 0 || r.doubt.fault != nil {
		return 0
	}
	sum := 0.0
	for _, t := range r.doubt.terms {
		if t.Cause.dof == 0 {
			continue
		}
		share := t.Scale / u
		share *= share
		sum += float64(share*share) / t.Cause.dof
	}
	if dof := 1 / sum; dof < endless {
		return dof
	}
	return 0
}

// Expanded returns the expanded uncertainty that covers with probability p. The
// factor is Student's t at the effective degrees of freedom, truncated to a
// whole number as JCGM 100:2008 G.4.1 allows, or the normal one where they are
// infinite. That is right where several causes of like size add up; where one
// rectangle rules, it is too wide, and Simulate gives the interval. p outside
// (0, 1), or too near an end, and a reading that is not valid are errors.
func (r Reading) Expanded(p float64) (Expanded, error) {
	if r.doubt.fault != nil {
		return Expanded{}, r.doubt.fault
	}
	dof := r.DoF()
	k, err := coverageFactor(p, dof)
	if err != nil {
		return Expanded{}, err
	}
	e := Expanded{Coverage: p, K: k, U: k * r.U(), DoF: dof}
	if !finite(e.U) {
		return Expanded{}, overflow().fault
	}
	return e, nil
}

func coverageFactor(p, dof float64) (float64, error) {
	if err := probability("coverage", p); err != nil {
		return 0, err
	}
	tail := (1 - p) / 2
	k := -elementary.NormalQuantile(tail)
	if dof != 0 {
		// Causes have at least 1, so the effective number cannot be less; a
		// rounding error must not make it so.
		k = -elementary.StudentQuantile(tail, math.Max(1, math.Floor(dof)))
	}
	if !finite(k) {
		return 0, fmt.Errorf("measure: coverage %v is too near 1; want a probability that leaves some risk", p)
	}
	return math.Max(k, 0), nil
}

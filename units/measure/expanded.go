package measure

import (
	"errors"
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

// DoF returns the effective degrees of freedom of the standard uncertainty by
// the Welch-Satterthwaite formula, u⁴/Σ(uᵢ⁴/νᵢ) over the causes (JCGM 100:2008
// G.4.1), not truncated; 0 means infinite, as where every cause is known. No
// doubt at all, or a reading that is not valid, also gives 0.
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
	if dof := 1 / sum; sum > 0 && finite(dof) {
		return dof
	}
	return 0
}

// Expanded returns the expanded uncertainty that covers with probability p. The
// factor is Student's t at the effective degrees of freedom, truncated to a
// whole number as JCGM 100:2008 G.4.1 allows, or the normal one where they are
// infinite. That is right where several causes of like size add up; where one rectangle rules, it
// is too wide, and Simulate gives the interval. p outside (0, 1), or too near an
// end, and a reading that is not valid are errors.
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

// Observed returns the mean of repeated observations and its doubt by Type A
// evaluation: s/√n with n-1 degrees of freedom, a Student cause (JCGM 100:2008
// 4.2.3). Fewer than two observations leave zero degrees of freedom and are an
// error, as is one that is not finite.
func Observed(id, label string, observations ...float64) (Reading, error) {
	n := float64(len(observations))
	if n < 2 {
		return Reading{}, fmt.Errorf("measure: cause %s: %d observations leave zero degrees of freedom; want at least 2", quote(id), len(observations))
	}
	mean, s, err := meanAndDeviation(observations)
	if err != nil {
		return Reading{}, fmt.Errorf("measure: cause %s: %w", quote(id), err)
	}
	c, err := NewCause(id, label, Student, n-1)
	if err != nil {
		return Reading{}, err
	}
	return New(mean, Term{c, s / math.Sqrt(n)})
}

func meanAndDeviation(x []float64) (mean, s float64, err error) {
	n := float64(len(x))
	for i, v := range x {
		if !finite(v) {
			return 0, 0, fmt.Errorf("observation %d is %v; want a finite number", i+1, v)
		}
		mean += v / n
	}
	square := 0.0
	for _, v := range x {
		d := v - mean
		square += float64(d*d) / (n - 1)
	}
	if !finite(square) {
		return 0, 0, errors.New("observations spread too far to square; want a smaller unit")
	}
	return mean, math.Sqrt(square), nil
}

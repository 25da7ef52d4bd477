package measure

import (
	"errors"
	"fmt"
	"math"
)

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

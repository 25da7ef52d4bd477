package measure

import (
	"errors"
	"fmt"
	"math"
)

// mostQuantiles bounds a table, and so what a stored record can hold.
const mostQuantiles = 4097

// FromQuantiles returns a reading whose shape is the caller's own: quantiles in
// the reading's unit at equal steps of probability, first the least possible
// value, last the largest, the middle one (of an odd number) the median;
// between them the quantile function is taken as straight. The value is the
// mean, the standard uncertainty the standard deviation of that shape, both
// exact for it. Fewer than 2 or more than 4097 values, any that is not finite
// or less than the one before, and values all equal are errors.
func FromQuantiles(id, label string, quantiles []float64) (Reading, error) {
	if err := checkTable(quantiles); err != nil {
		return Reading{}, fmt.Errorf("measure: cause %s: %w", quote(id), err)
	}
	mean, sd := tableMoments(quantiles)
	if !finite(mean) || !finite(sd) || sd == 0 {
		return Reading{}, fmt.Errorf("measure: cause %s: quantiles with mean %v and standard deviation %v; want a spread that is finite and not 0", quote(id), mean, sd)
	}
	table := make([]float64, len(quantiles))
	for i, q := range quantiles {
		table[i] = (q - mean) / sd
	}
	c, err := newCause(Cause{id: id, label: label, shape: Tabled, table: table})
	if err != nil {
		return Reading{}, err
	}
	return New(mean, Term{c, sd})
}

func checkTable(q []float64) error {
	if len(q) < 2 || len(q) > mostQuantiles {
		return fmt.Errorf("%d quantiles; want 2 to %d", len(q), mostQuantiles)
	}
	for i, x := range q {
		if !finite(x) {
			return fmt.Errorf("quantile %d is %v; want a finite number", i, x)
		}
		if i > 0 && x < q[i-1] {
			return fmt.Errorf("quantile %d is %v after %v; want them in rising order", i, x, q[i-1])
		}
	}
	return nil
}

// tableMoments integrates the straight pieces exactly: the mean of one from a to
// b is (a+b)/2, its mean square (a²+ab+b²)/3.
func tableMoments(q []float64) (mean, sd float64) {
	pieces := float64(len(q) - 1)
	for i := 1; i < len(q); i++ {
		mean += (float64(q[i-1]/2) + float64(q[i]/2)) / pieces
	}
	square := 0.0
	for i := 1; i < len(q); i++ {
		a, b := q[i-1]-mean, q[i]-mean
		square += (float64(a*a) + float64(a*b) + float64(b*b)) / (3 * pieces)
	}
	return mean, math.Sqrt(square)
}

// checkStandard refuses a stored table that is not of mean 0 and deviation 1.
func checkStandard(q []float64) error {
	if err := checkTable(q); err != nil {
		return err
	}
	mean, sd := tableMoments(q)
	if !(math.Abs(mean) < 1e-9 && math.Abs(sd-1) < 1e-9) {
		return errors.New("quantiles are not standardised; want mean 0 and standard deviation 1")
	}
	return nil
}

// tableQuantile reads the straight-line quantile function at 0 <= p < 1.
func tableQuantile(q []float64, p float64) float64 {
	x := float64(p * float64(len(q)-1))
	i := min(int(x), len(q)-2)
	return q[i] + float64((x-float64(i))*(q[i+1]-q[i]))
}

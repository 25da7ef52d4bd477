package measure

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"example.com/meniscus/units"
)

// Outcome is the distribution a simulation found. It may be used by several
// goroutines at once.
type Outcome struct {
	trials      int
	mean, u     float64
	least, most float64
	bins        bins
	counts      []uint64

	mu     sync.Mutex // guards kept, which selection rearranges
	kept   []float64
	sorted bool
}

// Interval holds a quantity with probability Coverage.
type Interval struct {
	Low, High, Coverage float64
}

// Width returns High - Low; units.Huge where that is not a finite number.
func (i Interval) Width() float64 {
	if w := i.High - i.Low; finite(w) {
		return w
	}
	return units.Huge
}

// Trials returns how many trials were made; 0 for the zero value.
func (o *Outcome) Trials() int {
	if o == nil {
		return 0
	}
	return o.trials
}

// Mean returns the average of the results, to about 1e-15 of their size.
func (o *Outcome) Mean() float64 {
	if o.Trials() == 0 {
		return units.Huge
	}
	return o.mean
}

// U returns the standard deviation of the results.
func (o *Outcome) U() float64 {
	if o.Trials() == 0 {
		return units.Huge
	}
	return o.u
}

// Range returns the least and the largest result met.
func (o *Outcome) Range() (least, most float64) {
	if o.Trials() == 0 {
		return -units.Huge, units.Huge
	}
	return o.least, o.most
}

// Quantile returns the result that is not exceeded with probability p: where
// the values were kept the order statistic of rank p·n + 1/2 cut to a whole
// number (JCGM 101:2008 7.7), otherwise a straight line across the bin it lies
// in, right to within Resolution(p) of that. A p outside (0, 1) and an outcome
// of no simulation are errors.
func (o *Outcome) Quantile(p float64) (float64, error) {
	if err := o.check("quantile", p); err != nil {
		return 0, err
	}
	if o.kept != nil {
		return o.ranked(p), nil
	}
	return o.binned(p), nil
}

// Resolution returns how far Quantile(p) may be from the order statistic: the
// width of its bin, 0 where the values were kept. Near the middle of a normal
// distribution that is about 0.0007 of a standard deviation, below what 1e6
// trials settle.
func (o *Outcome) Resolution(p float64) (float64, error) {
	if err := o.check("resolution", p); err != nil {
		return 0, err
	}
	if o.kept != nil {
		return 0, nil
	}
	i, _ := o.find(o.rank(p))
	low, high := o.bounds(i)
	return high - low, nil
}

// StandardError returns how much Quantile(p) would vary from seed to seed:
// √(p(1-p)/n) over the density there, which is taken from the distance between
// quantiles five such steps to either side, or fewer near an end. A p outside
// (0, 1), or so near an end that less than one step is left, is an error.
func (o *Outcome) StandardError(p float64) (float64, error) {
	if err := o.check("standard error", p); err != nil {
		return 0, err
	}
	d, end := math.Sqrt(float64(p*(1-p))/float64(o.trials)), math.Min(p, 1-p)
	if d >= end {
		return 0, fmt.Errorf("measure: standard error at %v of %d trials; want more trials or a probability further from 0 and 1", p, o.trials)
	}
	steps := math.Min(5, 0.5*(1+end/d))
	low, err := o.Quantile(p - float64(steps*d))
	if err != nil {
		return 0, err
	}
	high, err := o.Quantile(p + float64(steps*d))
	if err != nil {
		return 0, err
	}
	return (float64(high/2) - float64(low/2)) / steps, nil
}

// Interval returns the interval that leaves (1-p)/2 on either side (JCGM 101:2008
// 7.7, "probabilistically symmetric"). A p outside (0, 1) is an error.
func (o *Outcome) Interval(p float64) (Interval, error) {
	if err := o.check("interval", p); err != nil {
		return Interval{}, err
	}
	low, err := o.Quantile((1 - p) / 2)
	if err != nil {
		return Interval{}, err
	}
	high, err := o.Quantile(0.5 + float64(p/2))
	return Interval{low, high, p}, err
}

// CDF returns the share of results that are at most x; where the values were
// not kept, a straight line across the bin of x. An outcome of no simulation
// gives 0.
func (o *Outcome) CDF(x float64) float64 {
	if o.Trials() == 0 || math.IsNaN(x) || x < o.least {
		return 0
	}
	if x >= o.most {
		return 1
	}
	if o.kept != nil {
		sorted := o.order()
		i, _ := slices.BinarySearchFunc(sorted, x, func(v, x float64) int {
			if v <= x {
				return -1
			}
			return 1
		})
		return float64(i) / float64(o.trials)
	}
	return o.binnedCDF(x)
}

func (o *Outcome) check(what string, p float64) error {
	if o.Trials() == 0 {
		return errNoOutcome
	}
	return probability(what, p)
}

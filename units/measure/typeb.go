package measure

import (
	"fmt"
	"math"

	"example.com/meniscus/internal/elementary"
)

// FromHalfWidth returns the standard uncertainty of limits ±a: a/√3 rectangular,
// a/√6 triangular, a/√2 arcsine (JCGM 100:2008 4.3.7, 4.3.9; JCGM 101:2008
// 6.4.6). a is in any unit and the answer in the same. A negative or
// infinite a, and the shapes that have no limits, are errors.
func FromHalfWidth(shape Shape, a float64) (float64, error) {
	if err := notNegative("half-width", a); err != nil {
		return 0, err
	}
	switch shape {
	case Rectangular:
		return a / math.Sqrt(3), nil
	case Triangular:
		return a / math.Sqrt(6), nil
	case Arcsine:
		return a / math.Sqrt2, nil
	}
	return 0, fmt.Errorf("measure: the %s shape has no half-width; want rectangular, triangular or arcsine, or FromExpanded", shape)
}

// FromResolution returns the standard uncertainty of reading to the nearest
// step d: d/√12, a rectangle of half a step each way (JCGM 100:2008 F.2.2.1). A
// negative or infinite d is an error.
func FromResolution(d float64) (float64, error) {
	if err := notNegative("resolution", d); err != nil {
		return 0, err
	}
	return d / math.Sqrt(12), nil
}

// FromExpanded returns the standard uncertainty of a certificate that states
// ±U at coverage factor k: U/k (JCGM 100:2008 4.3.3). A negative or infinite U, and a
// k that is not a finite number above 0, are errors.
func FromExpanded(U, k float64) (float64, error) {
	if err := notNegative("expanded uncertainty", U); err != nil {
		return 0, err
	}
	if !finite(k) || k <= 0 || !finite(U/k) {
		return 0, fmt.Errorf("measure: coverage factor %v; want a finite number above 0, usually 2", k)
	}
	return U / k, nil
}

// FromCoverage returns the standard uncertainty of a statement "±U with
// probability p", taken as normal: U over the quantile at (1+p)/2 (JCGM 100:2008
// 4.3.4). A negative or infinite U, and a p outside (0, 1), are errors.
func FromCoverage(U, p float64) (float64, error) {
	if err := notNegative("expanded uncertainty", U); err != nil {
		return 0, err
	}
	k, err := normalFactor(p)
	if err != nil {
		return 0, err
	}
	return FromExpanded(U, k)
}

// normalFactor is the k that covers p of a normal distribution.
func normalFactor(p float64) (float64, error) {
	if err := probability("coverage", p); err != nil {
		return 0, err
	}
	return -elementary.NormalQuantile((1 - p) / 2), nil
}

func notNegative(what string, x float64) error {
	if !finite(x) || x < 0 {
		return fmt.Errorf("measure: %s of %v; want a finite number, 0 or more", what, x)
	}
	return nil
}

// probability also refuses what is too near 0 or 1 to work with.
func probability(what string, p float64) error {
	if !(p > 0 && p < 1) {
		return fmt.Errorf("measure: %s of %v; want a probability between 0 and 1, ends excluded", what, p)
	}
	return nil
}

package measure

import (
	"errors"
	"fmt"
	"math"

	"example.com/meniscus/units"
)

// Agreement says whether two readings of one quantity can both be right.
type Agreement struct {
	Difference Reading // a - b, shared causes cancelled
	Zeta       float64 // |a - b| over the standard uncertainty of a - b
	Compatible bool    // Zeta is at most 2
}

// mostZeta is the usual limit of a zeta score, near 95 % where normal.
const mostZeta = 2

// Agree compares two readings of one quantity by their zeta score |a - b|/u(a -
// b), compatible up to 2 (VIM 2.47, metrological compatibility). Doubt the two
// share cancels, so two readings of one probe are held to its repeatability,
// not its tolerance. Where a - b has no doubt, equal readings score 0 and
// others units.Huge. Readings that are not valid are an error.
func Agree(a, b Reading) (Agreement, error) {
	d := a.Minus(b)
	if err := d.Err(); err != nil {
		return Agreement{}, err
	}
	z := zeta(d)
	return Agreement{Difference: d, Zeta: z, Compatible: z <= mostZeta}, nil
}

func zeta(d Reading) float64 {
	distance, u := math.Abs(d.value), d.U()
	switch {
	case distance == 0:
		return 0
	case u == 0:
		return units.Huge
	}
	return math.Min(distance/u, units.Huge)
}

// String says it in words, such as "compatible (zeta 1.89)".
func (a Agreement) String() string {
	word := "incompatible"
	if a.Compatible {
		word = "compatible"
	}
	return fmt.Sprintf("%s (zeta %.3g)", word, a.Zeta)
}

// ErrDisagree is wrapped where readings of one quantity contradict each other.
var ErrDisagree = errors.New("readings disagree")

// mostAveraged bounds the work of comparing every pair.
const mostAveraged = 1000

// WeightedMean returns the mean of readings of one quantity, each weighted by
// 1/u², with its doubt including what the readings share. A reading without doubt
// outweighs all others. The mean is the one of least doubt where the readings
// share nothing, and honest about its doubt where they do.
//
// Readings that contradict each other in any pair are an error that names every
// such pair and wraps ErrDisagree: find which is wrong, do not average. So are no
// readings, and readings that are not valid.
func WeightedMean(readings ...Reading) (Reading, error) {
	if len(readings) == 0 || len(readings) > mostAveraged {
		return Reading{}, fmt.Errorf("measure: mean of %d readings; want 1 to %d", len(readings), mostAveraged)
	}
	if err := allAgree(readings); err != nil {
		return Reading{}, fmt.Errorf("measure: mean: %w", err)
	}
	weights := meanWeights(readings)
	value, parts := 0.0, make([]Part, len(readings))
	for i, r := range readings {
		// From the first reading, so that large values lose no digits.
		value += float64(weights[i] * (r.value - readings[0].value))
		parts[i] = Part{r, weights[i]}
	}
	return Combine(readings[0].value+value, parts...)
}

func allAgree(readings []Reading) error {
	var faults []error
	for i, a := range readings {
		if a.doubt.fault != nil {
			faults = append(faults, fmt.Errorf("reading %d: %w", i+1, a.doubt.fault))
			continue
		}
		for j, b := range readings[:i] {
			if g, err := Agree(b, a); err != nil {
				faults = append(faults, err)
			} else if !g.Compatible {
				faults = append(faults, fmt.Errorf("readings %d (%v) and %d (%v) have zeta %.3g: %w; want at most %d, or one of them measured again",
					j+1, b, i+1, a, g.Zeta, ErrDisagree, mostZeta))
			}
		}
	}
	return errors.Join(faults...)
}

// meanWeights returns weights in proportion to 1/u² that add to 1.
func meanWeights(readings []Reading) []float64 {
	least := units.Huge
	for _, r := range readings {
		least = math.Min(least, r.U())
	}
	weights, sum := make([]float64, len(readings)), 0.0
	for i, r := range readings {
		if u := r.U(); u == least {
			weights[i] = 1
		} else {
			weights[i] = (least / u) * (least / u) // 0 beside a reading without doubt
		}
		sum += weights[i]
	}
	for i := range weights {
		weights[i] /= sum
	}
	return weights
}

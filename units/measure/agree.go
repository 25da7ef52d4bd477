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

// String says it in words, such as "compatible (zeta 1.89)"; "not valid" where Zeta
// is no number Agree gives.
func (a Agreement) String() string {
	if !finite(a.Zeta) || a.Zeta < 0 {
		return notValid
	}
	word := "incompatible"
	if a.Compatible {
		word = "compatible"
	}
	return fmt.Sprintf("%s (zeta %.3g)", word, a.Zeta)
}

// ErrDisagree is wrapped where readings of one quantity contradict each other.
var ErrDisagree = errors.New("readings disagree")

// Bounds on the work of comparing every pair: terms are counted over all readings.
const (
	mostAveraged      = 200
	mostAveragedTerms = 10_000
)

// WeightedMean returns the mean of readings of one quantity, each weighted by
// 1/u², with its doubt including what the readings share. A reading without doubt
// outweighs all others. The mean is the one of least doubt where the readings
// share nothing, and honest about its doubt where they do.
//
// Readings that contradict each other in any pair are an error that names the
// first ten such pairs and wraps ErrDisagree: find which is wrong, do not average.
// So are no readings, more than 200, readings with more than 10 000 terms
// together, and readings that are not valid.
func WeightedMean(readings ...Reading) (Reading, error) {
	if len(readings) == 0 || len(readings) > mostAveraged {
		return Reading{}, fmt.Errorf("measure: mean of %d readings; want 1 to %d", len(readings), mostAveraged)
	}
	terms := 0
	for _, r := range readings {
		terms += len(r.doubt.terms)
	}
	if terms > mostAveragedTerms {
		return Reading{}, fmt.Errorf("measure: mean of readings with %d terms together; want at most %d, or fewer readings at once", terms, mostAveragedTerms)
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
	var faults told
	var room []Term
	astray := false // a pair that disagrees and is not told
	for i, a := range readings {
		if a.doubt.fault != nil {
			faults.add(fmt.Errorf("reading %d: %w", i+1, a.doubt.fault))
			continue
		}
		for j, b := range readings[:i] {
			if b.doubt.fault != nil {
				continue // told already
			}
			var agree bool
			switch room, agree = agreeIn(room, b, a); {
			case agree:
			case faults.full():
				faults.more++
				astray = true
			default:
				faults.add(disagreement(j, i, b, a))
			}
		}
	}
	err := faults.join()
	if astray && !errors.Is(err, ErrDisagree) {
		return fmt.Errorf("%w: %w", err, ErrDisagree)
	}
	return err
}

// disagreement says why readings i and j cannot be averaged.
func disagreement(i, j int, a, b Reading) error {
	g, err := Agree(a, b)
	if err != nil {
		return err
	}
	return fmt.Errorf("readings %d (%v) and %d (%v) have zeta %.3g: %w; want at most %d, or one of them measured again",
		i+1, a, j+1, b, g.Zeta, ErrDisagree, mostZeta)
}

// agreeIn is Agree(a, b) alone, to the bit, without a reading of its own: the terms
// of a - b are laid out in room, which it gives back for the next pair.
func agreeIn(room []Term, a, b Reading) ([]Term, bool) {
	room, ok := minusIn(room[:0], a.doubt.terms, b.doubt.terms)
	d := Reading{a.value + float64(-1*b.value), doubt{terms: room}}
	return room, ok && finite(d.value) && zeta(d) <= mostZeta
}

// minusIn appends the terms of a - b, both sorted by id: false where they overflow
// or one id has two meanings.
func minusIn(room []Term, a, b []Term) ([]Term, bool) {
	for len(a) > 0 || len(b) > 0 {
		t := Term{}
		switch {
		case len(b) == 0 || len(a) > 0 && a[0].Cause != b[0].Cause && a[0].Cause.id < b[0].Cause.id:
			t, a = a[0], a[1:]
		case len(a) == 0 || a[0].Cause != b[0].Cause && a[0].Cause.id > b[0].Cause.id:
			t, b = Term{b[0].Cause, b[0].Scale * -1}, b[1:]
		case !a[0].Cause.same(b[0].Cause):
			return room, false
		default:
			t, a, b = Term{a[0].Cause, a[0].Scale + float64(b[0].Scale*-1)}, a[1:], b[1:]
		}
		if !finite(t.Scale) {
			return room, false
		}
		if t.Scale != 0 {
			room = append(room, t)
		}
	}
	return room, true
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

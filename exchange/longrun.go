package exchange

import (
	"errors"
	"fmt"
	"math"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// LongRun is what equal cycles of a two-zone box settle to.
type LongRun struct {
	PerCycle float64 // factor by which one more cycle multiplies the old share, in the end
	Fading   float64 // factor of the part that dies away: how soon PerCycle is the whole story
	Caveats  []Caveat
	Steps    working.Steps
}

// LongRunFactor returns the factors of one cycle of drain, refill and mixing:
// the eigenvalues, larger and smaller, of
//
//	[1-m+mS/C  mH/C    ]   [1-d/S  0]
//	[mS/C      1-m+mH/C] · [0      1]
//
// so that the old share after many cycles falls by PerCycle each. A well-mixed
// box has 1 - d/C and 0. Relative error below 1e-14. The drain must lie between 0
// and the sump (the capacity, where the sump is not known).
func LongRunFactor(sys System, drain units.Volume) (LongRun, error) {
	if err := remainingFaults(sys, []units.Volume{drain}); err != nil {
		return LongRun{PerCycle: 1, Fading: 1}, fmt.Errorf("exchange: long run: %w", err)
	}
	if !sys.twoZones() {
		x := remainingFactor(sys.Capacity, drain)
		return LongRun{PerCycle: x, Steps: working.Steps{}.Add("factor per cycle", "1 - d/C", planFactorText(1, drain, sys.Capacity), shareText(x))}, nil
	}
	m, a, b := sys.Mixing, sys.Sump.Ratio(sys.Capacity), sys.Held().Ratio(sys.Capacity)
	keep := remainingFactor(sys.Sump, drain)
	trace, product := longRunTerms(m, a, b, keep)
	// Half the difference of the eigenvalues, without subtracting squares that
	// are nearly equal: (A11 - A22)² + 4·A12·A21 over 4, all of it positive.
	half := float64((float64(keep*(1-float64(m*b))) - (1 - float64(m*a))) / 2)
	off := float64(float64(m*m) * float64(float64(a*b)*keep))
	larger := min(1, float64(trace/2)+math.Sqrt(float64(half*half)+off))
	r := LongRun{PerCycle: larger, Caveats: []Caveat{MixingIsWhatIf}}
	if larger > 0 {
		r.Fading = min(larger, product/larger)
	}
	r.Steps = longRunSteps(sys, drain, trace, product, r)
	return r, nil
}

// longRunTerms are the sum τ = 1 + ρ - m(a + ρb) and the product ρ(1 - m) of the
// two factors, ρ = 1 - d/S.
func longRunTerms(m, a, b, keep float64) (sum, product float64) {
	sum = 1 + keep - float64(m*(a+float64(keep*b)))
	return sum, float64(keep * (1 - m))
}

func longRunSteps(sys System, drain units.Volume, sum, product float64, r LongRun) working.Steps {
	var s working.Steps
	s = s.Add("ρ", "1 - d/S", planFactorText(1, drain, sys.Sump), shareText(remainingFactor(sys.Sump, drain)))
	s = s.Add("sum of the factors", "1 + ρ - m(S/C + ρ·H/C)", fmt.Sprintf("m = %g", sys.Mixing), shareText(sum))
	s = s.Add("product of the factors", "ρ(1 - m)", "", shareText(product))
	return s.Add("factor per cycle", "(sum + √(sum² - 4·product))/2", "", shareText(r.PerCycle))
}

// MixingRun is a run of the gears as a flow between sump and fluid held back.
type MixingRun struct {
	Flow    units.Volume // exchanged per minute, each way; 0 to 500 L
	Minutes float64      // 0 to 100 000
	Sump    units.Volume // above 0
	Held    units.Volume // above 0
}

const longRunMostMinutes = 100_000

// Share returns the share, 0 to 1, of the difference between the zones that the
// run closes: m = 1 - exp[-q·t·(1/S + 1/H)]. Relative error below 1e-14. It is as
// good as the flow, which no workshop measures: a what-if.
func (r MixingRun) Share() (float64, error) {
	var faults []error
	if r.Flow.Sign() < 0 || !r.Flow.Valid() || r.Flow.Compare(units.Litre.Of(systemMostLitres)) > 0 {
		faults = append(faults, fmt.Errorf("flow: %s a minute; want 0 to %d L", r.Flow, systemMostLitres))
	}
	if !(r.Minutes >= 0 && r.Minutes <= longRunMostMinutes) {
		faults = append(faults, fmt.Errorf("minutes: %g; want 0 to %d", r.Minutes, longRunMostMinutes))
	}
	for _, zone := range [...]struct {
		name string
		of   units.Volume
	}{{"sump", r.Sump}, {"held", r.Held}} {
		if systemCapacityFault(zone.of) != nil {
			faults = append(faults, fmt.Errorf("%s: %s; want more than 0 to %d L", zone.name, zone.of, systemMostLitres))
		}
	}
	if err := errors.Join(faults...); err != nil {
		return 0, fmt.Errorf("exchange: mixing share: %w", err)
	}
	turns := r.Flow.Ratio(r.Sump) + r.Flow.Ratio(r.Held)
	return longRunClosed(turns, r.Minutes), nil
}

func longRunClosed(turns, minutes float64) float64 {
	// Past exp(-745) the difference is closed to the last bit; the product may
	// be too large for a float64 and must not reach the exponential.
	x := turns * minutes
	if x > 745 {
		return 1
	}
	return -elementary.Expm1(-x) + 0
}

package exchange

import (
	"fmt"
	"math"

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
	s = s.Add("sum of the factors", "1 + ρ - m(S/C + ρ·H/C)", "m = "+shareText(sys.Mixing), shareText(sum))
	s = s.Add("product of the factors", "ρ(1 - m)", "", shareText(product))
	return s.Add("factor per cycle", "(sum + √(sum² - 4·product))/2", "", shareText(r.PerCycle))
}

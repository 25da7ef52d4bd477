package exchange

import (
	"fmt"
	"strconv"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// CyclesSteps returns the working of [Cycles] and [RealCycles]: the factor of one
// cycle, the number whole or not by logarithms, the share just before and at the
// whole number, and the number. Shares are printed to four decimals, the number
// that need not be whole to three. Faults as for Cycles.
func CyclesSteps(target float64, capacity, drain units.Volume) (working.Steps, error) {
	n, err := Cycles(target, capacity, drain)
	if err != nil {
		return nil, err
	}
	factor := remainingFactor(capacity, drain)
	k := shareText(factor)
	s := working.Steps{}.Add("factor of one cycle", "1 - d/C", "1 - "+stepLitres(drain)+" / "+stepLitres(capacity), k)
	if exact, err := RealCycles(target, capacity, drain); err == nil {
		s = s.Add("cycles, whole or not", "ln(target)/ln(1 - d/C)", "ln("+shareText(target)+")/ln("+k+")", strconv.FormatFloat(exact, 'f', 3, 64))
	}
	for i := max(0, n-1); i <= n; i++ {
		s = s.Add("old share after "+strconv.Itoa(i), "(1 - d/C)^n", k+"^"+strconv.Itoa(i),
			fmt.Sprintf("%s against %s", shareText(cyclesShare(factor, i)), shareText(target)))
	}
	return s.Add("cycles", "fewest whole number that meets the target", "", strconv.Itoa(n)), nil
}

// cyclesShare multiplies as the search does, so that the working shows its share.
func cyclesShare(factor float64, n int) float64 {
	x := 1.0
	for range n {
		x *= factor
	}
	return x
}

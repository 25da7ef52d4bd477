package exchange

import (
	"strconv"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// DrainForSteps returns the working of [DrainFor]: what each of n equal drains must
// take, and that share of the capacity. Shares are printed to four decimals, volumes
// to a millilitre. Faults as there.
func DrainForSteps(target float64, capacity units.Volume, n int) (working.Steps, error) {
	d, err := DrainFor(target, capacity, n)
	if err != nil {
		return nil, err
	}
	s, taken := inverseTakenStep(target, n)
	return s.Add("drain", "C·t", stepLitres(capacity)+" × "+taken, stepLitres(d)), nil
}

// CapacityForSteps returns the working of [CapacityFor]: what each of n equal drains
// must take, and the capacity of which the drain is that share. Printed as by
// [DrainForSteps]; faults as for CapacityFor.
func CapacityForSteps(target float64, drain units.Volume, n int) (working.Steps, error) {
	c, err := CapacityFor(target, drain, n)
	if err != nil {
		return nil, err
	}
	s, taken := inverseTakenStep(target, n)
	return s.Add("largest capacity", "d/t", stepLitres(drain)+" / "+taken, stepLitres(c)), nil
}

func inverseTakenStep(target float64, n int) (s working.Steps, taken string) {
	taken = shareText(inverseTaken(target, n))
	return s.Add("share each drain must take", "t = 1 - target^(1/n)", "1 - "+shareText(target)+"^(1/"+strconv.Itoa(n)+")", taken), taken
}

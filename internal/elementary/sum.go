package elementary

import "math"

// Sum adds from first to last and carries what each addition loses, so that
// the error is below 1 ulp of the result as long as the terms do not cancel to
// less than 2^-50/len(x) of the sum of their sizes (Neumaier, ZAMM 54, 1974).
// The sum of nothing is 0. Infinities, NaN and overflow give what plain
// addition in that order gives.
func Sum(x []float64) float64 {
	sum, lost := 0.0, 0.0
	for _, v := range x {
		s := twoSum(sum, v)
		sum = s.hi
		lost += s.lo
	}
	if math.Abs(sum) <= math.MaxFloat64 {
		return sum + lost
	}
	return sum
}

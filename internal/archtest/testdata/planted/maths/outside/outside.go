// path: exchange

// Package outside lets NaN and infinity out.
package outside

import "math"

func Bad(x float64) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return math.NaN() // want
	}
	if x < 0 {
		return math.Inf(-1) // want
	}
	return math.Max(x, math.SmallestNonzeroFloat64)
}

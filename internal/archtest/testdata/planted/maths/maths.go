// path: internal/elementary

// Package maths takes from math what differs between processors.
package maths

import (
	m "math"
)

func Mix(x float64) float64 {
	x = m.Sqrt(x) * m.Floor(x) * m.Pi * m.MaxFloat64 * m.Inf(1) * m.NaN()
	x *= m.Exp(x)    // want
	x *= m.Pow(x, 2) // want
	x *= m.Log1p(x)  // want
	f := m.Hypot     // want
	return f(x, x)
}

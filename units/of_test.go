package units

import (
	"math"
	"testing"
)

func TestOfAgreesWithDecimals(t *testing.T) {
	xs := manyFloats(300)
	eachUnit(func(c code) {
		per := perUnit(c)
		for _, x := range xs {
			if math.Abs(x) > 1e200 || x != 0 && math.Abs(x) < 1e-200 {
				continue // decimal would take long; the edge cases below cover them
			}
			got, ok := decimalTicks(x, ticksPer(c))
			if want := slowTicks(x, per); got != want || ok != (want != outOfRange) {
				t.Fatalf("%v %s is %d ticks, want %d", x, symbol(c), got, want)
			}
		}
	})
	for _, x := range []float64{math.MaxFloat64, -math.MaxFloat64, math.Inf(1), math.Inf(-1), math.NaN()} {
		if Litre.Of(x).Valid() {
			t.Errorf("%v L is in range", x)
		}
	}
	for _, x := range []float64{math.SmallestNonzeroFloat64, -math.SmallestNonzeroFloat64, 1e-300} {
		if !Litre.Of(x).IsZero() {
			t.Errorf("%v L is not zero", x)
		}
	}
}

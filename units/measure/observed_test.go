package measure_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/units/measure"
)

func TestObservedRefuses(t *testing.T) {
	for name, xs := range map[string][]float64{
		"none": nil, "one": {1}, "NaN": {1, math.NaN()}, "infinite": {1, math.Inf(1)}, "too wide": {-1e300, 1e300},
	} {
		if r, err := measure.Observed("x", "", xs...); err == nil {
			t.Errorf("%s: %v", name, r)
		}
	}
	if _, err := measure.Observed("", "", 1, 2); err == nil {
		t.Error("no id was taken")
	}
}

func ExampleObserved() {
	r, _ := measure.Observed("probe-1/mean", "three readings", 40, 41, 42)
	fmt.Printf("%.0f, u = %.4f\n", r.Value(), r.U()) // s = 1, over √3
	// Output: 41, u = 0.5774
}

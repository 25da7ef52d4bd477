package measure_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/units/measure"
)

// A straight quantile function is the rectangle: u = width/√12.
func TestFromQuantilesOfRectangle(t *testing.T) {
	for _, q := range [][]float64{{2, 4}, {2, 2.5, 3, 3.5, 4}} {
		r, err := measure.FromQuantiles("a", "", q)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "mean", r.Value(), 3, 1e-15)
		near(t, "u", r.U(), 2/math.Sqrt(12), 1e-15)
	}
}

func TestFromQuantilesRefuses(t *testing.T) {
	for name, q := range map[string][]float64{
		"none": nil, "one": {1}, "equal": {1, 1, 1}, "falling": {2, 1}, "NaN": {1, math.NaN()}, "infinite": {1, math.Inf(1)},
		"too wide": {-math.MaxFloat64, math.MaxFloat64}, "too many": make([]float64, 5000),
	} {
		if r, err := measure.FromQuantiles("a", "", q); err == nil {
			t.Errorf("%s: %v", name, r)
		}
	}
	if _, err := measure.FromQuantiles("", "", []float64{1, 2}); err == nil {
		t.Error("no id was taken")
	}
}

func ExampleFromQuantiles() {
	// A fluid's coefficient as its maker's lots came: least, quartile, median, quartile, most.
	r, _ := measure.FromQuantiles("fluid/coefficient", "expansion coefficient", []float64{6.8, 7.2, 7.4, 7.8, 8.6})
	fmt.Printf("%.3f, u = %.3f\n", r.Value(), r.U())
	// Output: 7.525, u = 0.467
}

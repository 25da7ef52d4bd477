package measure_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/units/measure"
)

func TestTypeBRefuses(t *testing.T) {
	for name, f := range map[string]func(x float64) error{
		"half-width": func(x float64) error { _, err := measure.FromHalfWidth(measure.Rectangular, x); return err },
		"resolution": func(x float64) error { _, err := measure.FromResolution(x); return err },
		"expanded":   func(x float64) error { _, err := measure.FromExpanded(x, 2); return err },
		"k":          func(x float64) error { _, err := measure.FromExpanded(1, x); return err },
		"coverage U": func(x float64) error { _, err := measure.FromCoverage(x, 0.95); return err },
		"coverage p": func(x float64) error { _, err := measure.FromCoverage(1, x); return err },
	} {
		for _, x := range []float64{-1, math.NaN(), math.Inf(1), math.Inf(-1)} {
			if f(x) == nil {
				t.Errorf("%s of %v was taken", name, x)
			}
		}
	}
	for _, s := range []measure.Shape{measure.Normal, measure.Student, measure.Tabled, 99} {
		if _, err := measure.FromHalfWidth(s, 1); err == nil {
			t.Errorf("half-width of %v was taken", s)
		}
	}
	if _, err := measure.FromExpanded(1e300, 1e-300); err == nil {
		t.Error("an infinite u came out")
	}
}

func ExampleFromHalfWidth() {
	for _, s := range []measure.Shape{measure.Rectangular, measure.Triangular, measure.Arcsine} {
		u, _ := measure.FromHalfWidth(s, 1)
		fmt.Printf("%v %.4f\n", s, u) // 1/√3, 1/√6, 1/√2
	}
	// Output:
	// rectangular 0.5774
	// triangular 0.4082
	// arcsine 0.7071
}

func ExampleFromResolution() {
	u, _ := measure.FromResolution(1)
	fmt.Printf("%.4f\n", u) // 1/√12
	// Output: 0.2887
}

func ExampleFromExpanded() {
	u, _ := measure.FromExpanded(0.5, 2)
	fmt.Println(u)
	// Output: 0.25
}

func ExampleFromCoverage() {
	u, _ := measure.FromCoverage(1.96, 0.95)
	fmt.Printf("%.3f\n", u)
	// Output: 1.000
}

package measure_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units/measure"
)

// Combine with sensitivities 1 and -1 is Minus.
func TestCombineIsLinear(t *testing.T) {
	a, b := cause(t, "a"), cause(t, "b")
	x := reading(t, 5, measure.Term{Cause: a, Scale: 0.3}, measure.Term{Cause: b, Scale: 0.2})
	y := reading(t, 2, measure.Term{Cause: a, Scale: 0.1})
	got, err := measure.Combine(3, measure.Part{Of: x, Sensitivity: 1}, measure.Part{Of: y, Sensitivity: -1})
	if err != nil {
		t.Fatal(err)
	}
	if want := x.Minus(y); got.U() != want.U() || got.Value() != want.Value() {
		t.Errorf("Combine = %v u %v, Minus = %v u %v", got.Value(), got.U(), want.Value(), want.U())
	}
}

func TestCombineRefuses(t *testing.T) {
	over := reading(t, math.MaxFloat64).Times(2)
	for name, parts := range map[string][]measure.Part{
		"NaN sensitivity": {{Sensitivity: math.NaN()}},
		"invalid part":    {{Of: over, Sensitivity: 1}},
	} {
		if _, err := measure.Combine(1, parts...); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
	if _, err := measure.Combine(math.Inf(1)); err == nil {
		t.Error("infinite value was taken")
	}
}

func ExampleCombine() {
	// A volume from a mass and a density: V = m/ρ, ∂V/∂m = 1/ρ, ∂V/∂ρ = -m/ρ².
	weighing, _ := measure.NewCause("scale-1/reading/drain-1", "weighing", measure.Normal, 0)
	density, _ := measure.NewCause("fluid/density", "density", measure.Normal, 0)
	m, _ := measure.New(2.0, measure.Term{Cause: weighing, Scale: 0.003})
	rho, _ := measure.New(0.8, measure.Term{Cause: density, Scale: 0.0016})
	v, _ := measure.Combine(2.0/0.8,
		measure.Part{Of: m, Sensitivity: 1 / 0.8},
		measure.Part{Of: rho, Sensitivity: -2.0 / (0.8 * 0.8)})
	fmt.Printf("%.2f L, u = %.5f L", v.Value(), v.U()) // √(0.00375² + 0.005²)
	// Output: 2.50 L, u = 0.00625 L
}

func TestCombineNumbersItsFaultsFromOne(t *testing.T) {
	bad := reading(t, math.MaxFloat64).Times(2)
	_, err := measure.Combine(1, measure.Part{Of: reading(t, 1), Sensitivity: math.NaN()}, measure.Part{Of: bad, Sensitivity: 1})
	if err == nil || !strings.Contains(err.Error(), "part 1 of 2 has sensitivity NaN") || !strings.Contains(err.Error(), "part 2 of 2: ") {
		t.Errorf("%v", err)
	}
}

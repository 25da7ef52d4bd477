package measure_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/units/measure"
)

func TestExpandedRefuses(t *testing.T) {
	r := reading(t, 1, measure.Term{Cause: cause(t, "a"), Scale: 1})
	for _, p := range []float64{0, 1, -0.1, 2, math.NaN(), math.Inf(1)} {
		if e, err := r.Expanded(p); err == nil {
			t.Errorf("Expanded(%v) = %v", p, e)
		}
	}
	if _, err := reading(t, math.MaxFloat64).Times(2).Expanded(0.95); err == nil {
		t.Error("a reading that is not valid was taken")
	}
	if _, err := reading(t, 1, measure.Term{Cause: cause(t, "a"), Scale: 1e308}).Expanded(0.95); err == nil {
		t.Error("an infinite U came out")
	}
}

// JCGM 100:2008 G.4.1: n equal components of ν each have n·ν together, and one
// dominating component its own; by hand.
func TestDoF(t *testing.T) {
	c := func(id string, dof float64) *measure.Cause {
		c, err := measure.NewCause(id, "", measure.Normal, dof)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	r := reading(t, 0, measure.Term{Cause: c("a", 5), Scale: 2}, measure.Term{Cause: c("b", 5), Scale: -2}, measure.Term{Cause: c("c", 5), Scale: 2})
	near(t, "three alike", r.DoF(), 15, 1e-12)
	r = reading(t, 0, measure.Term{Cause: c("a", 5), Scale: 1}, measure.Term{Cause: c("b", 0), Scale: 1})
	near(t, "half known", r.DoF(), 20, 1e-12)
	for _, r := range []measure.Reading{{}, reading(t, 1), reading(t, 1, measure.Term{Cause: c("b", 0), Scale: 1}), reading(t, math.MaxFloat64).Times(3)} {
		near(t, "infinite", r.DoF(), 0, 0)
	}
}

func ExampleReading_DoF() {
	a, _ := measure.Observed("probe-1/mean", "", 40.9, 41.0, 41.2) // 2 degrees of freedom
	offset, _ := measure.NewCause("probe-1/offset", "", measure.Rectangular, 0)
	r := a.Plus(func() measure.Reading {
		r, _ := measure.New(0, measure.Term{Cause: offset, Scale: a.U()})
		return r
	}())
	fmt.Printf("%.1f\n", r.DoF()) // (1+1)²/(1²/2)
	// Output: 8.0
}

func ExampleReading_Expanded() {
	r, _ := measure.Observed("probe-1/mean", "", 40.9, 41.0, 41.2)
	e, _ := r.Expanded(0.95)
	fmt.Printf("%.2f ± %.2f, k = %.3f, ν = %.0f\n", r.Value(), e.U, e.K, e.DoF) // t at 97.5 % and ν = 2 is 4.303
	// Output: 41.03 ± 0.38, k = 4.303, ν = 2
}

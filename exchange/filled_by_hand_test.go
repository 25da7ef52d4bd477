package exchange

import (
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units"
)

// What no call of ours gives, written into a struct by hand, is not printed as a number.
func TestComparisonByHand(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []ScheduleComparison{
		{Over: nan}, {FirstFluid: nan, SecondFluid: inf, Stretch: inf, Over: 1}, {EqualFluid: true, FirstFluid: math.MaxFloat64, Over: 10},
		{Rows: []AgeRow{{Meaning: "m", First: nan, Second: inf, Younger: "neither"}}},
	} {
		text := c.Text()
		if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || !strings.Contains(text, "not valid") {
			t.Error(text)
		}
	}
}

// An uncertainty below zero is no uncertainty, and one that is out of range none
// that can be carried on.
func TestMeasuredByHand(t *testing.T) {
	for _, u := range []units.Volume{units.Litre.Of(-1), units.Litre.Of(math.Inf(1))} {
		v, err := CapacityEstimate{Capacity: units.Litre.Of(1), U: u}.Measured("x")
		if err == nil || !strings.Contains(err.Error(), "standard uncertainty") || !v.U().IsZero() {
			t.Errorf("%s: %v, %v", u, v, err)
		}
	}
}

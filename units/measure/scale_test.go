package measure_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// Full minus empty: the gain error stays in proportion to the fluid alone.
func TestScaleNet(t *testing.T) {
	s := measure.Scale{ID: "scale-1", GainError: 0.001}
	full, err := s.Read(units.Kilogram.Of(3.0))
	if err != nil {
		t.Fatal(err)
	}
	empty, err := s.Read(units.Kilogram.Of(1.0))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "u of the net mass", full.Sub(empty).Reading().U(), 0.002/math.Sqrt(3), 1e-17)
}

func TestScaleRefuses(t *testing.T) {
	for name, s := range map[string]measure.Scale{
		"no id":          {},
		"too heavy":      {ID: "s", Capacity: units.Kilogram.Of(1)},
		"no entry":       {ID: "s", Resolution: units.Gram.Of(1)},
		"no entry, load": {ID: "s", Tolerance: units.Gram.Of(1)},
		"negative gain":  {ID: "s", GainError: -0.01},
		"negative step":  {ID: "s", Resolution: units.Gram.Of(-1), Entry: "x"},
	} {
		if _, err := s.Read(units.Kilogram.Of(2)); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
}

func ExampleScale_Read() {
	scale := measure.Scale{ID: "scale-1", Resolution: units.Gram.Of(1), Tolerance: units.Gram.Of(2)}
	full, _ := scale.For("drain-1-full").Read(units.Gram.Of(2840))
	empty, _ := scale.For("drain-1-empty").Read(units.Gram.Of(780))
	net := full.Sub(empty)
	// √(2·(2/√3)² + 2·(1/√12)²)
	fmt.Printf("%v, u = %.2f g\n", net.Best(), net.U().In(units.Gram))
	// Output: 2060 g, u = 1.68 g
}

func ExampleScale_For() {
	scale := measure.Scale{ID: "scale-1", Resolution: units.Gram.Of(1)}
	m, _ := scale.For("drain-1-full").Read(units.Gram.Of(2840))
	fmt.Println(m.Reading().Terms()[0].Cause.ID())
	// Output: scale-1/reading/drain-1-full
}

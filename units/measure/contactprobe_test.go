package measure_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func TestContactProbeAtK(t *testing.T) {
	p := measure.ContactProbe{ID: "probe-1", Tolerance: units.CelsiusDegree.Of(1), Coverage: 2}
	at, err := p.Read(units.Celsius(40))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "u", at.Reading().U(), 0.5, 0)
	if s := at.Reading().Terms()[0].Cause.Shape(); s != measure.Normal {
		t.Errorf("shape %v, want normal", s)
	}
}

func TestContactProbeRefuses(t *testing.T) {
	good := units.CelsiusDegree.Of(1)
	for name, p := range map[string]measure.ContactProbe{
		"no id":              {Tolerance: good},
		"negative tolerance": {ID: "p", Tolerance: good.Neg()},
		"negative k":         {ID: "p", Tolerance: good, Coverage: -2},
		"NaN k":              {ID: "p", Tolerance: good, Coverage: math.NaN()},
		"no entry":           {ID: "p", Resolution: good},
		"space in entry":     {ID: "p", Resolution: good, Entry: "drain 1"},
	} {
		if _, err := p.Read(units.Celsius(40)); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
	for _, at := range []units.Temperature{{}, units.Celsius(-300)} {
		if _, err := (measure.ContactProbe{ID: "p"}).Read(at); err == nil {
			t.Errorf("%v was taken", at)
		}
	}
}

func ExampleContactProbe_Read() {
	probe := measure.ContactProbe{ID: "probe-1", Tolerance: units.CelsiusDegree.Of(1), Resolution: units.CelsiusDegree.Of(0.1)}
	at, _ := probe.For("level").Read(units.Celsius(41))
	fmt.Printf("%v, u = %.3f °C\n", at.Best(), at.U().In(units.CelsiusDegree)) // √((1/√3)² + (0.1/√12)²)
	// Output: 41 °C, u = 0.578 °C
}

func ExampleContactProbe_For() {
	probe := measure.ContactProbe{ID: "probe-1", Tolerance: units.CelsiusDegree.Of(1), Resolution: units.CelsiusDegree.Of(0.1)}
	before, _ := probe.For("before").Read(units.Celsius(35))
	after, _ := probe.For("after").Read(units.Celsius(41))
	rise := after.Sub(before) // the offset is gone; two last digits are left
	fmt.Printf("%v, u = %.3f °C\n", rise.Best(), rise.U().In(units.CelsiusDegree))
	// Output: 6 °C, u = 0.041 °C
}

package measure_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func infrared() measure.Infrared {
	return measure.Infrared{ID: "ir-1", Tolerance: units.CelsiusDegree.Of(2), Share: 0.02}
}

// "2 C or 2 % (greater)" is 1.15 C at 40 C, rectangular; vendor convention.
func TestInfraredAgainstTable(t *testing.T) {
	row := published.Load(t, "instrument_tolerances").Find("item", "IR thermometer")
	if row.Text("limit") != "2 C or 2 % (greater)" || row.Text("u_standard") != "1.15 C at 40 C" {
		t.Fatalf("the table now says %q, %q", row.Text("limit"), row.Text("u_standard"))
	}
	at, err := infrared().Read(units.Celsius(40))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "u at 40 °C", at.Reading().U(), 1.15, 0.005)
	at, err = infrared().Read(units.Celsius(150))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "u at 150 °C", at.Reading().U(), 3/math.Sqrt(3), 1e-12)
}

func TestInfraredRefuses(t *testing.T) {
	for name, i := range map[string]measure.Infrared{
		"no figures":     {ID: "ir-1"},
		"negative share": {ID: "ir-1", Share: -0.02},
		"share of 2":     {ID: "ir-1", Share: 2},
		"no id":          {Share: 0.02},
	} {
		if _, err := i.Read(units.Celsius(40)); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
	if _, err := infrared().Limits(units.Celsius(-300)); err == nil {
		t.Error("limits below absolute zero")
	}
}

func ExampleInfrared_Read() {
	ir := measure.Infrared{ID: "ir-1", Tolerance: units.CelsiusDegree.Of(2), Share: 0.02}
	at, _ := ir.Read(units.Celsius(40))
	fmt.Printf("%v, u = %.2f °C: %s\n", at.Best(), at.U().In(units.CelsiusDegree), at.Reading().Terms()[0].Cause.Label())
	// Output: 40 °C, u = 1.15 °C: ir-1: offset, surface not included
}

func ExampleInfrared_Limits() {
	ir := measure.Infrared{ID: "ir-1", Tolerance: units.CelsiusDegree.Of(2), Share: 0.02}
	for _, t := range []float64{40, 100, 150} {
		a, _ := ir.Limits(units.Celsius(t))
		fmt.Printf("%v °C ± %v\n", t, a)
	}
	// Output:
	// 40 °C ± 2 °C
	// 100 °C ± 2 °C
	// 150 °C ± 3 °C
}

func ExampleInfrared_For() {
	ir := measure.Infrared{ID: "ir-1", Tolerance: units.CelsiusDegree.Of(2), Resolution: units.CelsiusDegree.Of(0.1)}
	fmt.Println(ir.For("sump").Entry)
	// Output: sump
}

package measure_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// ISO 6789: 4 % above 10 N·m, 6 % at or below, rectangular or normal at k = 2.
func TestTorqueToolAgainstTable(t *testing.T) {
	rows := published.Load(t, "instrument_tolerances").Where("item", "torque tool type II class A")
	for i, tool := range []measure.TorqueTool{
		{ID: "w", Largest: units.NewtonMetre.Of(50)}, {ID: "w", Largest: units.NewtonMetre.Of(10)},
	} {
		want := []string{"4 %", "6 %"}[i]
		if rows[i].Text("limit") != want {
			t.Fatalf("the table now says %q, want %q", rows[i].Text("limit"), want)
		}
		share := []float64{0.04, 0.06}[i]
		q, err := tool.Read(units.NewtonMetre.Of(8))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "rectangular u", q.Reading().U(), 8*share/math.Sqrt(3), 1e-15)
		tool.Coverage = 2
		q, err = tool.Read(units.NewtonMetre.Of(8))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "u at k = 2", q.Reading().U(), 8*share/2, 1e-15)
	}
}

func TestTorqueToolRefuses(t *testing.T) {
	for name, w := range map[string]measure.TorqueTool{
		"no figures":    {ID: "w"},
		"beyond it":     {ID: "w", Largest: units.NewtonMetre.Of(20)},
		"negative":      {ID: "w", Error: -0.04},
		"negative size": {ID: "w", Largest: units.NewtonMetre.Of(-20)},
	} {
		if _, err := w.Read(units.NewtonMetre.Of(30)); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
}

func ExampleTorqueTool_Read() {
	wrench := measure.TorqueTool{ID: "wrench-2", Largest: units.NewtonMetre.Of(60)}
	q, _ := wrench.Read(units.NewtonMetre.Of(35))
	fmt.Printf("%v, u = %.2f N·m\n", q.Best(), q.U().In(units.NewtonMetre)) // 35 × 0.04/√3
	// Output: 35 N·m, u = 0.81 N·m
}

func ExampleTorqueTool_For() {
	wrench := measure.TorqueTool{ID: "wrench-2", Error: 0.04, Resolution: units.NewtonMetre.Of(0.5)}
	q, _ := wrench.For("drain-plug").Read(units.NewtonMetre.Of(35))
	fmt.Println(len(q.Reading().Terms()), "causes")
	// Output: 2 causes
}

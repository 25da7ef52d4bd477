package measure_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// Every row of the published table that names one class and one size.
func TestClassToleranceAgainstTable(t *testing.T) {
	n := 0
	for _, row := range published.Load(t, "instrument_tolerances").Rows() {
		class, ok := map[string]measure.CylinderClass{"glass cylinder class A": measure.GlassA, "glass cylinder class B": measure.GlassB}[row.Text("item")]
		if !ok || strings.Contains(row.Text("range"), "any") {
			continue
		}
		if strings.Contains(row.Source(), "E1272") && row.Mark() == published.FromMemory {
			continue // two standards remembered for these sizes; we hold the wider, ISO 4788
		}
		sizes := strings.Split(strings.TrimSuffix(row.Text("range"), " mL"), " / ")
		limits := strings.Split(strings.TrimSuffix(row.Text("limit"), " mL"), " / ")
		for i, size := range sizes {
			got, err := measure.ClassTolerance(class, volume(t, size+" mL"))
			if want := volume(t, limits[i]+" mL"); err != nil || got != want {
				t.Errorf("%v %s mL: %v, %v; want %v (%s)", class, size, got, err, want, row.Source())
			}
			n++
		}
	}
	if n != 8 {
		t.Errorf("checked %d figures, want 8", n)
	}
}

func volume(tb testing.TB, text string) units.Volume {
	tb.Helper()
	v, err := units.ParseVolume(text)
	if err != nil {
		tb.Fatal(err)
	}
	return v
}

// ASTM E1272 states the 500 mL class A limit of 2 mL as u = 1.15 mL, rectangular.
func TestCylinderRead(t *testing.T) {
	c := measure.Cylinder{ID: "cyl-1", Class: measure.GlassA, Capacity: units.Millilitre.Of(500)}
	v, err := c.Read(units.Millilitre.Of(400))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "u in mL", v.U().In(units.Millilitre), 1.15, 0.005)
	c.Tolerance = units.Millilitre.Of(6)
	v, err = c.Read(units.Millilitre.Of(400))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "u in mL, marked tolerance", v.U().In(units.Millilitre), 3.4641, 5e-5)
}

func TestCylinderRefuses(t *testing.T) {
	for name, c := range map[string]measure.Cylinder{
		"no class":     {ID: "c", Capacity: units.Millilitre.Of(500)},
		"odd size":     {ID: "c", Class: measure.GlassB, Capacity: units.Millilitre.Of(400)},
		"over the top": {ID: "c", Class: measure.GlassB, Capacity: units.Millilitre.Of(250)},
		"no entry":     {ID: "c", Class: measure.GlassB, Capacity: units.Millilitre.Of(500), Graduation: units.Millilitre.Of(5)},
		"class 9":      {ID: "c", Class: 9, Capacity: units.Millilitre.Of(500)},
	} {
		if _, err := c.Read(units.Millilitre.Of(300)); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
}

func ExampleCylinder_Read() {
	cylinder := measure.Cylinder{
		ID: "cyl-500", Class: measure.GlassB, Capacity: units.Millilitre.Of(500),
		Graduation: units.Millilitre.Of(5),
	}
	v, _ := cylinder.For("top-up").Read(units.Millilitre.Of(380))
	fmt.Printf("u = %.2f mL\n", v.U().In(units.Millilitre)) // √((4/√3)² + (5/√12)²)
	// Output: u = 2.72 mL
}

func ExampleCylinder_For() {
	cylinder := measure.Cylinder{ID: "cyl-500", Class: measure.GlassB, Capacity: units.Millilitre.Of(500)}
	fmt.Println(cylinder.For("top-up").Entry)
	// Output: top-up
}

func ExampleClassTolerance() {
	a, _ := measure.ClassTolerance(measure.GlassA, units.Millilitre.Of(250))
	b, _ := measure.ClassTolerance(measure.GlassB, units.Millilitre.Of(250))
	fmt.Println(a.Text(units.Millilitre, 1), b.Text(units.Millilitre, 1))
	// Output: 1.0 mL 2.0 mL
}

func ExampleCylinderClass_String() {
	fmt.Println(measure.GlassB)
	// Output: glass B
}

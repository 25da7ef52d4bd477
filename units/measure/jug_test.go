package measure_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// The shop jug of the reference notes: lines every 0.05 L, scale within 1 %.
func shopJug(id string) measure.Jug {
	return measure.Jug{ID: id, Graduation: units.Litre.Of(0.05), ScaleError: 0.01}
}

func readJug(tb testing.TB, j measure.Jug, entry string, litres float64) measure.Volume {
	tb.Helper()
	v, err := j.For(entry).Read(units.Litre.Of(litres))
	if err != nil {
		tb.Fatal(err)
	}
	return v
}

// Refill minus drain of about 2.4 L: u = 0.0204 L with one jug, 0.0283 L with
// two. By hand: 0.05/√12 twice; and 0.024/√3 twice more with two jugs.
func TestOneJugOrTwo(t *testing.T) {
	out := readJug(t, shopJug("jug-a"), "drain-1", 2.4)
	one := readJug(t, shopJug("jug-a"), "refill-1", 2.4).Sub(out)
	two := readJug(t, shopJug("jug-b"), "refill-1", 2.4).Sub(out)
	near(t, "one jug", one.Reading().U(), 0.0204, 5e-5)
	near(t, "two jugs", two.Reading().U(), 0.0283, 5e-5)
	graduation, scale := 0.05/math.Sqrt(12), 0.024/math.Sqrt(3)
	near(t, "one jug by hand", one.Reading().U(), math.Sqrt(2*graduation*graduation), 1e-15)
	near(t, "two jugs by hand", two.Reading().U(), math.Sqrt(2*graduation*graduation+2*scale*scale), 1e-15)
}

// Five drains in one jug add its scale error five times, their readings only √5 times.
func TestManyFillings(t *testing.T) {
	var sum measure.Volume
	for i := range 5 {
		sum = sum.Add(readJug(t, shopJug("jug-a"), fmt.Sprint("drain-", i+1), 2.4))
	}
	graduation, scale := 0.05/math.Sqrt(12), 0.024/math.Sqrt(3)
	near(t, "five drains", sum.Reading().U(), math.Sqrt(5*graduation*graduation+25*scale*scale), 1e-15)
}

func TestInterpolatedIsTriangular(t *testing.T) {
	j := measure.Jug{ID: "jug-a", Graduation: units.Litre.Of(0.05), Interpolated: true}
	v := readJug(t, j, "drain-1", 2.4)
	near(t, "u", v.Reading().U(), 0.025/math.Sqrt(6), 1e-17)
	if s := v.Reading().Terms()[0].Cause.Shape(); s != measure.Triangular {
		t.Errorf("shape %v, want triangular", s)
	}
}

func TestJugRefusesEverythingAtOnce(t *testing.T) {
	j := measure.Jug{Graduation: units.Litre.Of(-1), ScaleError: 1.5, Capacity: units.Litre.Of(2)}
	_, err := j.Read(units.Litre.Of(3))
	if err == nil {
		t.Fatal("it was taken")
	}
	for _, want := range []string{"no id", "graduation", "scale error of 1.5", "reading of 3 L", "0 to 2 L"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("error %q does not speak of %q", err, want)
		}
	}
	for name, bad := range map[string]measure.Jug{
		"no entry":        shopJug("jug-a"),
		"NaN scale error": {ID: "jug-a", ScaleError: math.NaN()},
		"id with a space": {ID: "jug a", ScaleError: 0.01},
	} {
		if _, err := bad.Read(units.Litre.Of(1)); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
	if _, err := shopJug("jug-a").For("x").Read(units.Litre.Of(1e9)); err == nil {
		t.Error("an out-of-range volume was taken")
	}
}

func ExampleJug_Read() {
	jug := measure.Jug{ID: "jug-a", Graduation: units.Litre.Of(0.05), ScaleError: 0.01}
	v, err := jug.For("drain-1").Read(units.Litre.Of(2.4))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, t := range v.Reading().Terms() {
		fmt.Printf("%-21s %-11v %.1f mL\n", t.Cause.ID(), t.Cause.Shape(), t.Scale*1000)
	}
	// Output:
	// jug-a/reading/drain-1 rectangular 14.4 mL
	// jug-a/scale           rectangular 13.9 mL
}

func ExampleJug_For() {
	jug := measure.Jug{ID: "jug-a", Graduation: units.Litre.Of(0.05), ScaleError: 0.01}
	_, err := jug.Read(units.Litre.Of(2.4)) // which reading is this?
	fmt.Println(err)
	_, err = jug.For("drain-1").Read(units.Litre.Of(2.4))
	fmt.Println(err)
	// Output:
	// measure: jug "jug-a": this reading has no entry to tell its doubt from other readings'; want For("drain-1").Read(…)
	// <nil>
}

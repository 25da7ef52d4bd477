package measure_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units/measure"
)

func TestNewCauseRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		id, label string
		shape     measure.Shape
		dof       float64
	}{
		"no id":             {"", "", measure.Normal, 0},
		"space":             {"jug a", "", measure.Normal, 0},
		"umlaut":            {"krüg", "", measure.Normal, 0},
		"endless id":        {strings.Repeat("a", 129), "", measure.Normal, 0},
		"endless label":     {"a", strings.Repeat("a", 201), measure.Normal, 0},
		"label of rubbish":  {"a", "\xff", measure.Normal, 0},
		"label that breaks": {"a", "one\ntwo", measure.Normal, 0},
		"label that turns":  {"a", "one\u202etwo", measure.Normal, 0},
		"shape":             {"a", "", 77, 0},
		"tabled":            {"a", "", measure.Tabled, 0},
		"negative":          {"a", "", measure.Normal, -1},
		"half":              {"a", "", measure.Normal, 0.5},
		"NaN":               {"a", "", measure.Normal, math.NaN()},
		"infinite":          {"a", "", measure.Normal, math.Inf(1)},
		"student without":   {"a", "", measure.Student, 0},
	} {
		got, err := measure.NewCause(c.id, c.label, c.shape, c.dof)
		if err == nil || got != nil {
			t.Errorf("%s was taken", name)
			continue
		}
		if len(err.Error()) > 300 {
			t.Errorf("%s: error of %d bytes", name, len(err.Error()))
		}
	}
}

func TestNoCause(t *testing.T) {
	var c *measure.Cause
	if c.ID() != "" || c.Label() != "" || c.Shape() != measure.Normal || c.DoF() != 0 {
		t.Error("no cause says something")
	}
}

func ExampleNewCause() {
	c, err := measure.NewCause("jug-a/scale", "jug A: scale error", measure.Rectangular, 0)
	fmt.Println(c.ID(), err)
	_, err = measure.NewCause("jug a", "", measure.Student, 0)
	fmt.Println(err)
	// Output:
	// jug-a/scale <nil>
	// measure: cause "jug a": id has byte ' ' at 3; want ASCII letters, digits and -_./:#+
	// student shape with no degrees of freedom; want at least 1
}

func ExampleCause_ID() {
	c, _ := measure.NewCause("jug-a/scale", "jug A: scale error", measure.Rectangular, 0)
	fmt.Println(c.ID())
	// Output: jug-a/scale
}

func ExampleCause_Label() {
	c, _ := measure.NewCause("jug-a/scale", "jug A: scale error", measure.Rectangular, 0)
	d, _ := measure.NewCause("jug-b/scale", "", measure.Rectangular, 0)
	fmt.Println(c.Label(), "and", d.Label())
	// Output: jug A: scale error and jug-b/scale
}

func ExampleCause_Shape() {
	c, _ := measure.NewCause("jug-a/scale", "", measure.Rectangular, 0)
	fmt.Println(c.Shape())
	// Output: rectangular
}

func ExampleCause_DoF() {
	c, _ := measure.NewCause("probe-1/mean", "", measure.Student, 4)
	fmt.Println(c.DoF())
	// Output: 4
}

func TestLongestIDAndLabel(t *testing.T) {
	for n, ok := range map[int]bool{128: true, 129: false} {
		if _, err := measure.NewCause(strings.Repeat("a", n), "", measure.Normal, 0); (err == nil) != ok {
			t.Errorf("id of %d bytes: %v", n, err)
		}
	}
	for n, ok := range map[int]bool{200: true, 201: false} {
		if _, err := measure.NewCause("a", strings.Repeat("a", n), measure.Normal, 0); (err == nil) != ok {
			t.Errorf("label of %d bytes: %v", n, err)
		}
	}
}

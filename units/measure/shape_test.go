package measure_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"example.com/meniscus/units/measure"
)

func TestShapeNames(t *testing.T) {
	for s := measure.Normal; s <= measure.Tabled; s++ {
		data, err := json.Marshal(s)
		if err != nil {
			t.Fatal(err)
		}
		back := measure.Shape(99)
		if err := json.Unmarshal(data, &back); err != nil || back != s {
			t.Errorf("%s came back as %v, %v", data, back, err)
		}
	}
	if _, err := json.Marshal(measure.Shape(99)); err == nil || measure.Shape(99).String() != "?" {
		t.Error("a shape that is none was written")
	}
	s := measure.Triangular
	if err := s.UnmarshalText([]byte("bell")); err == nil || s != measure.Triangular {
		t.Errorf("bell was read as %v", s)
	}
}

func ExampleShape_String() {
	fmt.Println(measure.Arcsine)
	// Output: arcsine
}

func ExampleParseShape() {
	s, err := measure.ParseShape("triangular")
	fmt.Println(s == measure.Triangular, err)
	// Output: true <nil>
}

func ExampleShape_MarshalText() {
	text, _ := measure.Student.MarshalText()
	fmt.Println(string(text))
	// Output: student
}

func ExampleShape_UnmarshalText() {
	var s measure.Shape
	err := s.UnmarshalText([]byte("rectangular"))
	fmt.Println(s, err)
	// Output: rectangular <nil>
}

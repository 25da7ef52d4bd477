package measure_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"example.com/meniscus/units/measure"
)

func TestVerdictNames(t *testing.T) {
	var zero measure.Verdict
	if zero != measure.Undecided {
		t.Error("silence is approval")
	}
	for v := measure.Undecided; v <= measure.Above; v++ {
		data, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		back := measure.Verdict(99)
		if err := json.Unmarshal(data, &back); err != nil || back != v {
			t.Errorf("%s came back as %v, %v", data, back, err)
		}
	}
	if _, err := json.Marshal(measure.Verdict(99)); err == nil || measure.Verdict(99).String() != "?" {
		t.Error("a verdict that is none was written")
	}
	v := measure.Below
	if err := v.UnmarshalText([]byte("good")); err == nil || v != measure.Below {
		t.Errorf("good was read as %v", v)
	}
}

func ExampleVerdict_String() {
	var v measure.Verdict
	fmt.Println(v)
	// Output: undecided
}

func ExampleParseVerdict() {
	v, err := measure.ParseVerdict("above")
	fmt.Println(v == measure.Above, err)
	// Output: true <nil>
}

func ExampleVerdict_MarshalText() {
	text, _ := measure.Inside.MarshalText()
	fmt.Println(string(text))
	// Output: inside
}

func ExampleVerdict_UnmarshalText() {
	var v measure.Verdict
	err := v.UnmarshalText([]byte("below"))
	fmt.Println(v, err)
	// Output: below <nil>
}

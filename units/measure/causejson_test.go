package measure_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"example.com/meniscus/units/measure"
)

func TestCauseRoundTrip(t *testing.T) {
	tabled, err := measure.FromQuantiles("b", "", []float64{1, 2, 4})
	if err != nil {
		t.Fatal(err)
	}
	for _, term := range append(tabled.Terms(), measure.Term{Cause: cause(t, "a"), Scale: 2}) {
		first, err := json.Marshal(term)
		if err != nil {
			t.Fatal(err)
		}
		var back measure.Term
		if err := json.Unmarshal(first, &back); err != nil {
			t.Fatal(err)
		}
		second, err := json.Marshal(back)
		if err != nil || string(first) != string(second) {
			t.Errorf("wrote %s then %s (%v)", first, second, err)
		}
		if d := reading(t, 0, term).Minus(reading(t, 0, back)); d.Err() != nil || d.U() != 0 {
			t.Errorf("%s does not cancel with what it was: %v, %v", first, d, d.Err())
		}
	}
}

func TestCauseJSONRefuses(t *testing.T) {
	for name, text := range map[string]string{
		"null": `null`, "no id": `{"shape":"normal"}`, "unknown field": `{"id":"a","shape":"normal","unit":"L"}`,
		"number": `1`, "student": `{"id":"a","shape":"student"}`,
	} {
		var c measure.Cause
		if err := c.UnmarshalJSON([]byte(text)); err == nil || c.ID() != "" {
			t.Errorf("%s was taken", name)
		}
	}
	c := cause(t, "a")
	if err := c.UnmarshalJSON([]byte(`{"id":"b","shape":"normal"}`)); err == nil || c.ID() != "a" {
		t.Error("a cause in use was changed")
	}
	if err := (*measure.Cause)(nil).UnmarshalJSON([]byte(`{"id":"b","shape":"normal"}`)); err == nil {
		t.Error("read into nothing")
	}
	if data, err := json.Marshal(measure.Cause{}); err == nil {
		t.Errorf("no cause was written: %s", data)
	}
}

func ExampleCause_MarshalJSON() {
	c, _ := measure.NewCause("jug-a/scale", "jug A: scale error", measure.Rectangular, 0)
	data, _ := json.Marshal(c)
	fmt.Println(string(data))
	// Output: {"id":"jug-a/scale","label":"jug A: scale error","shape":"rectangular"}
}

func ExampleCause_UnmarshalJSON() {
	var c measure.Cause
	err := json.Unmarshal([]byte(`{"id":"probe-1/mean","shape":"student","dof":"4"}`), &c)
	fmt.Println(c.ID(), c.Shape(), c.DoF(), err)
	// Output: probe-1/mean student 4 <nil>
}

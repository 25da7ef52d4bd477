package measure_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"runtime"
	"strings"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// Awkward values: every one must come back to the bit, and write the same bytes.
func storedReadings(tb testing.TB) []measure.Reading {
	tb.Helper()
	student, err := measure.NewCause("probe-1/mean", "mean of “three”", measure.Student, 2.5)
	if err != nil {
		tb.Fatal(err)
	}
	tabled, err := measure.FromQuantiles("fluid/coefficient", "<coefficient>", []float64{0, 1, 1, 4, 9.1})
	if err != nil {
		tb.Fatal(err)
	}
	return []measure.Reading{
		{}, reading(tb, -0.1), reading(tb, math.MaxFloat64), reading(tb, 5e-324), reading(tb, math.Copysign(0, -1)).Times(1),
		reading(tb, 1.0/3, measure.Term{Cause: student, Scale: -1.0 / 7}, measure.Term{Cause: cause(tb, "a/b:c#1+x_y.z"), Scale: 1e-300}).Plus(tabled),
	}
}

func TestReadingRoundTrip(t *testing.T) {
	for _, r := range storedReadings(t) {
		first, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		var back measure.Reading
		if err := json.Unmarshal(first, &back); err != nil {
			t.Fatalf("%s: %v", first, err)
		}
		second, err := json.Marshal(back)
		if err != nil || string(first) != string(second) {
			t.Errorf("wrote %s\n then %s (%v)", first, second, err)
		}
		if math.Float64bits(back.U()) != math.Float64bits(r.U()) || back.Value() != r.Value() {
			t.Errorf("%s came back as %v, %v", first, back.Value(), back.U())
		}
		if d := back.Minus(r); d.U() != 0 || d.Err() != nil {
			t.Errorf("%s does not cancel with what it was: %v %v", first, d, d.Err())
		}
	}
}

func TestMeasuredRoundTrip(t *testing.T) {
	v, err := shopJug("jug-a").For("drain-1").Read(units.USQuart.Of(2.5))
	if err != nil {
		t.Fatal(err)
	}
	first, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var back measure.Volume
	if err := json.Unmarshal(first, &back); err != nil {
		t.Fatal(err)
	}
	second, _ := json.Marshal(back)
	if string(first) != string(second) || back.Best() != v.Best() {
		t.Errorf("wrote %s\n then %s", first, second)
	}
	if d := v.Sub(back); d.U() != (units.Volume{}) || !d.Best().IsZero() {
		t.Errorf("stored and read back, one jug reading does not cancel: %v", d)
	}
	var mass measure.Mass
	if err := json.Unmarshal(first, &mass); err == nil {
		t.Error("a volume was read as a mass")
	}
}

func TestTemperatureRoundTrip(t *testing.T) {
	probe := measure.ContactProbe{ID: "probe-1", Tolerance: units.FahrenheitDegree.Of(1)}
	for _, at := range []units.Temperature{units.Celsius(41), units.Fahrenheit(97)} {
		p, err := probe.Read(at)
		if err != nil {
			t.Fatal(err)
		}
		first, _ := json.Marshal(p)
		var back measure.Temperature
		if err := json.Unmarshal(first, &back); err != nil {
			t.Fatal(err)
		}
		second, _ := json.Marshal(back)
		if string(first) != string(second) || back.Best() != at || back.U() != p.U() {
			t.Errorf("wrote %s\n then %s", first, second)
		}
	}
}

func TestRecordRefuses(t *testing.T) {
	const head = `{"value":"1","causes":[{"id":"a","shape":"normal"}],"terms":`
	for name, text := range map[string]string{
		"null":               `null`,
		"number":             `1`,
		"no value":           `{}`,
		"value as number":    `{"value":1}`,
		"NaN":                `{"value":"NaN"}`,
		"infinity":           `{"value":"1e999"}`,
		"hexadecimal":        `{"value":"0x1p4"}`,
		"endless digits":     `{"value":"` + strings.Repeat("1", 400) + `"}`,
		"unknown field":      `{"value":"1","u":"2"}`,
		"endless field":      `{"value":"1","` + strings.Repeat("u", 1000) + `":"2"}`,
		"unit on a reading":  `{"value":"1","unit":"L"}`,
		"unknown cause":      head + `[{"cause":"b","scale":"1"}]}`,
		"cause twice":        `{"value":"1","causes":[{"id":"a","shape":"normal"},{"id":"a","shape":"normal"}],"terms":[{"cause":"a","scale":"1"}]}`,
		"term twice":         head + `[{"cause":"a","scale":"1"},{"cause":"a","scale":"1"}]}`,
		"cause in no term":   head + `[]}`,
		"scale of 0":         head + `[{"cause":"a","scale":"0"}]}`,
		"scale NaN":          head + `[{"cause":"a","scale":"NaN"}]}`,
		"shape":              `{"value":"1","causes":[{"id":"a","shape":"bell"}],"terms":[{"cause":"a","scale":"1"}]}`,
		"no id":              `{"value":"1","causes":[{"id":"","shape":"normal"}],"terms":[{"cause":"","scale":"1"}]}`,
		"dof":                `{"value":"1","causes":[{"id":"a","shape":"normal","dof":"-1"}],"terms":[{"cause":"a","scale":"1"}]}`,
		"student without":    `{"value":"1","causes":[{"id":"a","shape":"student"}],"terms":[{"cause":"a","scale":"1"}]}`,
		"table on a normal":  `{"value":"1","causes":[{"id":"a","shape":"normal","quantiles":["-1","1"]}],"terms":[{"cause":"a","scale":"1"}]}`,
		"no table":           `{"value":"1","causes":[{"id":"a","shape":"tabled"}],"terms":[{"cause":"a","scale":"1"}]}`,
		"raw table":          `{"value":"1","causes":[{"id":"a","shape":"tabled","quantiles":["0","1"]}],"terms":[{"cause":"a","scale":"1"}]}`,
		"table not a number": `{"value":"1","causes":[{"id":"a","shape":"tabled","quantiles":["x","1"]}],"terms":[{"cause":"a","scale":"1"}]}`,
	} {
		r := reading(t, 7)
		if err := json.Unmarshal([]byte(text), &r); err == nil {
			t.Errorf("%s was taken as %v", name, r)
		} else if r.Value() != 7 {
			t.Errorf("%s changed the reading", name)
		} else if len(err.Error()) > 400 {
			t.Errorf("%s: error of %d bytes", name, len(err.Error()))
		}
	}
	var r measure.Reading
	err := json.Unmarshal([]byte(head+`[{"cause":"b","scale":"1"}]}`), &r)
	if !errors.Is(err, measure.ErrUnknownCause) {
		t.Errorf("unknown cause gives %v", err)
	}
	if err := r.UnmarshalJSON([]byte(`{"value":"1"} {}`)); err == nil {
		t.Error("two objects were taken")
	}
}

func TestInvalidIsNotWritten(t *testing.T) {
	over := reading(t, math.MaxFloat64).Times(2)
	if data, err := json.Marshal(over); err == nil {
		t.Errorf("wrote %s", data)
	}
	if data, err := json.Marshal(measure.MeasuredExactly(units.Litre.Of(1e9))); err == nil {
		t.Errorf("wrote %s", data)
	}
	if data, err := json.Marshal(measure.TemperatureExactly(units.Celsius(-300))); err == nil {
		t.Errorf("wrote %s", data)
	}
}

func FuzzReadingJSON(f *testing.F) {
	for _, r := range storedReadings(f) {
		data, _ := json.Marshal(r)
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var r measure.Reading
		if json.Unmarshal(data, &r) != nil {
			return
		}
		first, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		var back measure.Reading
		if err := json.Unmarshal(first, &back); err != nil {
			t.Fatalf("%s: %v", first, err)
		}
		if second, _ := json.Marshal(back); string(first) != string(second) {
			t.Errorf("wrote %s then %s", first, second)
		}
	})
}

// FuzzMeasuredJSON: a volume, a temperature and a cause that are accepted write
// and read back the same.
func FuzzMeasuredJSON(f *testing.F) {
	for _, text := range []string{
		`{"value":"2.4 L","unit":"L","causes":[{"id":"a","label":"jug A","shape":"rectangular"}],"terms":[{"cause":"a","scale":"0.0139"}]}`,
		`{"value":"2.4 L","unit":"mL"}`, `{"value":"40 °C","unit":"K","causes":[{"id":"t","shape":"student","dof":"9"}],"terms":[{"cause":"t","scale":"0.5"}]}`,
		`{"id":"a","label":"b","shape":"tabled","quantiles":["-1","0","1"]}`, `{"id":"a","shape":"normal","dof":"20"}`, "null", "{}",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var v measure.Volume
		roundTrip(t, data, &v, new(measure.Volume))
		var p measure.Temperature
		roundTrip(t, data, &p, new(measure.Temperature))
		var c measure.Cause
		roundTrip(t, data, &c, new(measure.Cause))
	})
}

func roundTrip(t *testing.T, data []byte, into, again any) {
	t.Helper()
	if json.Unmarshal(data, into) != nil {
		return
	}
	first, err := json.Marshal(into)
	if err != nil {
		t.Fatalf("%s: read but not written: %v", data, err)
	}
	if err := json.Unmarshal(first, again); err != nil {
		t.Fatalf("%s: %v", first, err)
	}
	if second, _ := json.Marshal(again); string(first) != string(second) {
		t.Errorf("wrote %s then %s", first, second)
	}
}

func ExampleReading_MarshalJSON() {
	scale, _ := measure.NewCause("jug-a/scale", "jug A: scale error", measure.Rectangular, 0)
	r, _ := measure.New(2.4, measure.Term{Cause: scale, Scale: 0.0139})
	data, _ := json.Marshal(r)
	fmt.Println(string(data))
	// Output: {"value":"2.4","causes":[{"id":"jug-a/scale","label":"jug A: scale error","shape":"rectangular"}],"terms":[{"cause":"jug-a/scale","scale":"0.0139"}]}
}

func ExampleReading_UnmarshalJSON() {
	var r measure.Reading
	err := json.Unmarshal([]byte(`{"value":"2.4","terms":[{"cause":"jug-a/scale","scale":"0.0139"}]}`), &r)
	fmt.Println(err)
	// Output: measure: record: terms[0]: cause "jug-a/scale": unknown cause; want an id from the causes of the same record
}

func ExampleMeasured_MarshalJSON() {
	offset, _ := measure.NewCause("scale-1/gain", "", measure.Normal, 0)
	m, _ := measure.NewMeasured(units.Gram.Of(2060), measure.Term{Cause: offset, Scale: 0.002})
	data, _ := json.Marshal(m)
	fmt.Println(string(data))
	// Output: {"value":"2060 g","unit":"kg","causes":[{"id":"scale-1/gain","shape":"normal"}],"terms":[{"cause":"scale-1/gain","scale":"0.002"}]}
}

func ExampleMeasured_UnmarshalJSON() {
	var v measure.Volume
	err := json.Unmarshal([]byte(`{"value":"2.5 US qt","unit":"L"}`), &v)
	fmt.Println(v.Best(), err)
	// Output: 2.365882365 L <nil>
}

func ExampleTemperature_MarshalJSON() {
	data, _ := json.Marshal(measure.TemperatureExactly(units.Celsius(41)))
	fmt.Println(string(data))
	// Output: {"value":"41 °C","unit":"K"}
}

func ExampleTemperature_UnmarshalJSON() {
	var t measure.Temperature
	err := json.Unmarshal([]byte(`{"value":"97 °F","unit":"K"}`), &t)
	fmt.Println(t.Best() == units.Fahrenheit(97), err)
	// Output: true <nil>
}

func ExampleReading_Record() {
	r, _ := measure.Exact(2.4)
	rec, _ := r.Record()
	fmt.Println(rec.Value, len(rec.Terms))
	// Output: 2.4 0
}

func ExampleFromRecord() {
	r, _ := measure.FromRecord(measure.Record{
		Value:  "2.4",
		Causes: []measure.CauseRecord{{ID: "jug-a/scale", Shape: measure.Rectangular}},
		Terms:  []measure.TermRecord{{Cause: "jug-a/scale", Scale: "0.0139"}},
	})
	fmt.Println(r.Value(), r.U())
	// Output: 2.4 0.0139
}

func ExampleMeasured_Record() {
	rec, _ := measure.MeasuredExactly(units.Millilitre.Of(2400)).Record()
	fmt.Println(rec.Value, rec.Unit)
	// Output: 2.4 L L
}

func ExampleMeasuredFromRecord() {
	v, err := measure.MeasuredFromRecord[units.VolumeDim](measure.Record{Value: "2.4 L", Unit: "L"})
	fmt.Println(v.Best(), err)
	// Output: 2.4 L <nil>
}

func ExampleTemperature_Record() {
	rec, _ := measure.TemperatureExactly(units.Celsius(41)).Record()
	fmt.Println(rec.Value, rec.Unit)
	// Output: 41 °C K
}

func ExampleTemperatureFromRecord() {
	t, err := measure.TemperatureFromRecord(measure.Record{Value: "41 °C", Unit: "K"})
	fmt.Println(t.Best(), err)
	// Output: 41 °C <nil>
}

// Four megabytes of anything cost no more than 32 MB to refuse.
func TestDecodeIsBounded(t *testing.T) {
	for name, text := range map[string]string{
		"terms":      `{"unit":"","value":"1","terms":[` + strings.Repeat(`{},`, 1_390_000) + `{}]}`,
		"causes":     `{"unit":"","value":"1","causes":[` + strings.Repeat(`{},`, 1_390_000) + `{}]}`,
		"quantiles":  `{"unit":"","value":"1","causes":[{"quantiles":[` + strings.Repeat(`"1",`, 1_040_000) + `"1"]}]}`,
		"a long key": `{"` + strings.Repeat("k", 4_000_000) + `":1}`,
		"spaces":     strings.Repeat(" ", 5<<20),
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		var r measure.Reading
		err := r.UnmarshalJSON([]byte(text))
		runtime.ReadMemStats(&after)
		if err == nil || len(err.Error()) > 300 {
			t.Errorf("%s: taken, or refused at length: %.80v", name, err)
		}
		if got := after.TotalAlloc - before.TotalAlloc - uint64(len(text)); got > 32<<20 {
			t.Errorf("%s: %d MB allocated; want at most 32", name, got>>20)
		}
	}
}

// A reading too large to be read back is not written.
func TestWhatCannotBeReadBackIsNotWritten(t *testing.T) {
	table := make([]float64, 4097)
	for i := range table {
		table[i] = float64(i)
	}
	sum := reading(t, 0)
	for i := range 26 {
		r, err := measure.FromQuantiles(fmt.Sprint("a", i), "", table)
		if err != nil {
			t.Fatal(err)
		}
		sum = sum.Plus(r)
		text, err := sum.MarshalJSON()
		if err != nil {
			if i < 20 || !strings.Contains(err.Error(), "want") {
				t.Errorf("%d tables: %v", i+1, err)
			}
			return
		}
		var back measure.Reading
		if err := back.UnmarshalJSON(text); err != nil {
			t.Fatalf("%d tables are written, and not read: %v", i+1, err)
		}
	}
	t.Error("26 tables are written")
}

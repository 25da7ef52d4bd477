package measure_test

import (
	"math"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// Nothing panics where there is nothing: no receiver, no stream, no distribution
// worth the name.
func TestNothingToWorkOn(t *testing.T) {
	data := []byte(`{"value":"1"}`)
	for name, err := range map[string]error{
		"reading":     (*measure.Reading)(nil).UnmarshalJSON(data),
		"volume":      (*measure.Volume)(nil).UnmarshalJSON(data),
		"temperature": (*measure.Temperature)(nil).UnmarshalJSON(data),
		"shape":       (*measure.Shape)(nil).UnmarshalText([]byte("normal")),
		"verdict":     (*measure.Verdict)(nil).UnmarshalText([]byte("inside")),
	} {
		if err == nil {
			t.Errorf("%s was read into nothing", name)
		}
	}
	var s *measure.Stream
	if s.Uint64() != 0 || s.Uniform() != 0.5 || s.Normal() != 0 {
		t.Error("no stream gives numbers")
	}
	if u := new(measure.Stream).Uniform(); !(u > 0 && u < 1) {
		t.Errorf("the zero stream gives %v", u)
	}
	if _, err := measure.DecideOn(measure.AtLeast(1), rubbish{}, 0.05); err == nil {
		t.Error("a distribution of NaN was judged")
	}
	var table measure.Table
	if table.Text() == "" || table.Markdown() == "" || len(table.Largest(3)) != 0 {
		t.Error("the zero table does not print")
	}
	table.Rows = []measure.Row{{U: math.NaN(), Shape: 99}}
	if _, err := table.MarshalJSON(); err == nil {
		t.Error("a table of rubbish was written")
	}
	_ = table.Text()
	var v measure.Volume
	var at measure.Temperature
	if v.Err() != nil || at.Err() != nil || v.Best() != (units.Volume{}) || !at.Best().IsZero() {
		t.Error("the zero values are not zero")
	}
}

type rubbish struct{}

func (rubbish) CDF(float64) float64               { return math.NaN() }
func (rubbish) Quantile(float64) (float64, error) { return 1, nil }

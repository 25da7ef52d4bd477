package units

import (
	"testing"
)

func TestTemperatureProperties(t *testing.T) {
	points := []Temperature{{}, {1}, Celsius(0), Fahrenheit(0), Celsius(20), Fahrenheit(97), Celsius(150), {maxTicks}}
	for _, p := range points {
		for _, q := range points {
			if d := p.Sub(q); q.Add(d) != p || d.Neg() != q.Sub(p) || d.Sign() != p.Compare(q) || p.Equal(q) != d.IsZero() {
				t.Errorf("%v and %v: difference %v", p, q, d)
			}
			m, err := MeanTemperature(p, q)
			if err != nil || m.Compare(p)*m.Compare(q) > 0 {
				t.Errorf("mean of %v and %v is %v, %v", p, q, m, err)
			}
		}
	}
	if m, _ := MeanTemperature(Fahrenheit(95), Fahrenheit(97), Fahrenheit(99)); m != Fahrenheit(97) {
		t.Errorf("mean of 95, 97, 99 °F is %v", m)
	}
	// Half a tick: to even.
	if m, _ := MeanTemperature(Temperature{1}, Temperature{2}); m.ticks != 2 {
		t.Errorf("mean of 1 and 2 ticks is %d", m.ticks)
	}
	if m, _ := MeanTemperature(Temperature{2}, Temperature{3}); m.ticks != 2 {
		t.Errorf("mean of 2 and 3 ticks is %d", m.ticks)
	}
	if m, _ := MeanTemperature(Temperature{maxTicks}, Temperature{maxTicks}, Temperature{maxTicks}); m.ticks != maxTicks {
		t.Errorf("mean of the hottest is %d", m.ticks)
	}
	if _, err := MeanTemperature(); err == nil {
		t.Error("no temperatures have a mean")
	}
	if !(Temperature{}).IsZero() || Celsius(0).IsZero() {
		t.Error("IsZero is not absolute zero")
	}
}

package exchange

import (
	"strings"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// Low and missing are said in words, never with a minus as well.
func TestLevelWords(t *testing.T) {
	ml := func(x float64) measure.Volume { return levelVolume(t, "v", x, 10) }
	for _, c := range []struct {
		v       float64
		verdict measure.Verdict
		runs    string
		off     string
	}{
		{300, measure.Above, "300 mL ± 20 mL (k = 2) should run out at the check plug.", "300 mL ± 20 mL (k = 2) high"},
		{-300, measure.Below, "300 mL ± 20 mL (k = 2) should be missing to the lip of the check plug: nothing should run.", "300 mL ± 20 mL (k = 2) low"},
		{0, measure.Undecided, "the level should stand at the lip of the check plug to within its doubt, 0 mL ± 20 mL (k = 2): a stream, a trickle or nothing can each be right.", "0 mL ± 20 mL (k = 2) off"},
		{-10, measure.Undecided, "the level should stand at the lip of the check plug to within its doubt, -10 mL ± 20 mL (k = 2): a stream, a trickle or nothing can each be right.", "10 mL ± 20 mL (k = 2) low"},
		{10, measure.Undecided, "the level should stand at the lip of the check plug to within its doubt, +10 mL ± 20 mL (k = 2): a stream, a trickle or nothing can each be right.", "10 mL ± 20 mL (k = 2) high"},
	} {
		if got := levelRuns(ml(c.v), measure.Decision{Verdict: c.verdict}); got != c.runs {
			t.Errorf("%v mL, %s: got %q\nwant %q", c.v, c.verdict, got, c.runs)
		}
		if got := levelOff(ml(c.v)); got != c.off {
			t.Errorf("%v mL: got %q, want %q", c.v, got, c.off)
		}
	}
}

// The working of an estimate from 100, 80, 64, 51.2 in drains of 2 L: the marker falls
// by ln 1.25 = 0.22314 a drain, so the capacity is 2/(1 - 0.8) = 10 L (by hand).
func TestEstimateStepsByHand(t *testing.T) {
	m := Markers{Readings: []float64{105, 85, 69, 56.2}, Fresh: 5, ReadingU: 0.001}
	for range m.Readings {
		m.Drains = append(m.Drains, units.Litre.Of(2))
	}
	e, err := EstimateCapacity(m)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"fall of ln(marker - new fluid) a drain = least squares of ln(marker) = 4 readings = 0.22314 ± ",
		"capacity = d/(1 - exp(-step)) = 2.000 L/(1 - exp(-0.22314)) = 10.00 L\n",
		"standard error = C·u(step)·exp(-step)/(1 - exp(-step)) = 10.00 L × ",
		"t = 1.960, known reading error = ",
		"step shrinks a drain = second difference = ",
	} {
		if !strings.Contains(e.Steps.Text(), want) {
			t.Errorf("working lacks %q:\n%s", want, e.Steps.Text())
		}
	}
	m.Noise, m.Fresh, m.ReadingU, m.Readings = AbsoluteNoise, 0, 0, []float64{100, 80, 64, 51.3}
	if e, err = EstimateCapacity(m); err != nil || !strings.Contains(e.Steps.Text(), "fall of ln(marker) a drain = least squares of the marker = 4 readings") || !strings.Contains(e.Steps.Text(), ", 2 degrees of freedom") {
		t.Errorf("%v\n%s", err, e.Steps.Text())
	}
}

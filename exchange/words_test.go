package exchange

import (
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// Excess of the shapes, textbook values: normal 0, rectangle -6/5, triangle -3/5,
// arcsine -3/2, Student 6/(ν - 4), and none that is finite up to 4 degrees.
func TestExcessOfShapes(t *testing.T) {
	for _, c := range []struct {
		shape  measure.Shape
		dof    float64
		excess float64
		unruly bool
	}{
		{measure.Normal, 0, 0, false}, {measure.Rectangular, 0, -1.2, false}, {measure.Triangular, 0, -0.6, false}, {measure.Arcsine, 0, -1.5, false},
		{measure.Student, 10, 1, false}, {measure.Student, 5, 6, false}, {measure.Student, 4, 0, true}, {measure.Student, 3, 0, true},
	} {
		cause, err := measure.NewCause("c", "", c.shape, c.dof)
		if err != nil {
			t.Fatal(err)
		}
		if got := intervalShape(cause); math.Abs(got.excess-c.excess) > 1e-15 || got.unruly != c.unruly {
			t.Errorf("%v of %v degrees: %+v; want %v, %v", c.shape, c.dof, got, c.excess, c.unruly)
		}
	}
}

// A larger capacity leaves more old fluid, a larger drain less: d/dC Π(1 - d/C) of two
// drains of 2 L from 8 L is 2·0.75·2/64 = 0.046875 a litre, d/dd is -0.75/8 (by hand).
func TestSensitivitiesOfAShareByHand(t *testing.T) {
	s := MeasuredService{
		CapacityMeasured: levelVolume(t, "capacity", 8000, 100),
		Drains:           []measure.Volume{levelVolume(t, "one", 2000, 10), levelVolume(t, "two", 2000, 10)},
	}
	p, err := s.propagation()
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{0.046875, -0.09375, -0.09375} {
		if got := p.Sensitivities[i]; math.Abs(got-want) > 1e-12 {
			t.Errorf("sensitivity %d is %v; want %v", i, got, want)
		}
	}
	r, err := s.Interval()
	if err != nil || !strings.Contains(r.Steps.Text(), "interval of 95 % = by simulation over C and the readings") {
		t.Errorf("%v\n%s", err, r.Steps.Text())
	}
}

func TestWordsOfAnEstimate(t *testing.T) {
	for err, want := range map[*UnsettledError]string{
		nil:                     "exchange: estimate: unsettled",
		{Reason: "x", More: 0}:  "exchange: estimate: x",
		{Reason: "x", More: -1}: "exchange: estimate: x",
		{Reason: "x", More: 1}:  "exchange: estimate: x; about 1 more sample would settle it",
		{Reason: "x", More: 2}:  "exchange: estimate: x; about 2 more samples would settle it",
	} {
		if got := err.Error(); got != want {
			t.Errorf("%q; want %q", got, want)
		}
	}
	f := &estimateFit{m: Markers{Wanted: 0.02}}
	for more, want := range map[int]string{-1: "No number of further samples would bring the standard error to 2 %", 1: "About 1 more sample would bring the standard error to 2 %.", 3: "About 3 more samples would bring"} {
		if notes := strings.Join(f.notes(CapacityEstimate{Step: 0.2, More: more}), "\n"); !strings.Contains(notes, want) {
			t.Errorf("%d more: %s", more, notes)
		}
	}
	if notes := strings.Join(f.notes(CapacityEstimate{Step: 0.2, Curvature: -0.02, Straightness: StepsGrow}), "\n"); !strings.Contains(notes, "grow by 10 % a drain") || strings.Contains(notes, "further") || strings.Contains(notes, "About") {
		t.Error(notes)
	}
}

func TestPlanWordsAndWhatIfs(t *testing.T) {
	r := Request{Capacity: units.Exactly(units.Litre.Of(8)), Drain: units.Exactly(units.Litre.Of(2)), Sump: units.Litre.Of(4), Target: 0.5, Coverage: 0.9}
	for n, ok := range map[int]bool{10: true, 11: false} {
		r.WhatIfMixing = make([]float64, n)
		p, err := Plan(r)
		if (err == nil) != ok {
			t.Errorf("%d what-ifs: %v", n, err)
		}
		if ok && !strings.Contains(p.Steps.Text(), "old share, interval of 90 %") {
			t.Errorf("%s", p.Steps.Text())
		}
	}
}

func TestScheduleWords(t *testing.T) {
	two := Schedule{Services: []Service{{After: 1, Drains: []float64{0.2}}, {After: 1, Drains: []float64{0.2}}}}
	if w, err := two.FromNewSteps(50); err != nil || len(w) != 200 {
		t.Errorf("50 rounds of two: %d lines, %v", len(w), err)
	}
	if _, err := two.FromNewSteps(51); err == nil {
		t.Error("51 rounds of two are worked")
	}
	c, err := CompareSchedules(two, scheduleEvery(1, 1, 0.3))
	if err != nil || !strings.Contains(c.Steps.Text(), "first: new fluid over the length of the first's round = capacities = 0.4\n") || !strings.Contains(c.Steps.Text(), "second: new fluid over the length of the first's round = capacities = 0.6\n") {
		t.Errorf("%v\n%s", err, c.Steps.Text())
	}
	two.Services[1].Drains = make([]float64, scheduleMostDrains+1)
	if err := two.Check(); err == nil || !strings.Contains(err.Error(), "service 2: ") {
		t.Errorf("%v", err)
	}
}

package exchange

import (
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// A long bad list is answered with its first ten faults, numbered from one.
func TestAtMostTenFaults(t *testing.T) {
	l := units.Litre.Of
	bad := dilutionRepeat(l(9), 12)
	ranges := make([]units.Range[units.VolumeDim], 12)
	samples, measured := make([]DrainedSample, 12), make([]MeasuredSample, 12)
	for i := range 12 {
		ranges[i] = units.Exactly(l(9))
		samples[i] = DrainedSample{Volume: l(9), OldShare: 0.5}
		measured[i] = MeasuredSample{Volume: measure.MeasuredExactly(l(1)), OldShare: tiltDoubt(t, "s", 2, 0.1)}
	}
	_, one := Remaining(System{Capacity: l(8)}, bad)
	_, two := RemainingRange(units.Exactly(l(8)), ranges)
	_, three := FromSamples(units.Exactly(l(8)), samples)
	_, four := SamplesReading(units.Exactly(l(8)), measured)
	for name, err := range map[string]error{"remaining": one, "range": two, "samples": three, "measured": four} {
		if err == nil || !strings.Contains(err.Error(), " 1: ") && !strings.Contains(err.Error(), " 1 ") || strings.Contains(err.Error(), " 11") || strings.Contains(err.Error(), " 0:") {
			t.Errorf("%s: %v", name, err)
		}
		if n := strings.Count(err.Error(), "\n") + 1; n != 10 {
			t.Errorf("%s: %d faults; want 10", name, n)
		}
	}
	few := append(dilutionList(1, 1), bad[0])
	if _, err := Remaining(System{Capacity: l(8)}, few); err == nil || !strings.Contains(err.Error(), "drain 3") {
		t.Errorf("%v", err)
	}
}

// A share read within three of its standard uncertainties of 0 to 1 is a reading; past
// that it is a mistake.
func TestSampleSharesWithinTheirDoubt(t *testing.T) {
	l := units.Litre.Of
	sample := func(x float64) error {
		_, err := SamplesReading(units.Exactly(l(8)), []MeasuredSample{{measure.MeasuredExactly(l(1)), tiltDoubt(t, "s", x, 0.1)}})
		return err
	}
	for x, ok := range map[float64]bool{1.29: true, 1.31: false, -0.29: true, -0.31: false, 0.5: true} {
		if err := sample(x); (err == nil) != ok {
			t.Errorf("%v ± 0.1: %v", x, err)
		}
	}
	many := func(n int) error {
		s := make([]DrainedSample, n)
		for i := range s {
			s[i] = DrainedSample{Volume: l(0.001), OldShare: 0.5}
		}
		_, err := FromSamples(units.Exactly(l(8)), s)
		return err
	}
	if many(1000) != nil || many(1001) == nil || many(0) == nil {
		t.Errorf("1000 samples: %v; 1001: %v; none: %v", many(1000), many(1001), many(0))
	}
}

// Top-up counts as new fluid: 0.2 at each service of 1 and 0.1 a unit, against 0.2
// alone, is 0.3 against 0.2; equal when the second's intervals are 0.2/(0.3 - 0) of theirs.
func TestCompareSchedulesCountsTopUp(t *testing.T) {
	first, second := scheduleEvery(1, 1, 0.2), scheduleEvery(1, 1, 0.2)
	first.TopUp = 0.1
	c, err := CompareSchedules(first, second)
	if err != nil || math.Abs(c.FirstFluid-0.3) > 1e-15 || math.Abs(c.SecondFluid-0.2) > 1e-15 || math.Abs(c.Stretch-2.0/3) > 1e-15 {
		t.Errorf("%+v, %v", c, err)
	}
	if !strings.Contains(c.Steps.Text(), "first: new fluid over the length of the first's round = capacities = 0.3\n") {
		t.Errorf("%s", c.Steps.Text())
	}
	// With its own top-up the second needs (0.3 - 0.05) by drains: 0.2/0.25.
	second.TopUp = 0.05
	if c, err = CompareSchedules(first, second); err != nil || math.Abs(c.SecondFluid-0.25) > 1e-15 || math.Abs(c.Stretch-0.8) > 1e-15 {
		t.Errorf("%+v, %v", c, err)
	}
	for _, factor := range []float64{0, -1, math.Inf(1), math.NaN()} {
		if s, err := first.Stretch(factor); err == nil {
			t.Errorf("stretched by %v: %+v", factor, s)
		}
	}
	a, err := first.Steady()
	if err != nil || strings.Contains(a.Steps.Text(), "L(1 - r)/r") || !strings.Contains(a.Steps.Text(), "with top-up") {
		t.Errorf("one service with a top-up is worked as one without: %v\n%s", err, a.Steps.Text())
	}
}

func TestNumbersAsTheWorkingPrintsThem(t *testing.T) {
	for x, want := range map[float64]string{0.2: "0.2", 999999: "999999", 1e6: "1000000", 1234567: "1234567", 123456789012345: "123456789012345", 1e15: "1e+15", -2e6: "-2000000", 3.33333333e-5: "3.33333e-05"} {
		if got := scheduleNumber(x); got != want {
			t.Errorf("%v is printed %s; want %s", x, got, want)
		}
	}
	for x, want := range map[float64]string{0.25: "25.0", 1e15: "no share", -1e15: "no share", 1e308: "no share"} {
		if got := sharePercent(x); got != want {
			t.Errorf("%v is printed %s; want %s", x, got, want)
		}
	}
}

func TestMoreLimitsFromBothSides(t *testing.T) {
	l, m := units.Litre.Of, units.Metre.Of
	whatIf := func(n int) error {
		_, err := WhatIf(System{Capacity: l(8)}, make([]Pass, n))
		return err
	}
	tilt := func(area, degrees float64, hole, depth units.Length) error {
		_, err := Tilt{Area: tiltDoubt(t, "a", area, 0), Degrees: tiltDoubt(t, "d", degrees, 0), Hole: measure.MeasuredExactly(hole), Depth: depth}.Effect()
		return err
	}
	use := func(bottle float64, n int) error {
		_, err := BestUse(Request{Capacity: units.Exactly(l(8)), Drain: units.Exactly(l(2)), Target: 0.5}, Supply{Bottle: l(bottle), Bottles: n})
		return err
	}
	for name, tt := range map[string]struct{ taken, refused []error }{
		"passes":  {[]error{whatIf(0), whatIf(1000)}, []error{whatIf(1001)}},
		"area":    {[]error{tilt(10, 1, m(0.1), m(0))}, []error{tilt(10.001, 1, m(0.1), m(0)), tilt(0, 1, m(0.1), m(0))}},
		"degrees": {[]error{tilt(0.1, 45, m(0), m(0)), tilt(0.1, -45, m(0), m(0))}, []error{tilt(0.1, 45.001, m(0), m(0)), tilt(0.1, -45.001, m(0), m(0))}},
		"hole":    {[]error{tilt(0.1, 1, m(10), m(0)), tilt(0.1, 1, m(-10), m(0))}, []error{tilt(0.1, 1, m(10.001), m(0)), tilt(0.1, 1, m(-10.001), m(0))}},
		"depth":   {[]error{tilt(0.1, 1, m(0), m(10))}, []error{tilt(0.1, 1, m(0), m(10.001)), tilt(0.1, 1, m(0), m(-0.001))}},
		"bottle":  {[]error{use(500, 1), use(1, 1000)}, []error{use(500.001, 1), use(0, 1), use(1, 1001)}},
	} {
		for i, err := range tt.taken {
			if err != nil {
				t.Errorf("%s, to be taken %d: %v", name, i+1, err)
			}
		}
		for i, err := range tt.refused {
			if err == nil {
				t.Errorf("%s, to be refused %d: taken", name, i+1)
			}
		}
	}
	// An outlet that only falls, four capacities on, lets out at most a quarter of old fluid.
	f, err := ThroughFlow{Capacity: l(10), Volume: l(40)}.Flush()
	if err != nil || f.Outlet != (Share{0, 0.25}) {
		t.Errorf("%+v, %v", f.Outlet, err)
	}
}

// Every bad entry of a list is told, each once; what an entry's own fault makes
// meaningless is not looked at.
func TestEveryBadEntryIsToldOnce(t *testing.T) {
	l := units.Litre.Of
	sys := System{Capacity: l(8)}
	_, combine := Combine(sys, []Stage{{}, {Drain: l(1)}, {Drain: l(1), Flush: l(1)}})
	_, trace := WhatIf(sys, []Pass{{Drain: l(1), Sump: l(9)}, {Drain: l(1)}, {Drain: l(1), RefillOldShare: 2}})
	_, whole := RemainingRange(units.Exactly(l(8)), []units.Range[units.VolumeDim]{units.Exactly(l(9)), units.Exactly(l(1))})
	for name, c := range map[string]struct {
		err   error
		wants []string
	}{
		"combine": {combine, []string{"stage 1: drain", "stage 3: drain"}},
		"trace":   {trace, []string{"pass 1: sump", "pass 1: ", "pass 3: refill"}},
		"range":   {whole, []string{"drain 1"}},
	} {
		if c.err == nil {
			t.Fatalf("%s: taken", name)
		}
		lines := strings.Split(c.err.Error(), "\n")
		if len(lines) != len(c.wants) {
			t.Fatalf("%s: %d faults, want %d:\n%v", name, len(lines), len(c.wants), c.err)
		}
		for i, want := range c.wants {
			if !strings.Contains(lines[i], want) {
				t.Errorf("%s: fault %d is %q; want %q", name, i+1, lines[i], want)
			}
		}
	}
	s := MeasuredService{Capacity: units.Exactly(l(8)), Coverage: 2}
	for range 12 {
		s.Drains = append(s.Drains, measure.MeasuredExactly(l(9)))
	}
	if _, err := s.Interval(); err == nil || strings.Count(err.Error(), "\n") != 9 || !strings.Contains(err.Error(), "drain 9") {
		t.Errorf("coverage and 12 drains: %v", err)
	}
}

package exchange

import (
	"fmt"
	"strings"
	"testing"

	"example.com/meniscus/units/measure"
)

// intervalCaused is a service of drains each with causes of its own.
func intervalCaused(t *testing.T, drains, causes int, litres float64, shape measure.Shape, dof float64) MeasuredService {
	t.Helper()
	s := MeasuredService{Capacity: dilutionRange(t, 5, 500)}
	for i := range drains {
		var terms []measure.Term
		for k := range causes {
			c, err := measure.NewCause(fmt.Sprintf("own/%d/%d", i, k), "reading", shape, dof)
			if err != nil {
				t.Fatal(err)
			}
			terms = append(terms, measure.Term{Cause: c, Scale: 1e-4})
		}
		s.Drains = append(s.Drains, intervalDrain(t, litres, terms...))
	}
	return s
}

// Unasked for, no simulation draws more than a hundred million times, an ordinary
// service has its million trials, and what was done is told.
func TestIntervalUnaskedTrialsAreBounded(t *testing.T) {
	for _, c := range []struct {
		drains, causes int
		shape          measure.Shape
		dof            float64
		least, most    int
	}{
		{1, 1, measure.Normal, 0, 1_000_000, 1_000_000},
		{10, 5, measure.Normal, 0, 1_000_000, 1_000_000},
		{10, 8, measure.Rectangular, 0, 1_000_000, 1_000_000},
		{3, 3, measure.Student, 3, 1_000_000, 1_000_000},
		{100, 1, measure.Normal, 0, 100_000, 200_000},
		{100, 40, measure.Normal, 0, 2000, 10_000},
		{100, 40, measure.Student, 3, 2000, 2000},
	} {
		s := intervalCaused(t, c.drains, c.causes, 0.04, c.shape, c.dof)
		n := s.trials()
		if n < c.least || n > c.most || n*(c.drains*c.causes+1) > 100_000_000 {
			t.Errorf("%d drains of %d causes: %d trials; want %d to %d", c.drains, c.causes, n, c.least, c.most)
		}
		if s.Trials = 123_456; s.trials() != 123_456 {
			t.Errorf("%d trials where 123456 were asked for", s.trials())
		}
	}
	s := intervalCaused(t, 100, 16, 0.04, measure.Student, 3)
	r, err := s.Interval()
	if err != nil || r.Method != BySimulation || r.Trials != 2000 || r.Nodes != 0 {
		t.Errorf("%v by %d trials, %d nodes, %v", r.Method, r.Trials, r.Nodes, err)
	}
	// The few trials find what many do, within a fraction of the interval.
	s.Trials = 6_000
	many, err := s.Interval()
	if slack := 0.1 * (many.High - many.Low); err != nil || many.Trials != 6_000 || r.Low < many.Low-slack || r.Low > many.Low+slack || r.High < many.High-slack || r.High > many.High+slack {
		t.Errorf("%g to %g by 2000, %g to %g by %d, %v", r.Low, r.High, many.Low, many.High, many.Trials, err)
	}
	one := intervalCaused(t, 1, 1, 2, measure.Normal, 0)
	if r, err := one.Interval(); err != nil || r.Trials != 0 || r.Method != ByQuadrature {
		t.Errorf("%v by %d trials, %v", r.Method, r.Trials, err)
	}
}

func TestIntervalRefusesTooManyCauses(t *testing.T) {
	if err := intervalCaused(t, 64, 64, 0.04, measure.Normal, 0).faults(); err != nil {
		t.Error(err)
	}
	if _, err := intervalCaused(t, 65, 64, 0.04, measure.Normal, 0).Interval(); err == nil || !strings.Contains(err.Error(), "too many causes, a shared one counted with each drain; want at most 4096") {
		t.Error(err)
	}
}

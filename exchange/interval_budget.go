package exchange

import (
	"context"
	"fmt"
	"strconv"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
)

// intervalCapacityID is the stable id of the doubt about a capacity range.
const intervalCapacityID = "exchange/capacity-range"

// capacityReading is the capacity as measured, or as a rectangle over its range;
// litres.
func (s MeasuredService) capacityReading() (measure.Reading, error) {
	if s.measured() {
		return s.CapacityMeasured.Reading(), nil
	}
	cause, err := measure.NewCause(intervalCapacityID, "capacity range", measure.Rectangular, 0)
	if err != nil {
		return measure.Reading{}, err
	}
	u, err := measure.FromHalfWidth(measure.Rectangular, s.Capacity.Width().In(units.Litre)/2)
	if err != nil {
		return measure.Reading{}, err
	}
	return measure.New(s.Capacity.Mid().In(units.Litre), measure.Term{Cause: cause, Scale: u})
}

// propagation is the old share as a formula of the capacity and the drains.
func (s MeasuredService) propagation() (measure.Propagation, error) {
	capacity, err := s.capacityReading()
	if err != nil {
		return measure.Propagation{}, err
	}
	p := measure.Propagation{Inputs: []measure.Input{{Name: "capacity", Of: capacity}}, Model: intervalShareOf}
	for i, d := range s.Drains {
		p.Inputs = append(p.Inputs, measure.Input{Name: "drain " + strconv.Itoa(i+1), Of: d.Reading()})
	}
	x := make([]float64, len(p.Inputs))
	for i, in := range p.Inputs {
		x[i] = in.Of.Value()
	}
	share, c := intervalShareOf(x), x[0]
	p.Sensitivities = make([]float64, len(x))
	for i, d := range x[1:] {
		p.Sensitivities[i+1] = -share / (c - d)
		p.Sensitivities[0] += share / (c - d) * d / c
	}
	return p, nil
}

// intervalShareOf is Π(1 - d/C) of x = C, d1, d2, … A capacity drawn from a far
// tail, below a drain, leaves nothing.
func intervalShareOf(x []float64) float64 {
	share := 1.0
	for _, d := range x[1:] {
		if x[0] <= max(d, 0) {
			return 0
		}
		share *= (x[0] - d) / x[0]
	}
	return share
}

// Reading returns the old share with the causes of its doubt, the capacity range
// among them, by first-order propagation (JCGM 100:2008 5.1.2); it is a share, 0
// to 1. Its standard uncertainty is fair, its interval is not: use
// [MeasuredService.Interval]. Faults as there.
func (s MeasuredService) Reading() (measure.Reading, error) {
	if err := s.faults(); err != nil {
		return measure.Reading{}, fmt.Errorf("exchange: reading: %w", err)
	}
	p, err := s.propagation()
	if err != nil {
		return measure.Reading{}, fmt.Errorf("exchange: reading: %w", err)
	}
	r, err := measure.Propagate(p)
	if err != nil {
		return measure.Reading{}, fmt.Errorf("exchange: reading: %w", err)
	}
	return r, nil
}

// Budget returns the table of what the doubt of the old share comes from, the
// largest first: usually the capacity by far. Faults as for Interval.
func (s MeasuredService) Budget() (measure.Table, error) {
	if err := s.faults(); err != nil {
		return measure.Table{}, fmt.Errorf("exchange: budget: %w", err)
	}
	p, err := s.propagation()
	if err != nil {
		return measure.Table{}, fmt.Errorf("exchange: budget: %w", err)
	}
	t, err := p.Budget()
	if err != nil {
		return measure.Table{}, fmt.Errorf("exchange: budget: %w", err)
	}
	t.Quantity = "old share"
	return t, nil
}

// outcome simulates the service.
func (s MeasuredService) outcome() (*measure.Outcome, error) {
	p, err := s.propagation()
	if err != nil {
		return nil, err
	}
	return measure.Simulate(context.Background(), measure.Simulation{Inputs: p.Inputs, Model: p.Model, Trials: s.trials(), Seed: s.Seed})
}

const (
	// intervalOrdinary is the cost of one trial up to which a million are run.
	intervalOrdinary = 100
	// intervalWork is the cost, in draws of a cause, that a larger model may have.
	intervalWork = 25_000_000
	// intervalStudent is what a draw of a Student cause costs beside others.
	intervalStudent = 8
)

// trials is how many the simulation runs. A million nobody asked for are half a
// minute where each draws thousands of causes.
func (s MeasuredService) trials() int {
	if s.Trials != 0 {
		return s.Trials
	}
	cost := len(s.Drains) + 1
	for _, d := range s.readings() {
		for _, t := range d.Terms() {
			cost++
			if t.Cause.Shape() == measure.Student {
				cost += intervalStudent - 1
			}
		}
	}
	if cost <= intervalOrdinary {
		return intervalTrials
	}
	return max(intervalFewest, intervalWork/cost)
}

// readings are those of the drains and of a measured capacity.
func (s MeasuredService) readings() []measure.Reading {
	all := make([]measure.Reading, 0, len(s.Drains)+1)
	for _, d := range s.Drains {
		all = append(all, d.Reading())
	}
	if s.measured() {
		all = append(all, s.CapacityMeasured.Reading())
	}
	return all
}

// manyTerms looks no further than it must.
func (s MeasuredService) manyTerms() bool {
	n := 0
	for _, r := range s.readings() {
		if n += len(r.Terms()); n > intervalMostTerms {
			return true
		}
	}
	return false
}

// simulate stands in where the quadrature will not do.
func (s MeasuredService) simulate(r *ShareInterval) error {
	o, err := s.outcome()
	if err != nil {
		return err
	}
	i, err := o.Interval(r.Coverage)
	if err != nil {
		return err
	}
	if r.Median, err = o.Quantile(0.5); err != nil {
		return err
	}
	r.Low, r.High, r.Method, r.Nodes, r.Trials = i.Low, i.High, BySimulation, 0, s.trials()
	return nil
}

func (s MeasuredService) capacityText() string {
	if s.measured() {
		return "C = " + stepLitres(s.bestCapacity()) + ", u = " + stepLitres(s.CapacityMeasured.U())
	}
	return "C from " + stepLitres(s.Capacity.Low()) + " to " + stepLitres(s.Capacity.High())
}

func (s MeasuredService) steps(r ShareInterval) working.Steps {
	steps := make(working.Steps, 0, 3)
	steps = steps.Add("old share, middle of the capacity", "Π(1 - d/C)", strconv.Itoa(len(s.Drains))+" drains, C = "+stepLitres(s.bestCapacity()), shareText(r.Best))
	steps = steps.Add("interval of "+strconv.FormatFloat(100*r.Coverage, 'g', 4, 64)+" %", "by "+r.Method.String()+" over C and the readings",
		s.capacityText(), shareText(r.Low)+" to "+shareText(r.High))
	return steps.Add("part of the variance that is the capacity's", "(u·∂/∂C)² / u²", "", sharePercent(r.CapacityShare)+" %")
}

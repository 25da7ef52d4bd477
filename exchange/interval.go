package exchange

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
)

// MeasuredService is a service done and measured: drains with the doubt of their
// readings, from a well-mixed box whose capacity is a range in a book or was
// itself measured.
type MeasuredService struct {
	Capacity units.Range[units.VolumeDim] // every value in it equally likely
	// CapacityMeasured stands instead of Capacity where the capacity was found, as by
	// [EstimateCapacity], and not read from a book. The interval is then simulated.
	CapacityMeasured measure.Volume
	Drains           []measure.Volume // 1 to 100, each refilled with as much new fluid
	Coverage         float64          // probability of the interval; zero: 0.95
	// Trials of the simulation that stands in, if one must; 1000 to 2^30. Zero is 1e6
	// for an ordinary service, about ten drains of five causes each; for a larger one
	// so many, never below 2000, that nobody waits a second who did not ask to. An end
	// of a 95 % interval is then good to about 3/√Trials standard deviations.
	Trials int
	Seed   uint64 // of that simulation
}

// IntervalMethod says how an interval was found. The zero value is not at all.
type IntervalMethod uint8

const (
	// ByDefinition: nothing but the capacity is in doubt, or nothing at all.
	ByDefinition IntervalMethod = iota + 1
	// ByQuadrature: integrated over the capacity, the readings taken as normal with
	// corrections for skewness and excess.
	ByQuadrature
	// BySimulation: drawn at random with the seed.
	BySimulation
)

// String returns "definition", "quadrature", "simulation", or "none".
func (m IntervalMethod) String() string {
	switch m {
	case ByDefinition:
		return "definition"
	case ByQuadrature:
		return "quadrature"
	case BySimulation:
		return "simulation"
	}
	return "none"
}

// ShareInterval is an old share with its doubt.
type ShareInterval struct {
	Best      float64 // at the middle of the capacity and the best estimates of the drains
	Median    float64
	Low, High float64 // leave (1 - Coverage)/2 on either side
	Coverage  float64
	Method    IntervalMethod
	Nodes     int // of the quadrature over the capacity
	Trials    int // of the simulation that stood in; zero: none did
	// CapacityShare is the part of the variance that comes from the capacity, by
	// first-order propagation, 0 to 1.
	CapacityShare float64
	Caveats       []Caveat
	Steps         working.Steps
}

// intervalAgree is how far two rules may differ at an end of the interval. With
// twice the nodes the error falls by orders of magnitude: what is returned is far
// better.
const intervalAgree = 1e-6

const (
	intervalUsual      = 0.95
	intervalMostDrains = 100
	intervalMostTerms  = 4096 // causes of all drains and of the capacity
	intervalTrials     = 1_000_000
	intervalFewest     = 2000
)

// Interval returns the old share after the drains with the interval that holds it
// with probability Coverage. For each capacity the readings' causes make the
// share nearly normal; its spread, skewness and excess follow from the causes,
// shared ones added with their signs. That is integrated over the capacity by a
// Gauss-Legendre rule whose nodes are doubled until both ends agree to 1e-6.
//
// Where they do not agree, or where few or unruly causes make the share other
// than nearly normal, a simulation of JCGM 101:2008 with the given seed stands in;
// Method and the caveat [SimulatedInterval] say so. The interval is cut off at 0
// and 1.
//
// Capacity above 0 and at most 500 L, a measured one to four standard
// uncertainties each way; every drain between 0 and the
// smallest capacity and in doubt by at most a tenth of what it leaves there; all
// of them together with at most 4096 causes, a shared one counted with each;
// Coverage between 0.01 and 0.9999. All faults are reported; beside an error all shares
// are 1.
func (s MeasuredService) Interval() (ShareInterval, error) {
	if err := s.faults(); err != nil {
		return intervalOld(), fmt.Errorf("exchange: interval: %w", err)
	}
	m, err := newIntervalModel(s)
	if err != nil {
		return intervalOld(), fmt.Errorf("exchange: interval: %w", err)
	}
	r := ShareInterval{Coverage: s.coverage(), Best: m.at(m.mid()).plain, CapacityShare: m.capacityShare()}
	if s.measured() {
		u := float64(m.at(m.mid()).slope * s.CapacityMeasured.U().In(units.Litre))
		r.CapacityShare = intervalPart(float64(u*u), m.at(m.mid()))
	}
	if s.measured() || !m.fill(&r) {
		if err := s.simulate(&r); err != nil {
			return intervalOld(), fmt.Errorf("exchange: interval: %w", err)
		}
		r.Caveats = append(r.Caveats, SimulatedInterval)
	}
	if r.CapacityShare > 0.5 {
		r.Caveats = append(r.Caveats, CapacityDominates)
	}
	r.Low, r.High, r.Median = intervalClip(r.Low), intervalClip(r.High), intervalClip(r.Median)
	r.Steps = s.steps(r)
	return r, nil
}

// Chance returns the probability, 0 to 1, that the old share is at most the
// target, by the same quadrature or, where that will not do, the same simulation;
// with it a target can be judged at a stated risk. Faults as for Interval.
func (s MeasuredService) Chance(target float64) (float64, error) {
	err := s.faults()
	if !systemIsShare(target) {
		err = errors.Join(err, systemShareFault("target", target))
	}
	if err != nil {
		return 0, fmt.Errorf("exchange: chance: %w", err)
	}
	m, err := newIntervalModel(s)
	if err != nil {
		return 0, fmt.Errorf("exchange: chance: %w", err)
	}
	if p, ok := m.chance(target); ok && !s.measured() {
		return p, nil
	}
	o, err := s.outcome()
	if err != nil {
		return 0, fmt.Errorf("exchange: chance: %w", err)
	}
	return o.CDF(target), nil
}

func intervalOld() ShareInterval { return ShareInterval{Best: 1, Median: 1, Low: 1, High: 1} }

func intervalClip(x float64) float64 { return min(1, max(0, x)) }

func intervalCoverage(c float64) bool { return c >= 0.01 && c <= 0.9999 }

func (s MeasuredService) coverage() float64 {
	if s.Coverage == 0 {
		return intervalUsual
	}
	return s.Coverage
}

func (s MeasuredService) faults() error {
	if err := s.capacityFault(); err != nil {
		return err
	}
	var faults []error
	if c := s.coverage(); !intervalCoverage(c) {
		faults = append(faults, fmt.Errorf("coverage %g; want 0.01 to 0.9999, or 0 for %g", c, intervalUsual))
	}
	if s.Trials < 0 || s.Trials > 1<<30 || s.Trials > 0 && s.Trials < 1000 {
		faults = append(faults, fmt.Errorf("%d trials; want 1000 to %d, or 0 for at most %d", s.Trials, 1<<30, intervalTrials))
	}
	if n := len(s.Drains); n < 1 || n > intervalMostDrains {
		return errors.Join(append(faults, fmt.Errorf("%d drains; want 1 to %d", n, intervalMostDrains))...)
	}
	if s.manyTerms() {
		return errors.Join(append(faults, fmt.Errorf("too many causes, a shared one counted with each drain; want at most %d", intervalMostTerms))...)
	}
	for i, d := range s.Drains {
		if len(faults) >= remainingMostFaults {
			break
		}
		if err := s.drainFault(d); err != nil {
			faults = append(faults, fmt.Errorf("drain %d: %w", i+1, err))
		}
	}
	return errors.Join(faults...)
}

// measured says that the capacity is a measured one.
func (s MeasuredService) measured() bool {
	return s.Capacity.IsZero() && !s.CapacityMeasured.Best().IsZero()
}

func (s MeasuredService) capacityFault() error {
	if !s.CapacityMeasured.Valid() {
		return fmt.Errorf("capacity: %w", s.CapacityMeasured.Err())
	}
	if !s.Capacity.IsZero() && !s.CapacityMeasured.Best().IsZero() {
		return errors.New("a capacity range and a measured capacity; want one of the two")
	}
	for _, end := range [...]units.Volume{s.leastCapacity(), s.mostCapacity()} {
		if err := systemCapacityFault(end); err != nil {
			return err
		}
	}
	return nil
}

// intervalFar is how many standard uncertainties a measured capacity is followed
// to each side when inputs are judged.
const intervalFar = 4

func (s MeasuredService) leastCapacity() units.Volume {
	if s.measured() {
		return s.CapacityMeasured.Best().Sub(s.CapacityMeasured.U().Scale(intervalFar))
	}
	return s.Capacity.Low()
}

func (s MeasuredService) mostCapacity() units.Volume {
	if s.measured() {
		return s.CapacityMeasured.Best().Add(s.CapacityMeasured.U().Scale(intervalFar))
	}
	return s.Capacity.High()
}

// bestCapacity is the middle of the range, or the best estimate.
func (s MeasuredService) bestCapacity() units.Volume {
	if s.measured() {
		return s.CapacityMeasured.Best()
	}
	return s.Capacity.Mid()
}

func (s MeasuredService) drainFault(d measure.Volume) error {
	if !d.Valid() {
		return d.Err()
	}
	best, least := d.Best(), s.leastCapacity()
	if best.Sign() < 0 || best.Compare(least) >= 0 {
		return fmt.Errorf("%s; want 0 to below the smallest capacity, %s", best, least)
	}
	if u, rest := d.U(), least.Sub(best); !u.Valid() || u.Compare(rest.Scale(0.1)) > 0 {
		return fmt.Errorf("standard uncertainty %s; want at most a tenth of what is left, %s", u, rest)
	}
	return nil
}

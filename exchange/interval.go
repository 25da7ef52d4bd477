package exchange

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
)

// MeasuredService is a service done and measured: drains with the doubt of their
// readings, from a well-mixed box whose capacity is a range in a book.
type MeasuredService struct {
	Capacity units.Range[units.VolumeDim] // every value in it equally likely
	Drains   []measure.Volume             // 1 to 100, each refilled with as much new fluid
	Coverage float64                      // probability of the interval; zero: 0.95
	Trials   int                          // of the simulation that stands in, if one must; zero: 1e6
	Seed     uint64                       // of that simulation
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
	intervalTrials     = 1_000_000
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
// Capacity above 0 and at most 500 L; every drain between 0 and the smallest
// capacity and in doubt by less than a tenth of what it leaves in the smallest box;
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
	settled := m.fill(&r)
	if !settled {
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
// target, by the same quadrature; with it a target can be judged at a stated
// risk. Faults as for Interval. It needs readings that make the share nearly
// normal; where they do not, it is an error that says so.
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
	if m.unruly {
		return 0, errors.New("exchange: chance: the readings' causes are too far from normal; want Interval, which simulates")
	}
	return m.chance(target), nil
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
	for _, end := range [...]units.Volume{s.Capacity.Low(), s.Capacity.High()} {
		if err := systemCapacityFault(end); err != nil {
			return err
		}
	}
	var faults []error
	if c := s.coverage(); !intervalCoverage(c) {
		faults = append(faults, fmt.Errorf("coverage %g; want 0.01 to 0.9999, or 0 for %g", c, intervalUsual))
	}
	if s.Trials < 0 || s.Trials > 1<<30 || s.Trials > 0 && s.Trials < 1000 {
		faults = append(faults, fmt.Errorf("%d trials; want 1000 to %d, or 0 for %d", s.Trials, 1<<30, intervalTrials))
	}
	if n := len(s.Drains); n < 1 || n > intervalMostDrains {
		return errors.Join(append(faults, fmt.Errorf("%d drains; want 1 to %d", n, intervalMostDrains))...)
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

func (s MeasuredService) drainFault(d measure.Volume) error {
	if !d.Valid() {
		return d.Err()
	}
	best, least := d.Best(), s.Capacity.Low()
	if best.Sign() < 0 || best.Compare(least) >= 0 {
		return fmt.Errorf("%s; want 0 to below the smallest capacity, %s", best, least)
	}
	if u, rest := d.U(), least.Sub(best); !u.Valid() || u.Compare(rest.Scale(0.1)) > 0 {
		return fmt.Errorf("standard uncertainty %s; want at most a tenth of what is left, %s", u, rest)
	}
	return nil
}

package exchange

import (
	"errors"
	"fmt"
	"math"
)

// Service is one stop in a round of services: so far after the one before, so
// many drain-and-fills.
type Service struct {
	// After is the length since the service before; for the first one since
	// the last of the round before. 0 to 1e9, in the schedule's unit.
	After float64
	// Drains holds the share of the capacity, 0 to 1, that each
	// drain-and-fill of this service exchanges.
	Drains []float64
}

// Schedule is a round of services that is repeated for ever, on a well-mixed
// box. The zero value has no services and every use of it is an error.
//
// Lengths are distance or time, whichever the box is serviced by; Unit names
// it. DistanceRound and TimeRound make a Schedule from quantities.
type Schedule struct {
	Services []Service // 1 to 1000
	// TopUp is the share of the capacity that leaks out, and is made good with
	// new fluid little by little, over one unit of length. 0 for a tight box.
	TopUp float64
	Unit  string // of lengths and ages, such as "km" or "days"; for the working
}

const (
	scheduleMostServices = 1000
	scheduleMostDrains   = 100
	scheduleMostLength   = 1e9
)

// ErrNoExchange is wrapped where a schedule exchanges too little for its age to
// settle.
var ErrNoExchange = errors.New("no fluid is exchanged")

// Check reports the faults of a schedule at once, the first ten of its services.
func (s Schedule) Check() error {
	if len(s.Services) == 0 || len(s.Services) > scheduleMostServices {
		return scheduleServicesFault(len(s.Services))
	}
	var faults []error
	for i, v := range s.Services {
		if len(faults) >= remainingMostFaults {
			break
		}
		faults = append(faults, v.faults(i)...)
	}
	faults = faults[:min(len(faults), remainingMostFaults)]
	if !scheduleWithin(s.TopUp, 1e6) {
		faults = append(faults, fmt.Errorf("exchange: schedule: top-up %g of the capacity for each %s; want 0 to 1e6", s.TopUp, s.unit()))
	}
	if err := errors.Join(faults...); err != nil {
		return err
	}
	if s.round() <= 0 {
		return fmt.Errorf("exchange: schedule: the round has length %g %s; want more than 0", s.round(), s.unit())
	}
	return nil
}

func (v Service) faults(i int) []error {
	var faults []error
	if !scheduleWithin(v.After, scheduleMostLength) {
		faults = append(faults, fmt.Errorf("exchange: schedule: service %d: after %g; want 0 to %g", i+1, v.After, float64(scheduleMostLength)))
	}
	if err := scheduleDrainsFault(i, len(v.Drains)); err != nil {
		return append(faults, err)
	}
	for k, d := range v.Drains {
		if len(faults) >= remainingMostFaults {
			break
		}
		if !scheduleWithin(d, 1) {
			faults = append(faults, fmt.Errorf("exchange: schedule: service %d: drain %d exchanges a share of %g; want 0 to 1", i+1, k+1, d))
		}
	}
	return faults
}

func scheduleDrainsFault(i, n int) error {
	if n > scheduleMostDrains {
		return fmt.Errorf("exchange: schedule: service %d: %d drains; want at most %d", i+1, n, scheduleMostDrains)
	}
	return nil
}

// scheduleRoundFault refuses a round that is too long before it is turned into
// shares; n tells the drains of a service.
func scheduleRoundFault(services int, n func(i int) int) error {
	if services > scheduleMostServices {
		return scheduleServicesFault(services)
	}
	var faults []error
	for i := range services {
		if err := scheduleDrainsFault(i, n(i)); err != nil && len(faults) < remainingMostFaults {
			faults = append(faults, err)
		}
	}
	return errors.Join(faults...)
}

func scheduleServicesFault(n int) error {
	return fmt.Errorf("exchange: schedule: %d services; want 1 to %d", n, scheduleMostServices)
}

// scheduleWithin is false for NaN as well.
func scheduleWithin(x, most float64) bool { return x >= 0 && x <= most }

func (s Schedule) unit() string {
	if s.Unit == "" {
		return "unit of length"
	}
	return coverClip(s.Unit)
}

// Round returns the length of one round, the sum of After; 0 for a schedule
// that Check refuses.
func (s Schedule) Round() float64 {
	if s.Check() != nil {
		return 0
	}
	return s.round()
}

func (s Schedule) round() float64 {
	sum := 0.0
	for _, v := range s.Services {
		sum += v.After
	}
	return sum
}

// Fluid returns the new fluid used over one unit of length, drains and top-up,
// in capacities of the box. Schedules are fairly compared at equal fluid. It
// errors as Check does.
func (s Schedule) Fluid() (float64, error) {
	if err := s.Check(); err != nil {
		return 0, err
	}
	return s.drained()/s.round() + s.TopUp, nil
}

// drained is the sum of all drains of a round, in capacities.
func (s Schedule) drained() float64 {
	sum := 0.0
	for _, v := range s.Services {
		for _, d := range v.Drains {
			sum += d
		}
	}
	return sum
}

// Stretch returns the schedule with every interval times the factor, above 0:
// the same services further apart or closer. It errors as Check does, on the
// schedule given and on the result.
func (s Schedule) Stretch(factor float64) (Schedule, error) {
	if err := s.Check(); err != nil {
		return Schedule{}, err
	}
	if !(factor > 0) || math.IsInf(factor, 0) {
		return Schedule{}, fmt.Errorf("exchange: schedule: stretch by %g; want a factor above 0", factor)
	}
	out := Schedule{Services: make([]Service, len(s.Services)), TopUp: s.TopUp, Unit: s.Unit}
	for i, v := range s.Services {
		out.Services[i] = Service{After: float64(v.After * factor), Drains: append([]float64(nil), v.Drains...)}
	}
	if err := out.Check(); err != nil {
		return Schedule{}, err
	}
	return out, nil
}

// exchanged is the share of new fluid after a service, 1 - Π(1-d), in a form
// that keeps small shares.
func (v Service) exchanged() float64 {
	n := 0.0
	for _, d := range v.Drains {
		n = scheduleAlso(n, d)
	}
	return n
}

// scheduleAlso is the new share after a share n is new and a further share d
// of everything is replaced: 1 - (1-n)(1-d).
func scheduleAlso(n, d float64) float64 { return n + float64((1-n)*d) }

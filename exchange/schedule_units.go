package exchange

import (
	"errors"
	"fmt"
	"math"
	"time"

	"example.com/meniscus/units"
)

// DistanceService is one stop of a round kept by distance.
type DistanceService struct {
	After  units.Distance // since the service before
	Drains []units.Volume // each at most the capacity
}

// DistanceRound is a round of services kept by distance.
type DistanceRound struct {
	Capacity units.Volume
	Unit     units.Unit[units.DistanceDim] // of the schedule's lengths and ages; zero is kilometres
	Services []DistanceService
	Leak     units.Volume   // lost, and topped up little by little, ...
	LeakOver units.Distance // ... over this distance
}

// Schedule returns the round as a Schedule in the unit asked for. Shares are
// the nearest float64. Volumes below 0 or past the capacity, a capacity or a
// leak distance not above 0, and what Schedule.Check refuses are errors.
func (r DistanceRound) Schedule() (Schedule, error) {
	if err := scheduleRoundFault(len(r.Services), func(i int) int { return len(r.Services[i].Drains) }); err != nil {
		return Schedule{}, err
	}
	unit := r.Unit
	if unit == 0 {
		unit = units.Kilometre
	}
	s := Schedule{Unit: unit.String()}
	for _, v := range r.Services {
		s.Services = append(s.Services, Service{After: v.After.In(unit), Drains: scheduleShares(v.Drains, r.Capacity)})
	}
	return s.finish(r.Capacity, r.Leak, r.LeakOver.In(unit))
}

// TimeService is one stop of a round kept by time.
type TimeService struct {
	After  time.Duration  // since the service before
	Drains []units.Volume // each at most the capacity
}

// TimeRound is a round of services kept by time.
type TimeRound struct {
	Capacity units.Volume
	Services []TimeService
	Leak     units.Volume  // lost, and topped up little by little, ...
	LeakOver time.Duration // ... over this time
}

// Schedule returns the round as a Schedule in days of 24 hours. Rounding and
// errors as for DistanceRound.
func (r TimeRound) Schedule() (Schedule, error) {
	if err := scheduleRoundFault(len(r.Services), func(i int) int { return len(r.Services[i].Drains) }); err != nil {
		return Schedule{}, err
	}
	s := Schedule{Unit: "days"}
	for _, v := range r.Services {
		s.Services = append(s.Services, Service{After: scheduleDays(v.After), Drains: scheduleShares(v.Drains, r.Capacity)})
	}
	return s.finish(r.Capacity, r.Leak, scheduleDays(r.LeakOver))
}

func scheduleDays(d time.Duration) float64 { return float64(d) / float64(24*time.Hour) }

// scheduleShares may hold Huge or negative shares; Check names them.
func scheduleShares(drains []units.Volume, capacity units.Volume) []float64 {
	shares := make([]float64, 0, len(drains))
	for _, d := range drains {
		shares = append(shares, d.Ratio(capacity))
	}
	return shares
}

func (s Schedule) finish(capacity, leak units.Volume, over float64) (Schedule, error) {
	if !capacity.Valid() || capacity.Sign() <= 0 {
		return Schedule{}, fmt.Errorf("exchange: schedule: capacity %s; want more than 0 L", capacity)
	}
	var err error
	switch {
	case leak.IsZero():
	case !leak.Valid() || leak.Sign() < 0:
		err = fmt.Errorf("exchange: schedule: leak %s; want 0 L or more", leak)
	case !(over > 0) || over >= math.MaxFloat64:
		err = fmt.Errorf("exchange: schedule: leak of %s over %g %s; want a length above 0", leak, over, s.Unit)
	default:
		s.TopUp = leak.Ratio(capacity) / over
	}
	if err := errors.Join(err, s.Check()); err != nil {
		return Schedule{}, err
	}
	return s, nil
}

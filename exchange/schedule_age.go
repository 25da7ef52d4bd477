package exchange

import (
	"fmt"
	"math"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units/working"
)

// Age is the age of the fluid in a box at one moment: how far, or how long, it
// has been in there.
type Age struct {
	Mean float64 // over all the fluid in the box
	SD   float64 // standard deviation over the fluid in the box
}

// ServiceAge is the age of the fluid at one service.
type ServiceAge struct {
	At        float64 // length into the round, or from new
	Exchanged float64 // share of new fluid this service brings, 0 to 1
	Before    Age     // just before it
	After     Age     // just after it
	FirstFill float64 // share of the fluid the box was new with, just after; 0 in steady state
}

// Ages is the age of the fluid once the schedule has been kept for ever.
// There is no single age: it depends on when one looks, so each says when.
type Ages struct {
	Services []ServiceAge
	Mean     float64 // mean age, averaged over the whole round
	Lowest   float64 // mean age at its lowest, just after some service
	Highest  float64 // mean age at its highest, just before some service
	Steps    working.Steps
}

// Steady returns the age of the fluid in the steady state of the schedule, in
// its unit of length.
//
// For one service every L that brings a new share r it is L(1-r)/r just after,
// L/r just before and L(1/r - 1/2) over the interval: the law of accumulation
// under repeated dosing, 1/(1-q) with q = 1-r. Between services age grows by
// dm = (1 - λm)dx where λ is the top-up. Results are float64, good to some
// 1e-14 for each service of the round; SD to 1e-7 of the mean.
//
// It errors as Check does, and wraps ErrNoExchange where nothing, or too little
// to compute with, is exchanged. Steady state is slow to come: see FromNew and
// Settled.
func (s Schedule) Steady() (Ages, error) {
	if err := s.Check(); err != nil {
		return Ages{}, err
	}
	n := s.roundExchanged()
	// One round takes the moments of age through an affine map; its fixed point
	// follows from where a box with new fluid ends up.
	end, _ := s.walk(scheduleMoments{}, nil)
	start := scheduleMoments{first: end.first / n}
	// The map of the second moment has the first one in it.
	end, _ = s.walk(start, nil)
	start.second = end.second / n
	if n <= 0 || !(start.second <= math.MaxFloat64) {
		return Ages{}, fmt.Errorf("exchange: schedule: %w, or next to none: the age grows without end; want drains or a top-up", ErrNoExchange)
	}
	a := Ages{Services: make([]ServiceAge, 0, len(s.Services))}
	_, area := s.walk(start, func(v ServiceAge) { a.Services = append(a.Services, v) })
	a.Mean = area / s.round()
	a.Lowest, a.Highest = a.Services[0].After.Mean, a.Services[0].Before.Mean
	for _, v := range a.Services {
		a.Lowest, a.Highest = min(a.Lowest, v.After.Mean), max(a.Highest, v.Before.Mean)
	}
	a.Steps = s.steps(a, n)
	return a, nil
}

// FromNew returns the age at every service of the first rounds of a box filled
// with new fluid at length 0: the way to the steady state. It errors as Check
// does and where rounds is not 1 to 10 000 or gives more than 100 000 services.
func (s Schedule) FromNew(rounds int) ([]ServiceAge, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	if rounds < 1 || rounds > 10_000 || rounds*len(s.Services) > 100_000 {
		return nil, fmt.Errorf("exchange: schedule: %d rounds of %d services; want 1 to 10 000 rounds and at most 100 000 services", rounds, len(s.Services))
	}
	out := make([]ServiceAge, 0, rounds*len(s.Services))
	m, at, first := scheduleMoments{}, 0.0, 1.0
	for range rounds {
		m, _ = s.walk(m, func(v ServiceAge) {
			i := len(out) % len(s.Services)
			at += s.Services[i].After
			first *= elementary.Exp(-float64(s.TopUp*s.Services[i].After)) * (1 - v.Exchanged)
			v.At, v.FirstFill = at, first
			out = append(out, v)
		})
	}
	return out, nil
}

// Settled returns the number of whole rounds from new after which every mean
// age just after the round is within the tolerance, a share of it above 0 and
// below 1, of the steady state: the shortfall is exactly the share of the first
// fill still there. It errors as Steady does, and above a billion rounds.
func (s Schedule) Settled(tolerance float64) (int, error) {
	if err := s.Check(); err != nil {
		return 0, err
	}
	if !(tolerance > 0 && tolerance < 1) {
		return 0, fmt.Errorf("exchange: schedule: tolerance %g; want above 0, below 1", tolerance)
	}
	n := s.roundExchanged()
	if n >= 1 {
		return 1, nil
	}
	rounds := elementary.Log(tolerance) / elementary.Log1p(-n)
	if n <= 0 || !(rounds <= 1e9) {
		return 0, fmt.Errorf("exchange: schedule: %w, or next to none: it does not settle in a billion rounds", ErrNoExchange)
	}
	// A share met to the last few bits is met.
	rounds = math.Ceil(rounds - float64(rounds*1e-12))
	return int(max(rounds, 1)), nil
}

// roundExchanged is the share of new fluid after a whole round.
func (s Schedule) roundExchanged() float64 {
	n := 0.0
	for _, v := range s.Services {
		n = scheduleAlso(n, -elementary.Expm1(-float64(s.TopUp*v.After)))
		n = scheduleAlso(n, v.exchanged())
	}
	return n
}

// scheduleMoments are the first two moments of age over the fluid in the box.
type scheduleMoments struct{ first, second float64 }

func (m scheduleMoments) age() Age {
	return Age{Mean: m.first, SD: math.Sqrt(max(m.second-float64(m.first*m.first), 0))}
}

// walk takes the moments, as just after the last service of a round, through
// one round. It shows every service to see and returns the moments at the end
// and the area under the mean age.
func (s Schedule) walk(m scheduleMoments, see func(ServiceAge)) (scheduleMoments, float64) {
	at, area := 0.0, 0.0
	for _, v := range s.Services {
		var under float64
		m, under = m.grow(v.After, s.TopUp)
		area += under
		at += v.After
		r := v.exchanged()
		after := scheduleMoments{float64(m.first * (1 - r)), float64(m.second * (1 - r))}
		if see != nil {
			see(ServiceAge{At: at, Exchanged: r, Before: m.age(), After: after.age()})
		}
		m = after
	}
	return m, area
}

// grow takes the moments over a length without service at top-up rate λ:
//
//	m' = 1 - λm,  (E[age²])' = 2m - λE[age²],
//
// solved exactly. It also returns the area under the mean age.
func (m scheduleMoments) grow(length, rate float64) (scheduleMoments, float64) {
	z := float64(rate * length)
	kept := elementary.Exp(-z)
	one, two, three := schedulePhi(z)
	first := float64(m.first*kept) + float64(length*one)
	square := float64(length * length)
	second := float64(m.second*kept) + float64(2*float64(m.first*length)*kept) + float64(2*float64(square*three))
	area := float64(float64(m.first*length)*one) + float64(square*two)
	return scheduleMoments{first, second}, area
}

// schedulePhi returns (1-e^-z)/z, (z-1+e^-z)/z² and (1-e^-z-z·e^-z)/z², which
// tend to 1, 1/2 and 1/2. Below 1 the closed forms lose digits: sum the series
// Σ(-z)^k/(k+1)!, Σ(-z)^k/(k+2)! and Σ(-z)^k(k+1)/(k+2)!.
func schedulePhi(z float64) (one, two, three float64) {
	if z >= 1 {
		less := -elementary.Expm1(-z)
		return less / z, (z - less) / z / z, (less - float64(z*(1-less))) / z / z
	}
	const terms = 20 // 1/21! is below 2e-20
	power := 1.0     // (-z)^k/(k+1)!
	for k := range terms {
		one += power
		next := power / float64(k+2)
		two += next
		three += float64(next * float64(k+1))
		power = -float64(next * z)
	}
	return one, two, three
}

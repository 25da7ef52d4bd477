package exchange

import (
	"fmt"
	"math"
	"slices"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units/working"
)

// OldFluid is how much of the fluid is at least a given age, in steady state.
type OldFluid struct {
	Age    float64
	Before []float64 // share just before each service, 0 to 1
	After  []float64 // share just after each service, 0 to 1
	Mean   float64   // share averaged over the whole round
	Steps  working.Steps
}

// AtLeast returns the share of the fluid that is the given age or older in
// steady state: for one service every L that brings a new share r and the age
// kL, it is (1-r)^k just after a service and (1-r)^(k-1) just before. The age is
// 0 to 1e9 in the schedule's unit; it errors as Check does.
//
// Fluid is that old where it has outlived the top-up of that length and every
// service in it, so each share is one product and the average over the round a
// sum over the pieces between services: exact but for rounding.
func (s Schedule) AtLeast(age float64) (OldFluid, error) {
	if err := s.Check(); err != nil {
		return OldFluid{}, err
	}
	if !scheduleWithin(age, scheduleMostLength) {
		return OldFluid{}, fmt.Errorf("exchange: schedule: age %g %s; want 0 to %g", age, s.unit(), float64(scheduleMostLength))
	}
	old := OldFluid{Age: age}
	past := scheduleNewPast(s, age)
	ends := s.ends()
	for i, at := range ends {
		before := past.survives(at, i)
		old.Before = append(old.Before, before)
		old.After = append(old.After, past.survives(at, i+1))
	}
	old.Mean = past.mean(ends)
	old.Steps = old.steps(s, past)
	return old, nil
}

// ends is the place of each service in the round.
func (s Schedule) ends() []float64 {
	ends, at := make([]float64, len(s.Services)), 0.0
	for i, v := range s.Services {
		at += v.After
		ends[i] = at
	}
	return ends
}

// schedulePast looks back over an age from any place in the round.
type schedulePast struct {
	ends  []float64
	kept  []float64 // share each service leaves
	round float64
	whole float64 // what top-up and whole rounds of services leave of such an age
	rest  float64 // the age beyond those, at most a round
}

func scheduleNewPast(s Schedule, age float64) schedulePast {
	p := schedulePast{ends: s.ends(), round: s.round()}
	all := 1.0
	for _, v := range s.Services {
		k := 1 - v.exchanged()
		p.kept = append(p.kept, k)
		all *= k
	}
	rounds := math.Floor(age / p.round)
	p.rest = math.Mod(age, p.round)
	// Where the division rounded up to a whole number, Mod is all but a round.
	if float64(rounds*p.round) > age {
		rounds--
	}
	// A service just as long ago as the age brought fluid just that old. Looking
	// back over the last whole round step by step leaves it out where it should be.
	if p.rest == 0 && rounds > 0 {
		rounds, p.rest = rounds-1, p.round
	}
	p.whole = elementary.Exp(-float64(s.TopUp*age)) * elementary.Pow(all, rounds)
	return p
}

// survives returns the share that is at least the age, seen from the place at,
// with the first done services of this round behind.
func (p schedulePast) survives(at float64, done int) float64 {
	share := p.whole
	from := at - p.rest
	for i := done - 1; i >= 0 && p.ends[i] > from; i-- {
		share *= p.kept[i]
	}
	for i := len(p.ends) - 1; i >= done && p.ends[i]-p.round > from; i-- {
		share *= p.kept[i]
	}
	return share
}

// mean averages over the round. The share only steps where a service passes
// under either end of the stretch looked back on.
func (p schedulePast) mean(ends []float64) float64 {
	cuts := make([]float64, 0, 2*len(ends)+1)
	for _, e := range ends {
		cuts = append(cuts, e, math.Mod(e+p.rest, p.round))
	}
	cuts = append(cuts, 0)
	slices.Sort(cuts)
	sum := 0.0
	for i, from := range cuts {
		to := p.round
		if i+1 < len(cuts) {
			to = cuts[i+1]
		}
		if width := to - from; width > 0 {
			at := from + float64(width/2)
			done, _ := slices.BinarySearch(ends, at)
			sum += float64(width * p.survives(at, done))
		}
	}
	return sum / p.round
}

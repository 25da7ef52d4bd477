package exchange

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/meniscus/units/working"
)

// steps shows the working of a steady state; n is the new share of a round.
func (s Schedule) steps(a Ages, n float64) working.Steps {
	var w working.Steps
	const shown = 10 // services; a longer round is not worked by hand
	for i, v := range s.Services[:min(len(s.Services), shown)] {
		w = w.Add("new share of service "+strconv.Itoa(i+1), "1 - Π(1 - d/C)", scheduleProduct(v.Drains), scheduleNumber(v.exchanged()))
	}
	unit := " " + s.unit()
	if s.TopUp > 0 {
		w = w.Add("new share of a round, with top-up", "1 - exp(-λ·R)·Π(1 - r)", "λ "+scheduleNumber(s.TopUp)+", R "+scheduleNumber(s.round())+unit, scheduleNumber(n))
	}
	if len(s.Services) == 1 && s.TopUp == 0 {
		l, r := scheduleNumber(s.round()), scheduleNumber(n)
		w = w.Add("mean age just after service", "L(1 - r)/r", l+" × (1 - "+r+")/"+r, scheduleNumber(a.Lowest)+unit)
		w = w.Add("mean age just before service", "L/r", l+"/"+r, scheduleNumber(a.Highest)+unit)
		return w.Add("mean age over the interval", "L(1/r - 1/2)", l+" × (1/"+r+" - 1/2)", scheduleNumber(a.Mean)+unit)
	}
	w = w.Add("mean age just after the last service", "(age gained over a round from new)/(new share of a round)", "", scheduleNumber(a.Services[len(a.Services)-1].After.Mean)+unit)
	w = w.Add("mean age at its lowest, just after a service", "", "", scheduleNumber(a.Lowest)+unit)
	w = w.Add("mean age at its highest, just before a service", "", "", scheduleNumber(a.Highest)+unit)
	return w.Add("mean age over the round", "", "", scheduleNumber(a.Mean)+unit)
}

// FromNewSteps returns the working of [Schedule.FromNew], two lines a service: how
// old the fluid has grown, and how much of that age is left after it. At most 100
// services are worked; errors as there and past that.
func (s Schedule) FromNewSteps(rounds int) (working.Steps, error) {
	const most = 100
	if n := len(s.Services); n > 0 && rounds > most/n {
		return nil, fmt.Errorf("exchange: schedule: working of %d rounds of %d services; want at most %d services in all", rounds, n, most)
	}
	stages, err := s.FromNew(rounds)
	if err != nil {
		return nil, err
	}
	var w working.Builder
	unit, after, formula := " "+s.unit(), Age{}, "m + L"
	if s.TopUp > 0 {
		formula = "m·exp(-λL) + (1 - exp(-λL))/λ"
	}
	for i, v := range stages {
		length, n := scheduleNumber(s.Services[i%len(s.Services)].After), strconv.Itoa(i+1)
		with := scheduleNumber(after.Mean) + " + " + length
		if s.TopUp > 0 {
			with = "m = " + scheduleNumber(after.Mean) + ", L = " + length + ", λ = " + scheduleNumber(s.TopUp)
		}
		w.Add("mean age before service "+n, formula, with, scheduleNumber(v.Before.Mean)+unit)
		w.Add("mean age after service "+n, "m(1 - r)", scheduleNumber(v.Before.Mean)+" × (1 - "+scheduleNumber(v.Exchanged)+")", scheduleNumber(v.After.Mean)+unit)
		after = v.After
	}
	return w.Steps(), nil
}

// steps shows the working of so much fluid of an age.
func (old OldFluid) steps(s Schedule, past schedulePast) working.Steps {
	const shown = 10 // services; a longer round is not worked by hand
	unit := " " + s.unit()
	w := working.Steps{}.Add("left by whole rounds and the top-up", "exp(-λ·age)·Π(1 - r)^rounds", "age "+scheduleNumber(old.Age)+unit+", of which beyond whole rounds "+scheduleNumber(past.rest)+unit, scheduleNumber(past.whole))
	for i := range old.Before[:min(len(old.Before), shown)] {
		n := strconv.Itoa(i + 1)
		w = w.Add("share at least so old before service "+n, "what is left, times (1 - r) of every service within the rest", "", scheduleNumber(old.Before[i]))
		w = w.Add("share at least so old after service "+n, "that, with this service counted", "", scheduleNumber(old.After[i]))
	}
	return w.Add("share at least so old over the round", "", "", scheduleNumber(old.Mean))
}

func scheduleProduct(drains []float64) string {
	var b strings.Builder
	b.WriteString("1 - ")
	if len(drains) == 0 {
		b.WriteByte('1')
	}
	for _, d := range drains {
		b.WriteString("(1 - " + scheduleNumber(d) + ")")
	}
	return b.String()
}

// scheduleNumber shows six digits, all of those before the point, and no zeros
// at the end.
func scheduleNumber(x float64) string {
	text := strconv.FormatFloat(x, 'g', 6, 64)
	if math.Abs(x) >= 1e6 && math.Abs(x) < 1e15 {
		text = strconv.FormatFloat(x, 'f', 0, 64)
	}
	return text
}

package main

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/refdata/jobfile"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
)

// answer is one line for one thing the job file asks, with its working. A
// question the figures cannot answer is answered by the reason.
type answer struct {
	Asked   string        `json:"asked"`
	Answer  string        `json:"answer"`
	Refused bool          `json:"refused"`
	Working working.Steps `json:"working"`
}

// plainly leaves out of an error the names of packages, which are for developers, and
// puts several faults on one line.
func plainly(err error) string {
	names := strings.NewReplacer("jobcard: ", "", "exchange: ", "", "sealing: ", "", "thermal: ", "", "units: ", "", "measure: ", "", "\n", "; ")
	return names.Replace(err.Error())
}

// answers goes through what was asked in a fixed order.
func (s *service) answers() []answer {
	list := []answer{}
	ask := s.file.Ask
	add := func(asked string, on bool, reply func() (string, working.Steps, error)) {
		if !on {
			return
		}
		text, steps, err := reply()
		if err != nil {
			list = append(list, answer{Asked: asked, Answer: plainly(err), Refused: true, Working: working.Steps{}})
			return
		}
		list = append(list, answer{Asked: asked, Answer: text, Working: orEmpty(steps)})
	}
	add("interval", ask.Interval != nil, s.interval)
	add("what_if", ask.WhatIf != nil, s.whatIf)
	add("losses", s.file.Losses != exchange.Losses{}, s.losses)
	add("bottles", ask.Bottles != nil, s.bottles)
	add("flush", ask.Flush != nil, s.flush)
	add("samples", len(ask.Samples) > 0, s.samples)
	add("markers", len(ask.Markers) > 0, s.markers)
	add("warm_up", ask.WarmUp != nil, s.warmUp)
	add("cool_down", ask.CoolDown != nil, s.coolDown)
	add("infrared", ask.Infrared != nil, s.infrared)
	add("tilt", ask.Tilt != nil, s.tilt)
	add("level", s.card.Level().HasWindow && s.card.Len() > 0, s.level) // of an untouched box the ledger says nothing
	add("put_back", ask.PutBack != nil, s.putBack)
	add("adapter", ask.Adapter != nil, s.adapter)
	return list
}

// capacityAndDrain are the middle figures a single-valued answer is given for.
func (s *service) capacityAndDrain() (capacity, drain units.Volume) {
	return s.proc.Capacity.Mid(), s.proc.ColdDrain.Mid()
}

func (s *service) schedule(i *jobfile.Interval) (exchange.Schedule, error) {
	capacity, drain := s.capacityAndDrain()
	drains := slices.Repeat([]units.Volume{drain}, i.Drains)
	if i.Time > 0 {
		round := exchange.TimeRound{Capacity: capacity, Leak: i.Leak, Services: []exchange.TimeService{{After: i.Time, Drains: drains}}}
		if i.Leak.Sign() > 0 {
			round.LeakOver = i.Time
		}
		return round.Schedule()
	}
	round := exchange.DistanceRound{Capacity: capacity, Leak: i.Leak, Services: []exchange.DistanceService{{After: i.Every, Drains: drains}}}
	if i.Leak.Sign() > 0 {
		round.LeakOver = i.Every
	}
	return round.Schedule()
}

func (s *service) interval() (string, working.Steps, error) {
	i := s.file.Ask.Interval
	first, err := s.schedule(i)
	if err != nil {
		return "", nil, err
	}
	ages, err := first.Steady()
	if err != nil {
		return "", nil, err
	}
	text := fmt.Sprintf("kept for ever, %s every %s leaves fluid of mean age %s just after and %s just before a service, %s on average",
		count(i.Drains, "drain"), every(i), fourDigits(ages.Lowest, first.Unit), fourDigits(ages.Highest, first.Unit), fourDigits(ages.Mean, first.Unit))
	if i.Against == nil {
		return text, ages.Steps, nil
	}
	second, err := s.schedule(i.Against)
	if err != nil {
		return "", nil, err
	}
	compared, err := exchange.CompareSchedules(first, second)
	if err != nil {
		return "", nil, err
	}
	names := fmt.Sprintf("first: %s every %s; second: %s every %s", count(i.Drains, "drain"), every(i), count(i.Against.Drains, "drain"), every(i.Against))
	return text + "\n" + names + "\n" + compared.Text(), compared.Steps, nil
}

func every(i *jobfile.Interval) string {
	if i.Time > 0 {
		return fmt.Sprintf("%.0f days", i.Time.Hours()/24)
	}
	return i.Every.String()
}

// fourDigits prints an age: it is not known to more.
func fourDigits(x float64, unit string) string {
	step := 1.0
	for x/step >= 1e4 {
		step *= 10
	}
	return fmt.Sprintf("%.0f %s", math.Round(x/step)*step, unit)
}

func (s *service) bottles() (string, working.Steps, error) {
	b := s.file.Ask.Bottles
	use, err := exchange.BestUse(s.request(), exchange.Supply{Bottle: b.Bottle, Bottles: b.Count, BottlePrice: b.Price, Budget: b.Budget})
	if err != nil {
		return "", nil, err
	}
	part := ""
	if use.Worst.Part.Sign() > 0 {
		part = " and one of " + litresAndQuarts(use.Worst.Part)
	}
	return fmt.Sprintf("%s: at worst %s%s, which leave %s old fluid", count(use.Bottles, "bottle"), count(use.Worst.Full, "full drain"), part, use.Share), use.Steps, nil
}

func (s *service) flush() (string, working.Steps, error) {
	f := s.file.Ask.Flush
	capacity, drain := s.capacityAndDrain()
	var stages []exchange.Stage
	for range s.plan.Cycles.Chosen {
		stages = append(stages, exchange.Stage{Drain: drain})
	}
	stages = append(stages, exchange.Stage{Flush: f.Volume, Flow: f.Flow, Tanks: f.Tanks})
	got, err := exchange.Combine(exchange.System{Capacity: capacity}, stages)
	if err != nil {
		return "", nil, err
	}
	return fmt.Sprintf("%s and then %s through the lines leave %s old fluid, at the middle capacity and drain; a clean outlet proves nothing", count(s.plan.Cycles.Chosen, "drain"), litresAndQuarts(f.Volume), got.Share), got.Steps, nil
}

func (s *service) samples() (string, working.Steps, error) {
	var list []exchange.DrainedSample
	for _, x := range s.file.Ask.Samples {
		list = append(list, exchange.DrainedSample{Volume: x.Volume, OldShare: x.OldShare})
	}
	got, err := exchange.FromSamples(s.proc.Capacity, list)
	if err != nil {
		return "", nil, err
	}
	return fmt.Sprintf("by what came out, %s of the fluid is old; the last sample showed %.1f %%, which flatters", got.Share, 100*got.LastSeen), got.Steps, nil
}

func (s *service) markers() (string, working.Steps, error) {
	m := exchange.Markers{Fresh: s.file.Ask.Fresh}
	for _, x := range s.file.Ask.Markers {
		m.Readings, m.Drains = append(m.Readings, x.Reading), append(m.Drains, x.Volume)
	}
	got, err := exchange.EstimateCapacity(m)
	if err != nil {
		return "", nil, err
	}
	text := fmt.Sprintf("the markers say %s, standard error %s", litresAndQuarts(got.Capacity), got.U.Text(units.Litre, 2))
	for _, note := range got.Notes {
		text += ". " + strings.TrimSuffix(note, ".")
	}
	return text, got.Steps, nil
}

func (s *service) tilt() (string, working.Steps, error) {
	t := s.file.Ask.Tilt
	area, errA := measure.Exact(t.Length.In(units.Metre) * t.Width.In(units.Metre))
	degrees, errB := measure.Exact(t.Degrees)
	if err := errors.Join(errA, errB); err != nil {
		return "", nil, err
	}
	got, err := exchange.Tilt{Area: area, Hole: measure.MeasuredExactly(t.Hole), Degrees: degrees}.Effect()
	if err != nil {
		return "", nil, err
	}
	return fmt.Sprintf("closed at the lip, a tilt of %v° leaves %s (%s) more in than on the level", t.Degrees,
		got.Left.Best().Text(units.Millilitre, 0), got.Left.Best().Text(units.USQuart, 2)), got.Steps, nil
}

// level says what should run at the check plug, and what was seen against it.
func (s *service) level() (string, working.Steps, error) {
	check, err := s.card.LevelCheck(s.file.Ask.CameIn)
	if err != nil {
		return "", nil, err
	}
	expected, err := check.Expect()
	if err != nil {
		return "", nil, err
	}
	text := sentences(expected.Words)
	if seen, ok := s.card.Observation(); ok {
		found, err := expected.Observe(seen)
		if err != nil {
			return "", nil, err
		}
		text += " " + sentences(found.Words)
		return text, append(expected.Steps[:len(expected.Steps):len(expected.Steps)], found.Steps...), nil
	}
	return text, expected.Steps, nil
}

// count writes "1 drain", "3 drains".
func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func sentences(words []string) string {
	text := ""
	for i, w := range words {
		if i > 0 {
			text += " "
		}
		text += w
	}
	return text
}

func (s *service) putBack() (string, working.Steps, error) {
	p := s.file.Ask.PutBack
	besides := s.besides()
	mark, err := s.card.PutBack(jobcard.Pour{Temperature: p.Temperature, Vessel: p.Vessel, Besides: besides})
	if err != nil {
		return "", nil, err
	}
	if mark.IsZero() {
		return "nothing is owed to the box", nil, nil
	}
	text := fmt.Sprintf("fill to %s at %s", litresAndQuarts(mark), p.Temperature.Text(units.CelsiusScale, 0))
	if besides.Sign() > 0 {
		text += ", of which " + litresAndQuarts(besides) + " goes to hose, pump and film"
	}
	if over := s.proc.Overfill; over.Sign() > 0 {
		text += "; at the last refill " + litresAndQuarts(over) + " more, over for the level check"
	}
	return text, nil, nil
}

// besides is what one more refill loses on its way: what hose and pump take once
// counts until the card says that they kept something.
func (s *service) besides() units.Volume {
	lost := s.lost()
	v := lost.EachTime()
	for i, e := range s.card.Entries() {
		if e.Kind == jobcard.Kept && !s.card.IsStruck(i+1) {
			return v
		}
	}
	return v.Add(lost.KeptOnce)
}

func (s *service) adapter() (string, working.Steps, error) {
	a := s.file.Ask.Adapter
	for _, p := range s.proc.Plugs {
		if p.ID != a.Plug {
			continue
		}
		got, err := sealing.Adapter{Wanted: p.Torque, Lever: a.Lever, Extension: a.Extension, AngleDegrees: a.Degrees}.Setting()
		if err != nil {
			return "", nil, err
		}
		return fmt.Sprintf("for %s at plug %s set the wrench to %s", sealing.Both(p.Torque), p.ID, sealing.Both(got.Set)), got.Steps, nil
	}
	var names []string
	for _, p := range s.proc.Plugs {
		names = append(names, p.ID)
	}
	return "", nil, fmt.Errorf("the procedure has no plug %.40q; want one of %s", a.Plug, strings.Join(names, ", "))
}

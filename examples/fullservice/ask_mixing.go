package main

import (
	"fmt"
	"slices"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units/working"
)

// whatIf follows the planned drains at an assumed mixing share; the bounds beside
// it hold whatever the gears do.
func (s *service) whatIf() (string, working.Steps, error) {
	capacity, drain := s.capacityAndDrain()
	w, sys := s.file.Ask.WhatIf, exchange.System{Capacity: capacity, Sump: s.proc.Sump}
	if sys.Sump.IsZero() {
		return "", nil, fmt.Errorf("the sump is not known; want [box] sump, what the drain plug can reach")
	}
	var run working.Steps
	sys.Mixing = w.Share
	if w.Flow.Sign() > 0 {
		mixing := exchange.MixingRun{Flow: w.Flow, Minutes: w.Minutes, Sump: sys.Sump, Held: sys.Held()}
		var err error
		if sys.Mixing, err = mixing.Share(); err != nil {
			return "", nil, err
		}
		if run, err = mixing.Steps(); err != nil {
			return "", nil, err
		}
	}
	n := s.plan.Cycles.Chosen
	got, err := exchange.WhatIf(sys, slices.Repeat([]exchange.Pass{{Drain: drain}}, n))
	if err != nil {
		return "", nil, err
	}
	long, err := exchange.LongRunFactor(sys, drain)
	if err != nil {
		return "", nil, err
	}
	text := fmt.Sprintf("if each run of the gears closed %.0f %% of the difference, which no workshop can measure, %s would leave %.1f %% old fluid (%s whatever they do), at the middle capacity and drain, and each further one %.1f %% of what was left",
		100*sys.Mixing, count(n, "drain"), 100*got.Share, got.Bounds, 100*long.PerCycle)
	return text, slices.Concat(run, got.Steps, long.Steps), nil
}

// losses says what pouring back exactly what the jug showed would leave the box low.
func (s *service) losses() (string, working.Steps, error) {
	n := s.plan.Cycles.Chosen
	_, drain := s.capacityAndDrain()
	low, err := s.lost().Shortfall(n)
	if err != nil {
		return "", nil, err
	}
	steps, err := s.lost().Steps(drain, n)
	if err != nil {
		return "", nil, err
	}
	text := fmt.Sprintf("poured back as drained, %s leave the box %s low", count(n, "swap"), litresAndQuarts(low.Add(s.lost().KeptOnce)))
	text += fmt.Sprintf(": %s for what hose and pump take once, %s for what the line keeps each time and the film", litresAndQuarts(s.lost().KeptOnce), litresAndQuarts(low))
	if s.lost().LineReturns.IsZero() {
		return text, steps, nil
	}
	acting, err := s.lost().Acting(drain)
	return text + fmt.Sprintf("; a drain of %s acts as %s", litresAndQuarts(drain), litresAndQuarts(acting)), steps, err
}

// lost is what does not go where the jug says: the job's own figures, else the
// sheet's.
func (s *service) lost() exchange.Losses {
	l := s.file.Losses
	if l.KeptOnce.IsZero() {
		l.KeptOnce = s.proc.Kept
	}
	return l
}

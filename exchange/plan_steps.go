package exchange

import (
	"fmt"
	"strconv"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// stepLitres prints a volume for the working, to a millilitre.
func stepLitres(v units.Volume) string { return v.Text(units.Litre, 3) }

func (r Request) caveats(p Proposal) []Caveat {
	var cs []Caveat
	if p.Outcome == MetIfMixed {
		cs = append(cs, RestsOnMixing)
	}
	if r.Sump.IsZero() {
		cs = append(cs, SumpNotKnown)
	}
	if len(r.WhatIfMixing) > 0 {
		cs = append(cs, MixingIsWhatIf)
	}
	return cs
}

func (r Request) steps(p Proposal) working.Steps {
	var s working.Steps
	if !r.LineReturns.IsZero() {
		s = s.Add("smallest drain counts as", "d - x", stepLitres(r.Drain.Low())+" - "+stepLitres(r.LineReturns), stepLitres(r.acting(2, planSmallest)))
	}
	before := 1.0
	for _, row := range p.Rows[:p.Cycles.Chosen] {
		s = s.Add("old share after cycle "+strconv.Itoa(row.Cycle)+", worst case", "x·(1 - d/C)",
			planFactorText(before, r.acting(row.Cycle, planSmallest), r.Capacity.High()), shareText(row.Share.High))
		before = row.Share.High
	}
	if n := p.Cycles.Chosen; n > 0 {
		i := p.Rows[n-1].Interval
		s = s.Add("old share, interval of "+strconv.FormatFloat(100*i.Coverage, 'g', 4, 64)+" %", "over the capacity and the drains", "",
			shareText(i.Low)+" to "+shareText(i.High))
	}
	s = s.Add("target", "old share <= target", shareText(p.Share.High)+" against "+shareText(r.Target), p.Outcome.String())
	s = s.Add("old share whatever the mixing, at most", r.boundFormula(), "", shareText(p.Bounds.High))
	return r.fluidSteps(s, p)
}

func planFactorText(x float64, drain, capacity units.Volume) string {
	return fmt.Sprintf("%s × (1 - %s / %s)", shareText(x), stepLitres(drain), stepLitres(capacity))
}

func (r Request) boundFormula() string {
	if r.Sump.IsZero() {
		return "1 - d/C of the largest drain"
	}
	return "(C - S)/C + (S/C)·Π(1 - d/S)"
}

func (r Request) fluidSteps(s working.Steps, p Proposal) working.Steps {
	n := strconv.Itoa(p.Cycles.Chosen) + " × "
	s = s.Add("refills", "sum of the largest drains", "", stepLitres(p.Fluid.Refills))
	s = s.Add("kept once in pump and hose", "", "", stepLitres(p.Fluid.KeptOnce))
	s = s.Add("kept each time", "cycles × kept", n+stepLitres(r.KeptEachTime), stepLitres(p.Fluid.KeptEachTime))
	s = s.Add("film", "cycles × film", n+stepLitres(r.FilmEachTime), stepLitres(p.Fluid.Film))
	s = s.Add("final allowance for the level check", "", "", stepLitres(p.Fluid.FinalAllowance))
	return s.Add("fluid to have ready", "sum of the above", "", stepLitres(p.Fluid.Total))
}

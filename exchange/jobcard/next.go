package jobcard

import (
	"fmt"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/caution"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// Step is what to do next. The maker's procedure goes before it.
type Step struct {
	Code   string       `json:"code"` // stable, such as "refill"
	Text   string       `json:"text"`
	Volume units.Volume `json:"volume,omitzero"` // at the reference temperature, where the step has one
	Plug   string       `json:"plug,omitempty"`
}

// Next returns the next step. It is advice from what the card knows; entries in
// another order are accepted where they make sense.
func (c *Card) Next() Step {
	if c == nil || !c.open {
		return Step{Code: "open", Text: "open a card"}
	}
	return c.state.next()
}

func (l ledger) next() Step {
	if l.closed {
		return Step{Code: "done", Text: "the job is closed"}
	}
	for _, ask := range [...]func() (Step, bool){l.nextProve, l.nextRefill, l.nextMix, l.nextDrain, l.nextDrainPlug, l.nextLevel, l.nextPlugs} {
		if step, ok := ask(); ok {
			return step
		}
	}
	if blocks := l.blocking(); len(blocks) > 0 {
		return Step{Code: blocks[0].Code, Text: blocks[0].Text}
	}
	return Step{Code: "close", Text: "close the card and hand over the record"}
}

func (l ledger) nextProve() (Step, bool) {
	return Step{Code: "prove-fill-plug", Text: "prove that the fill plug opens, before the drain plug is touched"}, !l.fillProved
}

// owed is what was drained in this cycle and is not back yet.
func (l ledger) owed() units.Volume {
	return l.flows.cycleOut.Sub(l.flows.cycleIn)
}

func (l ledger) nextRefill() (Step, bool) {
	owed := l.owed()
	// A twentieth of what came out is below what a jug line is worth arguing about.
	if l.flows.cycles == 0 || l.observed.entry != 0 || owed.Compare(l.flows.cycleOut.Scale(0.05)) <= 0 {
		return Step{}, false
	}
	text := "with the drain plug in, put back " + both(owed) + " as at " + shortest(l.spec.reference())
	if l.flows.cycleReads == 1 && l.flows.cycleIn.IsZero() {
		text += "; in the jug it was drained into, at the temperature it was drained, that is the mark it came to"
	}
	text += "; what hose and pump keep goes on top of it"
	if after := l.shares.refill(owed, 0).now(l.spec, l.flows.largest); l.spec.Overfill.Sign() > 0 && l.met(after) {
		text += "; if this is the last refill, " + both(l.spec.Overfill) + " more, which the sheet wants over for the level check"
	}
	return Step{Code: "refill", Volume: owed, Text: text}, true
}

// met says that the old share is as low as was agreed; where nothing was, it is.
func (l ledger) met(s Share) bool {
	if l.spec.Purpose == exchange.ChangeClass {
		return l.spec.Target == 0 || s.Most <= l.spec.Target
	}
	return l.spec.Target == 0 || s.Estimate <= l.spec.Target
}

func (l ledger) nextMix() (Step, bool) {
	runs := "through the gears"
	if l.spec.Runs > 0 {
		runs = fmt.Sprintf("%d times through the gears", l.spec.Runs)
	}
	plug := ""
	if l.drainPlugLoose() > 0 {
		plug = "see that the drain plug is in and tight; then, "
	}
	return Step{Code: "mix", Text: plug + "engine running and brake set, go " + runs + ", so that new and held-back fluid mix"}, l.unmixed
}

func (l ledger) nextDrain() (Step, bool) {
	if l.observed.entry != 0 || l.window.entry != 0 {
		return Step{}, false
	}
	if l.flows.cycles == 0 {
		return Step{Code: "drain", Text: "drain and measure, with the fluid's temperature"}, true
	}
	share, sure := l.share().Estimate, ""
	if l.spec.Purpose == exchange.ChangeClass {
		share, sure = l.share().Most, " at most, whatever the gears did"
	}
	if l.met(l.share()) {
		return Step{}, false
	}
	if !l.spec.OnHand.IsZero() && l.left().Compare(l.spec.UsualDrain.Low()) < 0 {
		return Step{}, false // the fluid has run out before the target
	}
	return Step{Code: "drain", Text: fmt.Sprintf("drain again: %.1f %% of the fluid is old%s, %.1f %% was agreed", 100*share, sure, 100*l.spec.Target)}, true
}

func (l ledger) nextDrainPlug() (Step, bool) {
	i, ok := l.plugFor("", sealing.Drain)
	if !ok {
		return Step{}, false
	}
	return l.nextPlug(i)
}

// nextPlugs shuts the check plug first: fluid runs out of it.
func (l ledger) nextPlugs() (Step, bool) {
	for _, first := range [...]bool{true, false} {
		for i, p := range l.spec.Plugs {
			if (p.Role == sealing.Check) != first {
				continue
			}
			if step, ok := l.nextPlug(i); ok {
				return step, true
			}
		}
	}
	return Step{}, false
}

func (l ledger) nextPlug(i int) (Step, bool) {
	p, s := l.spec.Plugs[i], l.plugs[i]
	switch {
	case s.opened == 0:
		return Step{}, false
	case p.Washer != "" && (s.washer == "" || !s.newRing):
		return Step{Code: "fit-washer", Plug: p.ID, Text: "fit a new washer " + p.Washer + " on plug " + p.ID}, true
	case !s.torqued || !s.inSpread:
		return Step{Code: "tighten", Plug: p.ID, Text: "tighten plug " + p.ID + wanted(p)}, true
	}
	return Step{}, false
}

func (l ledger) nextLevel() (Step, bool) {
	_, has := l.plugFor("", sealing.Check)
	if !has && !l.spec.hasWindow() {
		return Step{}, false
	}
	o := l.observed
	if o.entry != 0 && o.proof {
		switch o.flow {
		case exchange.PlugDry:
			return Step{Code: "top-up", Text: "nothing flowed: add a little at the fill plug, then look again inside the window"}, true
		case exchange.PlugStreams:
			return Step{Code: "let-run", Text: "it runs in a stream: let it run until it breaks to a trickle, then record what was caught and seen"}, true
		}
		return Step{}, false
	}
	if !l.spec.hasWindow() || l.noProof() == "" {
		return Step{Code: "observe", Text: "open the check plug over a clean jug and record the flow"}, true
	}
	return l.nextWindow(), true
}

func (l ledger) nextWindow() Step {
	w := l.spec.Window
	window := w.Low.Text(units.CelsiusScale, 0) + " to " + w.High.Text(units.CelsiusScale, 0) +
		" (" + w.Low.Text(units.FahrenheitScale, 0) + " to " + w.High.Text(units.FahrenheitScale, 0) + ")"
	switch {
	case l.window.entry != 0 && l.window.verdict == measure.Above:
		return Step{Code: "cool", Text: "too warm: let it cool into " + window + " and read again"}
	case l.window.entry != 0 && l.window.verdict == measure.Below:
		return Step{Code: "warm", Text: "too cold: let it warm into " + window + " and read again"}
	case l.window.entry != 0 && l.window.verdict == measure.Undecided:
		return Step{Code: "read-window", Text: "too near an end of " + window + " for this thermometer: read again further inside, or with a better one"}
	}
	return Step{Code: "read-window", Text: "with the engine idling and the box level, read the fluid's temperature: the window is " + window}
}

// Cautions returns the cautions that apply to the next step, as the card knows
// the situation. They defer to the maker's instructions and to local law.
func (c *Card) Cautions() []caution.Caution {
	if c == nil || !c.open {
		return nil
	}
	return caution.For(c.state.situation())
}

func (l ledger) situation() caution.Situation {
	s := caution.Situation{Fluid: l.warmest, UsedFluid: l.flows.out.Sign() > 0 && !l.closed}
	switch l.next().Code {
	case "drain":
		s.Draining, s.Raised = true, true
	case "prove-fill-plug", "refill", "top-up":
		s.Filling, s.Raised = true, true
	case "mix", "warm", "cool":
		s.EngineRunning = true
	case "read-window", "observe", "let-run":
		s.LevelCheck, s.EngineRunning, s.Raised = true, true, true
	case "fit-washer", "tighten":
		s.Raised = true
	}
	return s
}

package jobcard

import (
	"fmt"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/sealing"
)

// Block is one thing that stands between the job and closing it.
type Block struct {
	Code string `json:"code"` // stable, such as "level-not-proved"
	Text string `json:"text"`
}

func (l ledger) blocking() []Block {
	if l.closed {
		return nil
	}
	var blocks []Block
	say := func(code, format string, args ...any) {
		blocks = append(blocks, Block{code, fmt.Sprintf(format, args...)})
	}
	l.blockFluid(say)
	l.blockLevel(say)
	for i, p := range l.spec.Plugs {
		l.blockPlug(p, l.plugs[i], say)
	}
	return blocks
}

type sayBlock = func(code, format string, args ...any)

// blockFluid wants back what came out.
func (l ledger) blockFluid(say sayBlock) {
	if l.flows.cycles == 0 && l.observed.entry == 0 && l.flows.used.IsZero() {
		say("nothing-done", "nothing was drained, filled or checked")
	}
	if l.flows.cycles > 0 && !l.flows.drainClosed {
		say("not-refilled", "the last drain of %s was not refilled", both(l.flows.cycleOut))
	}
	if l.unmixed {
		say("not-mixed", "the gears were not run after the last refill")
	}
}

// blockLevel wants the level proved at the check plug, or where the job lists
// no check plug, a balance that is not shown to be wrong.
func (l ledger) blockLevel(say sayBlock) {
	if _, has := l.plugFor("", sealing.Check); !has && !l.spec.hasWindow() {
		if b := l.balance(); b.Verdict == Short || b.Verdict == Over {
			say("balance", "no check plug to prove the level, and the balance is %s", b.Sentence())
		}
		return
	}
	switch o := l.observed; {
	case o.entry == 0:
		say("level-not-proved", "the check plug has not been observed")
	case !o.proof:
		say("level-not-proved", "the look at the check plug in entry %d proves nothing: %s", o.entry, o.why)
	case o.flow == exchange.PlugDry:
		say("level-low", "nothing flowed at the check plug: the box is below its level")
	case o.flow == exchange.PlugStreams:
		say("level-high", "the check plug still ran in a stream: the box was above its level")
	}
}

// blockPlug wants every plug that was opened shut on the right washer at the
// right torque.
func (l ledger) blockPlug(p sealing.Plug, s plugState, say sayBlock) {
	switch {
	case s.opened == 0:
		return
	case p.Washer != "" && s.washer == "":
		say("washer-missing", "plug %s, opened by entry %d, has no washer", p.ID, s.opened)
	case s.washer != "" && !s.newRing:
		say("washer-used", "plug %s stands on a used washer", p.ID)
	}
	switch {
	case !s.torqued:
		say("not-torqued", "plug %s, opened by entry %d, is not recorded as tightened%s", p.ID, s.opened, wanted(p))
	case !s.inSpread:
		say("torque-differs", "plug %s was not tightened as the sheet says%s", p.ID, wanted(p))
	}
}

func wanted(p sealing.Plug) string {
	if p.Torque.IsZero() && p.Turns == 0 {
		return ""
	}
	return "; it wants " + tightness(p.Torque, p.Turns)
}

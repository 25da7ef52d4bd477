package exchange

import (
	"fmt"
	"strings"

	"example.com/meniscus/internal/elapsed"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// Observe holds what was seen at the check plug against what the ledger expects.
//
// Dry means at most nothing ran: against a ledger that expects fluid, the level
// is lower. A stream still running means what was caught or more. Otherwise the
// level is at the lip, and what was caught, if it was, is what ran: it agrees
// with the ledger within twice the standard uncertainty of the difference, the
// doubt that jug and fluid share cancelling. The rest is undecided: no rate of
// flow is published for the words, so none is guessed from them.
//
// A look of which NoProof says why it proves nothing is told and not judged.
//
// Where the level before the job is not known the ledger is not judged at all,
// and CameInBy says instead how the box must have come in. A malformed
// observation, and an expectation not made by Expect, are errors.
func (e LevelExpectation) Observe(o Observation) (LevelFinding, error) {
	if err := o.check(); err != nil {
		return LevelFinding{}, err
	}
	if !e.made {
		return LevelFinding{}, fmt.Errorf("exchange: observation: no expectation to hold it against; want the result of LevelCheck.Expect")
	}
	f := LevelFinding{}
	if o.NoProof != "" {
		f.Words = []string{f.seen(o), "That proves nothing of the level, nor of the ledger: " + strings.ToValidUTF8(o.NoProof, "?") + ". Look again as the sheet wants it."}
		return f, nil
	}
	f.Standing, f.Bound = o.standing()
	if f.Standing == StandingUnknown {
		f.Words = []string{"The check plug was not watched: the level is not proved."}
		return f, nil
	}
	var err error
	if f.Bound != BoundAtMost {
		if f.Ran, err = e.check.caughtAtMid(o); err != nil {
			return LevelFinding{}, fmt.Errorf("exchange: observation: %w", err)
		}
	}
	f.Difference = f.Ran.Sub(e.Runs)
	f.CameInBy = e.check.CameInBy.Add(f.Difference)
	if err := f.CameInBy.Err(); err != nil {
		return LevelFinding{}, fmt.Errorf("exchange: observation: %w", err)
	}
	if err := f.judge(e); err != nil {
		return LevelFinding{}, fmt.Errorf("exchange: observation: %w", err)
	}
	f.Steps = f.Steps.Add("ran out less expected", "ran - runs",
		levelSigned(f.Ran.Best())+" - ("+levelSigned(e.Runs.Best())+")", levelPlusMinusSigned(f.Difference)+", "+f.Bound.String())
	f.Steps = f.Steps.Add("came in off by, for ledger and check to agree", "came in off by + difference",
		levelSigned(e.check.CameInBy.Best())+" + ("+levelSigned(f.Difference.Best())+")", levelPlusMinusSigned(f.CameInBy)+", "+f.Bound.String())
	f.Words = f.words(e, o)
	return f, nil
}

// standing is where the level is left, and how what ran is known.
func (o Observation) standing() (Standing, Bound) {
	switch last := o.last(); {
	case last == PlugNotSeen:
		return StandingUnknown, BoundNone
	case last == PlugStreams:
		return AboveLip, BoundAtLeast
	case o.First == PlugDry && last == PlugDry:
		return BelowLip, BoundAtMost
	case o.CaughtKnown:
		return AtLip, BoundExact
	}
	return AtLip, BoundAtLeast
}

func (c LevelCheck) caughtAtMid(o Observation) (measure.Volume, error) {
	if !o.CaughtKnown {
		return measure.Volume{}, nil
	}
	at := o.CaughtAt
	if at.Best().IsZero() {
		at = c.At
	}
	return c.toMid(o.Caught, at)
}

func (f *LevelFinding) judge(e LevelExpectation) error {
	if f.Bound == BoundExact {
		a, err := measure.Agree(f.Ran.Reading(), e.Runs.Reading())
		if err != nil {
			return err
		}
		f.Zeta = a.Zeta
		switch {
		case e.CameIn == CameInUnknown:
		case a.Compatible:
			f.Against = AgainstAgrees
		case f.Difference.Best().Sign() < 0:
			f.Against = AgainstLower
		default:
			f.Against = AgainstHigher
		}
		return nil
	}
	side, err := levelSide(f.Difference, e.check.risk())
	if err != nil || e.CameIn == CameInUnknown {
		return err
	}
	f.Against = f.bounded(side.Verdict)
	return nil
}

// bounded judges what ran where only one end of it is known.
func (f *LevelFinding) bounded(difference measure.Verdict) Against {
	switch {
	case f.Bound == BoundAtMost && difference == measure.Below:
		return AgainstLower
	case f.Bound == BoundAtMost && difference == measure.Above:
		return AgainstAgrees // nothing was expected to run, and nothing did
	case f.Bound == BoundAtLeast && difference == measure.Above:
		return AgainstHigher
	}
	// More may have run, or may still run, as the ledger expects.
	return AgainstUndecided
}

func (f *LevelFinding) words(e LevelExpectation, o Observation) []string {
	words := []string{f.seen(o)}
	switch f.Against {
	case AgainstAgrees:
		words = append(words, "The ledger and the check agree within the doubt.")
	case AgainstLower:
		words = append(words, "The level is lower than the ledger says: the box came in low, or fluid went that is not in the ledger.")
	case AgainstHigher:
		words = append(words, "The level is higher than the ledger says: the box came in high, or fluid went in that is not in the ledger.")
	default:
		if e.CameIn != CameInUnknown {
			words = append(words, "What was seen does not decide for or against the ledger.")
		}
	}
	if e.CameIn == CameInUnknown || f.Against == AgainstLower || f.Against == AgainstHigher {
		words = append(words, f.cameIn())
	}
	switch f.Standing {
	case BelowLip:
		words = append(words, "The level is below the lip by an amount nobody measured: top up until it trickles, and record how much.")
	case AboveLip:
		words = append(words, "It was still running: let it run until the stream breaks to a trickle, and measure what is caught.")
	case AtLip:
		words = append(words, "The level is at the lip: "+e.closed())
	}
	return words
}

// seen tells what was seen, in the trade's words.
func (f *LevelFinding) seen(o Observation) string {
	s := "Seen at the check plug: " + o.First.String()
	if last := o.last(); last != o.First {
		s += ", then " + last.String()
	}
	if o.Watched > 0 {
		s += ", watched for " + elapsed.Text(o.Watched)
	} else {
		s += ", for how long is not recorded"
	}
	if o.CaughtKnown {
		return s + ", " + o.Caught.Best().Text(units.Millilitre, 0) + " caught."
	}
	return s + "."
}

// cameIn tells how the box must have come in.
func (f *LevelFinding) cameIn() string {
	const start = "If the ledger is right, the box came in "
	best := f.CameInBy.Best()
	if best.Abs().Compare(f.CameInBy.U().Scale(2)) <= 0 {
		// Not shown to be on either side: a word for the side would claim it.
		text := start + "right to within its doubt, " + levelPlusMinusSigned(f.CameInBy)
		switch f.Bound {
		case BoundAtMost:
			text += ", or lower"
		case BoundAtLeast:
			text += ", or higher"
		}
		return text + "."
	}
	low := best.Sign() < 0
	amount, side := f.CameInBy, "high"
	if low {
		amount, side = amount.Scale(-1), "low"
	}
	text := levelPlusMinus(amount)
	switch {
	case f.Bound == BoundExact:
		return start + text + " " + side + "."
	case f.Bound == BoundAtMost && low, f.Bound == BoundAtLeast && !low:
		return start + "at least " + text + " " + side + "."
	}
	return start + "at most " + text + " " + side + "."
}

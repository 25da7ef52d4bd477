package jobcard

import (
	"math"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
)

// Standing is what the balance shows about the level. The zero value is
// NotShown: nothing is shown to be wrong, which is not the same as right.
type Standing uint8

// The standings.
const (
	NotShown Standing = iota // the net lies within its doubt of what was planned
	Short                    // the box is shown to be short
	Over                     // the box is shown to be over
)

// String returns "not shown to be wrong", "short" or "over".
func (s Standing) String() string {
	switch s {
	case Short:
		return "short"
	case Over:
		return "over"
	}
	return "not shown to be wrong"
}

// MarshalText returns String.
func (s Standing) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// coverage is the coverage factor of the ± that is printed: about 95 % for a
// normal distribution (JCGM 100:2008 G.1.3).
const coverage = 2

// Balance is the ledger's answer: what went in less what came out, all at one
// temperature.
type Balance struct {
	Net       measure.Volume    // negative: the box is short of what it came in with
	Reference units.Temperature // of every volume here
	Out       measure.Volume    // drained, caught at the check plug, spilled from the box
	In        measure.Volume    // refilled and topped up, less what was kept or spilled of it
	PlusMinus units.Volume      // expanded uncertainty of Net, k = 2
	Wanted    units.Volume      // that much over is planned, until the check plug is opened
	Unstated  int               // readings that state no doubt and count as exact
	Verdict   Standing
	Steps     working.Steps
}

func (l ledger) balance() Balance {
	b := Balance{
		Net: l.flows.netMeasured(), Reference: l.spec.reference(), Out: l.flows.outMeasured(), In: l.flows.inMeasured(),
		Unstated: l.flows.unstated,
	}
	b.PlusMinus = b.Net.U().Scale(coverage)
	if l.observed.entry == 0 {
		b.Wanted = l.spec.Overfill
	}
	switch net := b.Net.Best(); {
	case net.Compare(b.PlusMinus.Neg()) < 0:
		b.Verdict = Short
	case net.Sub(b.Wanted).Compare(b.PlusMinus) > 0:
		b.Verdict = Over
	}
	b.Steps = working.Steps{}.Add("net balance", "Σ in - Σ out",
		b.In.Best().Text(units.Millilitre, 0)+" - "+b.Out.Best().Text(units.Millilitre, 0), b.Net.Best().Text(units.Millilitre, 0))
	return b
}

// Sentence returns the balance in words, such as
// "-18 mL ± 41 mL (k = 2) at 15 °C: level not shown to be wrong".
func (b Balance) Sentence() string {
	if b.In.Best().IsZero() && b.Out.Best().IsZero() && b.PlusMinus.IsZero() {
		return "nothing went in or out yet"
	}
	s := b.Net.Best().Text(units.Millilitre, 0) + " ± " + b.PlusMinus.Text(units.Millilitre, 0) + " (k = 2) at " + shortest(b.Reference)
	switch {
	case b.Verdict == Short:
		s += ": shown to be short"
	case b.Verdict == Over && b.Wanted.Sign() > 0:
		s += ": shown to be over, by more than the " + b.Wanted.Text(units.Millilitre, 0) + " wanted for the level check"
	case b.Verdict == Over:
		s += ": shown to be over"
	case b.Net.Best().Compare(b.PlusMinus) > 0:
		s += ": over, and " + b.Wanted.Text(units.Millilitre, 0) + " over is wanted for the level check"
	default:
		s += ": level not shown to be wrong"
	}
	if b.Unstated > 0 {
		s += "; " + times(b.Unstated, "reading") + " without a stated doubt taken as exact"
	}
	return s
}

// shortest writes a temperature in whole degrees where it is in whole degrees.
func shortest(t units.Temperature) string {
	if c := t.Celsius(); c == math.Round(c) {
		return t.Text(units.CelsiusScale, 0)
	}
	return t.Text(units.CelsiusScale, 1)
}

package exchange

import (
	"fmt"
	"strings"

	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
)

func (e LevelExpectation) words() []string {
	var words []string
	runs := levelRuns(e.Runs, e.Decision)
	if e.CameIn == CameInUnknown {
		side, _ := levelSide(e.Runs, e.check.risk()) // read once already
		words = append(words,
			"The level before the job is not known: the ledger proves nothing about it, only the check does.",
			"Had the box come in right: "+levelRuns(e.Runs, side))
	} else {
		words = append(words, "By the ledger: "+runs)
	}
	var parts []string
	for _, p := range e.Parts {
		parts = append(parts, p.Name+" "+levelSigned(p.Volume.Best())+", worth "+levelWorth(p.Worth))
	}
	if e.check.noWindow {
		words = append(words, "No check window is known: what the temperature of the check costs is not counted.")
	}
	words = append(words, "Closed at the lip, "+e.closed())
	if len(parts) > 0 {
		words = append(words, "Of that: "+strings.Join(parts, "; ")+".")
	}
	return words
}

// closed says how a box closed at the lip is off.
func (e LevelExpectation) closed() string {
	where := "at mid-window"
	if e.check.noWindow {
		where = "at the temperature of the check"
	}
	return fmt.Sprintf("the box is %s %s, worth %s.", levelOff(e.AtLip), where, levelWorth(e.Worth))
}

// levelRuns says in words what a volume above or below the lip does.
func levelRuns(v measure.Volume, d measure.Decision) string {
	switch d.Verdict {
	case measure.Above:
		return levelPlusMinus(v) + " should run out at the check plug."
	case measure.Below:
		return levelPlusMinus(v.Scale(-1)) + " should be missing to the lip of the check plug: nothing should run."
	}
	return "the level should stand at the lip of the check plug to within its doubt, " + levelPlusMinusSigned(v) + ": a stream, a trickle or nothing can each be right."
}

// levelOff says "60 mL ± 12 mL (k = 2) low".
func levelOff(v measure.Volume) string {
	switch v.Best().Sign() {
	case -1:
		return levelPlusMinus(v.Scale(-1)) + " low"
	case 1:
		return levelPlusMinus(v) + " high"
	}
	return levelPlusMinus(v) + " off"
}

// levelPlusMinus shows a volume with twice its standard uncertainty.
func levelPlusMinus(v measure.Volume) string {
	return v.Best().Text(units.Millilitre, 0) + " ± " + v.U().Scale(2).Text(units.Millilitre, 0) + " (k = 2)"
}

func levelPlusMinusSigned(v measure.Volume) string {
	return levelSigned(v.Best()) + " ± " + v.U().Scale(2).Text(units.Millilitre, 0) + " (k = 2)"
}

// levelSigned shows a plus where there is one to show.
func levelSigned(v units.Volume) string {
	text := v.Text(units.Millilitre, 0)
	if v.Sign() > 0 && text[0] != '0' {
		return "+" + text
	}
	return text
}

func levelWorth(d units.TemperatureDelta) string {
	return d.Abs().Text(units.CelsiusDegree, 1) + " (" + d.Abs().Text(units.FahrenheitDegree, 1) + ")"
}

func (e LevelExpectation) steps(closing thermal.Closing) working.Steps {
	c := e.check
	from := c.NetAt
	if from.IsZero() {
		from = thermal.ReferenceTemperature()
	}
	mid := c.Window.Mid()
	var s working.Steps
	s = s.Add("beyond the right level at mid-window", "came in off by + net·F(ledger)/F(mid)",
		fmt.Sprintf("%s + (%s) from %s to %s", levelSigned(c.CameInBy.Best()), levelSigned(c.Net.Best()),
			from.Text(units.CelsiusScale, 1), mid.Text(units.CelsiusScale, 1)),
		levelPlusMinusSigned(e.Excess))
	if !c.noWindow {
		s = append(s, closing.Steps()...)
	}
	if tilt, err := c.Tilt.Effect(); err == nil {
		s = append(s, tilt.Steps...)
	}
	var names []string
	for i, p := range e.Parts {
		text := levelSigned(p.Volume.Best())
		if i > 0 {
			text = "(" + text + ")"
		}
		names = append(names, text)
	}
	s = s.Add("off when closed at the lip", "closing + case + tilt", strings.Join(names, " + "), levelPlusMinusSigned(e.AtLip)+", worth "+levelWorth(e.Worth))
	return s.Add("runs out (+) or missing to the lip (-)", "beyond the right level - off at the lip",
		levelSigned(e.Excess.Best())+" - ("+levelSigned(e.AtLip.Best())+")", levelPlusMinusSigned(e.Runs))
}

package jobcard

import (
	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// Level is what is known of the level check.
type Level struct {
	HasWindow   bool              `json:"hasWindow"`
	Verdict     measure.Verdict   `json:"verdict"`              // of the last reading against the window
	Reading     int               `json:"reading,omitzero"`     // entry of that reading; 0: none yet
	Temperature units.Temperature `json:"temperature,omitzero"` // of that reading
	Observation int               `json:"observation,omitzero"` // entry of the last look at the check plug; 0: none
	Flow        exchange.AtPlug   `json:"flow,omitzero"`
	Proof       bool              `json:"proof"`         // the look proves the level
	Why         string            `json:"why,omitempty"` // why it does not
}

// Level returns the last window reading and the last look at the check plug.
func (c *Card) Level() Level {
	if c == nil || !c.open {
		return Level{}
	}
	l := c.state
	level := Level{
		HasWindow: l.spec.hasWindow(), Verdict: l.window.verdict, Reading: l.window.entry,
		Observation: l.observed.entry, Flow: l.observed.flow, Proof: l.observed.proof, Why: l.observed.why,
	}
	if l.window.entry > 0 {
		level.Temperature = c.entries[l.window.entry-1].Temperature
	}
	return level
}

package caution

import (
	"example.com/meniscus/units"
)

// Caution is one reminder.
type Caution struct {
	ID      string `json:"id"`      // stable, lower case, such as "hot-fluid"
	Hazard  string `json:"hazard"`  // what can hurt
	When    string `json:"when"`    // when it applies
	Text    string `json:"text"`    // what to do
	DeferTo string `json:"deferTo"` // whose word goes before ours
	Figure  string `json:"figure"`  // the figure or clause behind it, may be empty
	Source  string `json:"source"`  // where the figure or clause comes from
	Mark    string `json:"mark"`    // seen, seen second-hand, from memory, common practice, judgement
}

// String returns "hazard: what to do (whose word goes first)".
func (c Caution) String() string {
	return c.Hazard + ": " + c.Text + " (" + c.DeferTo + ")"
}

// Situation is what is going on at the vehicle. The zero value is nothing
// going on: no caution applies. A Fluid temperature left zero is not known,
// and fluid of unknown temperature is treated as hot.
type Situation struct {
	Raised        bool              // the vehicle is off the ground, or somebody is under it
	EngineRunning bool              // the engine runs
	Draining      bool              // fluid is about to come out
	Filling       bool              // fluid is about to go in
	LevelCheck    bool              // the check plug is about to be opened
	UsedFluid     bool              // there is drained fluid to keep or hand over
	Spilled       bool              // fluid is on the ground
	Fluid         units.Temperature // of the fluid; zero: not known
}

// BareMetalLimit returns 49 °C (120 °F), from which bare metal and fluid are
// treated as able to burn. Source: burns-institute contact times, seen
// second-hand; water scald times, seen second-hand.
func BareMetalLimit() units.Temperature { return units.Celsius(49) }

// hot says whether the fluid can scald: known at or above the limit, or not known.
func (s Situation) hot() bool {
	known := s.Fluid.Valid() && !s.Fluid.IsZero()
	return !known || s.Fluid.Compare(BareMetalLimit()) >= 0
}

func (s Situation) opening() bool { return s.Draining || s.Filling || s.LevelCheck }

// For returns the cautions that apply, the ones that can kill first, always in
// the same order. The slice is the caller's own.
func For(s Situation) []Caution {
	var out []Caution
	for _, rule := range rules() {
		if rule.applies(s) {
			out = append(out, rule.Caution)
		}
	}
	return out
}

// All returns every caution this package knows, in the order For uses.
func All() []Caution {
	var out []Caution
	for _, rule := range rules() {
		out = append(out, rule.Caution)
	}
	return out
}

// Lookup returns the caution with that ID.
func Lookup(id string) (Caution, bool) {
	for _, rule := range rules() {
		if rule.ID == id {
			return rule.Caution, true
		}
	}
	return Caution{}, false
}

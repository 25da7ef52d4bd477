package jobcard

import (
	"errors"
	"fmt"
	"slices"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

// Spec is what is known of a job before work starts: the maker's figures, the
// shop's instruments, and what was agreed. It never changes once a card is
// open. Zero values mean "not known" unless a field says otherwise.
type Spec struct {
	Job       string `json:"job"`                 // the shop's own reference
	Vehicle   string `json:"vehicle,omitempty"`   // as the shop calls it
	Procedure string `json:"procedure,omitempty"` // id of the procedure followed
	Edition   string `json:"edition,omitempty"`   // of the data the procedure came from

	Capacity   units.Range[units.VolumeDim] `json:"capacity"`            // of the whole system at Reference
	Sump       units.Volume                 `json:"sump,omitzero"`       // what the drain plug can reach
	UsualDrain units.Range[units.VolumeDim] `json:"usualDrain,omitzero"` // what one drain usually releases
	Reference  units.Temperature            `json:"reference,omitzero"`  // volumes are compared here; zero: 15 °C
	Fluid      Fluid                        `json:"fluid"`
	CaseMetal  thermal.Material             `json:"caseMetal,omitzero"` // of the box; zero: its growth is not counted
	Window     thermal.Window               `json:"window,omitzero"`    // zero: the box has none

	Target   float64          `json:"target,omitzero"`   // highest old share agreed; zero: none agreed
	Purpose  exchange.Purpose `json:"purpose,omitzero"`  // of a change of class the target must hold whatever the gears do
	Overfill units.Volume     `json:"overfill,omitzero"` // put in on purpose before the check
	OnHand   units.Volume     `json:"onHand,omitzero"`   // fluid brought to the job
	Runs     int              `json:"runs,omitzero"`     // through the gears, as the sheet asks

	Plugs        []sealing.Plug   `json:"plugs,omitempty"`
	Washers      []sealing.Washer `json:"washers,omitempty"`
	Tools        []sealing.Tool   `json:"tools,omitempty"`
	Vessels      []thermal.Vessel `json:"vessels,omitempty"`
	Thermometers []Thermometer    `json:"thermometers,omitempty"`
	Scales       []Scale          `json:"scales,omitempty"`
}

// Fluid is how the fluid expands. Give a density at 15 °C, or a coefficient,
// or a density table; with none of them the fluid counts as an oil of unknown
// density.
type Fluid struct {
	Class     string                 `json:"class,omitempty"`    // as the sheet names it
	Density15 units.Density          `json:"density15,omitzero"` // at 15 °C
	Expansion float64                `json:"expansion,omitzero"` // cubic, per kelvin
	Table     []thermal.DensityPoint `json:"table,omitempty"`    // densities at temperatures
}

// expansionDoubt is the relative standard uncertainty given to a coefficient
// somebody states: that of a mineral oil by the equation (our judgement).
const expansionDoubt = 0.06

// Law returns the expansion law that the figures give.
func (f Fluid) Law() (thermal.Fluid, error) {
	given := 0
	for _, on := range [...]bool{f.Density15 != 0, f.Expansion != 0, len(f.Table) > 0} {
		if on {
			given++
		}
	}
	switch {
	case given > 1:
		return thermal.Fluid{}, errors.New("fluid: more than one of density at 15 °C, expansion and table; want the best known one")
	case f.Density15 != 0:
		return thermal.Lubricant(f.Density15)
	case f.Expansion != 0:
		return thermal.Exponential(f.Expansion, expansionDoubt)
	case len(f.Table) > 0:
		return thermal.Tabulated(f.Table)
	}
	return thermal.UnknownDensity(), nil
}

// Thermometer is something that reads the fluid's temperature.
type Thermometer struct {
	ID        string                 `json:"id"`
	PlusMinus units.TemperatureDelta `json:"plusMinus"` // limits of its error, rectangular, the same at every reading
	Step      units.TemperatureDelta `json:"step,omitzero"`
}

// Scale is something that weighs.
type Scale struct {
	ID        string     `json:"id"`
	PlusMinus units.Mass `json:"plusMinus"` // limits of its error, rectangular, the same at every reading
	Step      units.Mass `json:"step,omitzero"`
}

// most bounds every list of a spec, so that a card stays cheap to check.
const mostListed = 64

// Check returns every fault of the spec, each named by its field.
func (s Spec) Check() error {
	c := specCheck{}
	c.words("job", s.Job)
	c.words("vehicle", s.Vehicle)
	c.words("procedure", s.Procedure)
	c.words("edition", s.Edition)
	c.words("fluid.class", s.Fluid.Class)
	c.volumes(s)
	c.shares(s)
	law, err := s.Fluid.Law()
	c.wrap("fluid", err)
	if i := slices.IndexFunc(s.Vessels, func(v thermal.Vessel) bool { return v.ID != "" && v.ID == law.ID() }); i >= 0 {
		// Both would name the cause "id/expansion", one of glass and one of oil.
		c.say("vessel %d: id %.40q is that of the fluid's law; want another", i+1, law.ID())
	}
	if s.hasWindow() {
		c.wrap("window", s.Window.Check())
	}
	c.text("window.note", s.Window.Note, mostText)
	if s.CaseMetal != thermal.UnknownMaterial {
		c.wrap("caseMetal", s.CaseMetal.Check())
	}
	if s.Reference.IsZero() {
		s.Reference = thermal.ReferenceTemperature()
	}
	if !s.Reference.Valid() || s.Reference.Compare(units.Celsius(-20)) < 0 || s.Reference.Compare(units.Celsius(120)) > 0 {
		c.say("reference is %s; want a temperature between -20 and 120 °C, or none for 15 °C", s.Reference)
	}
	c.lists(s)
	return errors.Join(c.faults...)
}

type specCheck struct{ faults []error }

func (c *specCheck) say(format string, args ...any) {
	c.faults = append(c.faults, fmt.Errorf("jobcard: job: "+format, args...))
}

func (c *specCheck) wrap(field string, err error) {
	if err != nil {
		c.say("%s: %w", field, err)
	}
}

func (c *specCheck) words(field, s string) { c.text(field, s, 200) }

func (c *specCheck) text(field, s string, most int) {
	if err := checkText(s, most); err != nil {
		c.say("%s %.40q: %w", field, s, err)
	}
}

func (c *specCheck) volumes(s Spec) {
	low, high := s.Capacity.Low(), s.Capacity.High()
	if !s.Capacity.Valid() || low.Sign() <= 0 || high.Compare(units.Litre.Of(1000)) > 0 || high.Compare(low.Scale(3)) > 0 {
		c.say("capacity is %s; want a positive volume or range, the high end at most three times the low one and at most 1000 L", s.Capacity)
		return
	}
	if !s.Sump.Valid() || s.Sump.Sign() < 0 || s.Sump.Compare(low) > 0 {
		c.say("sump is %s; want at most the capacity, %s, or none where it is not known", s.Sump, low)
	}
	if !s.UsualDrain.Valid() || s.UsualDrain.Low().Sign() < 0 || s.UsualDrain.High().Compare(low) >= 0 {
		c.say("usual drain is %s; want less than the capacity, %s", s.UsualDrain, low)
	}
	if !s.Overfill.Valid() || s.Overfill.Sign() < 0 || s.Overfill.Compare(low.Scale(0.25)) > 0 {
		c.say("overfill is %s; want zero to a quarter of the capacity", s.Overfill)
	}
	if !s.OnHand.Valid() || s.OnHand.Sign() < 0 {
		c.say("fluid on hand is %s; want zero or more", s.OnHand)
	}
}

func (c *specCheck) shares(s Spec) {
	if !(s.Target >= 0 && s.Target < 1) {
		c.say("target is %v; want the highest old share agreed, above 0 and below 1, or 0 for none", s.Target)
	}
	if s.Purpose > exchange.ChangeClass {
		c.say("purpose is %d; want refresh or change of class", uint8(s.Purpose))
	}
	if s.Runs < 0 || s.Runs > 1000 {
		c.say("runs is %d; want 0 (not stated) to 1000", s.Runs)
	}
}

func (s Spec) hasWindow() bool { return s.Window != thermal.Window{} }

// lists checks every named thing, and that no name stands twice in its list.
func (c *specCheck) lists(s Spec) {
	c.named("plug", len(s.Plugs), func(i int) (string, error) { return s.Plugs[i].ID, s.Plugs[i].Check() })
	c.named("washer", len(s.Washers), func(i int) (string, error) { return s.Washers[i].ID, s.Washers[i].Check() })
	c.named("tool", len(s.Tools), func(i int) (string, error) { return s.Tools[i].ID, s.Tools[i].Check() })
	c.named("vessel", len(s.Vessels), func(i int) (string, error) { return s.Vessels[i].ID, s.Vessels[i].Check() })
	c.named("thermometer", len(s.Thermometers), func(i int) (string, error) { return s.Thermometers[i].ID, s.Thermometers[i].check() })
	c.named("scale", len(s.Scales), func(i int) (string, error) { return s.Scales[i].ID, s.Scales[i].check() })
	for i := range s.Washers[:min(len(s.Washers), mostListed)] {
		c.words(fmt.Sprintf("washer %d: material", i+1), s.Washers[i].Material)
	}
	for i := range s.Vessels[:min(len(s.Vessels), mostListed)] {
		c.words(fmt.Sprintf("vessel %d: title", i+1), s.Vessels[i].Title)
	}
	for _, p := range s.Plugs {
		if p.Washer == "" {
			continue
		}
		if _, ok := s.washer(p.Washer); !ok {
			c.say("plug %.40q takes washer %.40q, which the job does not list; want %s", p.ID, p.Washer, oneOf("washer", len(s.Washers), s.washerID))
		}
	}
}

func (c *specCheck) named(what string, n int, at func(int) (string, error)) {
	if n > mostListed {
		c.say("%d %ss; want at most %d", n, what, mostListed)
		return
	}
	ids := make([]string, n)
	for i := range n {
		id, err := at(i)
		ids[i] = id
		c.wrap(fmt.Sprintf("%s %d", what, i+1), err)
		if err := checkID(id); err != nil {
			c.say("%s %d: id %.40q: %w", what, i+1, id, err)
		}
		for _, other := range ids[:i] {
			if other == id {
				c.say("%s %d: id %.40q stands twice", what, i+1, id)
			}
		}
	}
}

// checkID keeps names fit for cause ids and files.
func checkID(id string) error {
	if id == "" || len(id) > mostID {
		return fmt.Errorf("%d bytes; want 1 to %d", len(id), mostID)
	}
	for i := range len(id) {
		c := id[i]
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_' || c == '.') {
			return errors.New("want letters, digits, - _ and . only")
		}
	}
	return nil
}

func (t Thermometer) check() error {
	if !t.PlusMinus.Valid() || t.PlusMinus.Sign() < 0 || !t.Step.Valid() || t.Step.Sign() < 0 {
		return fmt.Errorf("± %s, step %s; want zero or more", t.PlusMinus, t.Step)
	}
	return nil
}

func (s Scale) check() error {
	if !s.PlusMinus.Valid() || s.PlusMinus.Sign() < 0 || !s.Step.Valid() || s.Step.Sign() < 0 {
		return fmt.Errorf("± %s, step %s; want zero or more", s.PlusMinus, s.Step)
	}
	return nil
}

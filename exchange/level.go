package exchange

import (
	"errors"
	"fmt"

	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
)

// CameIn is what was known of the level before the job. The zero value is not
// known: a box that leaked, or came in wrong.
type CameIn uint8

const (
	// CameInUnknown: the ledger alone then proves nothing; only the check does.
	CameInUnknown CameIn = iota
	// CameInRight: the level was checked and right.
	CameInRight
	// CameInOff: the level was known to be off by CameInBy.
	CameInOff
)

// String returns "unknown", "right" or "off".
func (c CameIn) String() string {
	switch c {
	case CameInRight:
		return "right"
	case CameInOff:
		return "off"
	}
	return "unknown"
}

// MarshalText returns String; a value that is none of them is an error.
func (c CameIn) MarshalText() ([]byte, error) {
	if c > CameInOff {
		return nil, fmt.Errorf("exchange: level before %d; want 0 to %d", uint8(c), uint8(CameInOff))
	}
	return []byte(c.String()), nil
}

// LevelCheck is a level about to be proved at the check plug: what the ledger
// says is in the box, and how the check is made.
type LevelCheck struct {
	Net      measure.Volume    // put in less taken out, spilled and lost; at NetAt
	NetAt    units.Temperature // zero is thermal.ReferenceTemperature
	CameIn   CameIn
	CameInBy measure.Volume // with CameInOff: too much (+) or too little (-), at mid-window
	Capacity measure.Volume // of the box when right at mid-window
	Fluid    thermal.Fluid
	Case     thermal.Material    // thermal.Uncorrected leaves its growth out on purpose
	Window   thermal.Window      // zero: none is known, and what the temperature costs is not counted
	At       measure.Temperature // of the fluid when the check is made
	Tilt     Tilt                // zero stands level
	Risk     float64             // of a wrong verdict, above 0, below 0.5; zero is 0.05

	noWindow bool
}

// LevelPart is one reason why a plug closed right at the lip leaves the box off.
type LevelPart struct {
	Name   string
	Volume measure.Volume         // too much (+) or too little (-) at mid-window
	Worth  units.TemperatureDelta // as if closed that much below (+) or above (-) mid-window
}

// LevelExpectation is what the check plug should show. All volumes are at
// mid-window temperature; without a window, at that of the check.
type LevelExpectation struct {
	CameIn CameIn
	Excess measure.Volume // in the box beyond the right level, by the ledger
	Parts  []LevelPart    // closing temperature, growth of the case, tilt; only those that count
	AtLip  measure.Volume // sum of the parts: how far off the box is when closed at the lip
	Worth  units.TemperatureDelta
	// Runs is Excess - AtLip: expected to run out (+) or missing to the lip (-).
	// Where CameIn is unknown it supposes a box that came in right.
	Runs     measure.Volume
	Decision measure.Decision // of Runs against 0: Above runs, Below does not; Undecided where CameIn is unknown
	Words    []string
	Steps    working.Steps

	check LevelCheck
	made  bool
}

const levelRisk = 0.05

// Expect returns what should run out at the check plug by the ledger, and by
// how much a plug closed at the lip leaves the box off all the same: the fluid
// not being at mid-window, the case having grown, the vehicle not standing
// level. Each comes in volume with doubt and as the shift of closing
// temperature that would cost as much.
//
// The parts are reported, never corrected for in silence. Doubt is first order,
// causes shared by ledger and check (one jug, one coefficient) with their signs.
// A tilt past the limit of its law, a bad window or fluid, and readings that are
// not valid are errors, all at once.
func (c LevelCheck) Expect() (LevelExpectation, error) {
	c = c.withWindow()
	if err := c.faults(); err != nil {
		return LevelExpectation{}, err
	}
	e := LevelExpectation{CameIn: c.CameIn, check: c, made: true}
	closing, err := c.Window.Closing(c.Fluid, c.Capacity.Best(), c.Case, c.At.Best())
	if err != nil {
		return LevelExpectation{}, fmt.Errorf("exchange: level: %w", err)
	}
	if e.Excess, err = c.excess(); err != nil {
		return LevelExpectation{}, fmt.Errorf("exchange: level: %w", err)
	}
	if e.Parts, err = c.parts(closing); err != nil {
		return LevelExpectation{}, fmt.Errorf("exchange: level: %w", err)
	}
	for _, p := range e.Parts {
		e.AtLip = e.AtLip.Add(p.Volume)
	}
	e.Runs = e.Excess.Sub(e.AtLip)
	if err := e.Runs.Err(); err != nil {
		return LevelExpectation{}, fmt.Errorf("exchange: level: %w", err)
	}
	if e.Worth, err = closing.Worth(e.AtLip.Best()); err != nil {
		return LevelExpectation{}, fmt.Errorf("exchange: level: %w", err)
	}
	if e.Decision, err = e.decide(); err != nil {
		return LevelExpectation{}, fmt.Errorf("exchange: level: %w", err)
	}
	e.Steps = e.steps(closing)
	e.Words = e.words()
	return e, nil
}

// levelAround is the half-width, in K, of the window set about the temperature
// of the check where none is known: it only serves to say what a volume is worth.
const levelAround = 5

// withWindow sets a window about the check itself where none is known.
func (c LevelCheck) withWindow() LevelCheck {
	if at := c.At.Best(); c.Window.Low.IsZero() && c.Window.High.IsZero() && !at.IsZero() {
		half := units.CelsiusDegree.Of(levelAround)
		c.Window.Low, c.Window.High, c.noWindow = at.Add(half.Neg()), at.Add(half), true
	}
	return c
}

func (c LevelCheck) faults() error {
	faults := []error{c.Window.Check(), c.Case.Check()}
	for _, r := range [...]struct {
		name string
		err  error
	}{{"net", c.Net.Err()}, {"level before", c.CameInBy.Err()}, {"capacity", c.Capacity.Err()}, {"fluid temperature", c.At.Err()}} {
		if r.err != nil {
			faults = append(faults, fmt.Errorf("exchange: level: %s: %w", r.name, r.err))
		}
	}
	if c.Risk != 0 && !(c.Risk > 0 && c.Risk < 0.5) {
		faults = append(faults, fmt.Errorf("exchange: level: risk %g; want above 0, below 0.5", c.Risk))
	}
	if c.CameIn > CameInOff {
		faults = append(faults, fmt.Errorf("exchange: level: level before is %d; want 0 to %d", c.CameIn, CameInOff))
	}
	if c.CameIn != CameInOff && (!c.CameInBy.Best().IsZero() || !c.CameInBy.U().IsZero()) {
		faults = append(faults, fmt.Errorf("exchange: level: level before is %s and off by %s; want an amount with CameInOff only", c.CameIn, levelSigned(c.CameInBy.Best())))
	}
	if err := systemCapacityFault(c.Capacity.Best()); err != nil {
		faults = append(faults, fmt.Errorf("exchange: level: %w", err))
	}
	return errors.Join(faults...)
}

func (c LevelCheck) risk() float64 {
	if c.Risk == 0 {
		return levelRisk
	}
	return c.Risk
}

// excess is what the ledger says beyond the right level, at mid-window.
func (c LevelCheck) excess() (measure.Volume, error) {
	from := c.NetAt
	if from.IsZero() {
		from = thermal.ReferenceTemperature()
	}
	net, err := c.toMid(c.Net, measure.TemperatureExactly(from))
	if err != nil {
		return measure.Volume{}, err
	}
	return net.Add(c.CameInBy), nil
}

func (c LevelCheck) toMid(v measure.Volume, from measure.Temperature) (measure.Volume, error) {
	return c.Fluid.ConvertMeasured(v, from, measure.TemperatureExactly(c.Window.Mid()))
}

// parts lists why a plug closed at the lip leaves the box off.
func (c LevelCheck) parts(closing thermal.Closing) ([]LevelPart, error) {
	whole, err := c.Window.ClosingMeasured(c.Fluid, c.Capacity, c.Case, c.At)
	if err != nil {
		return nil, err
	}
	fluid, err := c.Window.ClosingMeasured(c.Fluid, c.Capacity, thermal.Uncorrected, c.At)
	if err != nil {
		return nil, err
	}
	tilt, err := c.Tilt.Effect()
	if err != nil {
		return nil, err
	}
	if tilt.Validity == ValidityBroken {
		return nil, fmt.Errorf("tilt of %.3g° is past %.3g°, where the surface meets the floor or the roof; want the vehicle level", c.Tilt.Degrees.Value(), tilt.Limit)
	}
	var parts []LevelPart
	if !c.noWindow {
		parts = append(parts, LevelPart{Name: "closing temperature", Volume: fluid})
	}
	if !c.noWindow && c.Case != thermal.Uncorrected {
		parts = append(parts, LevelPart{Name: "growth of the case", Volume: whole.Sub(fluid)})
	}
	if !c.Tilt.IsZero() {
		left, err := c.toMid(tilt.Left, c.At)
		if err != nil {
			return nil, err
		}
		parts = append(parts, LevelPart{Name: "tilt", Volume: left})
	}
	for i := range parts {
		if parts[i].Worth, err = closing.Worth(parts[i].Volume.Best()); err != nil {
			return nil, err
		}
	}
	return parts, nil
}

// decide judges whether fluid will run.
func (e LevelExpectation) decide() (measure.Decision, error) {
	if e.CameIn == CameInUnknown {
		return measure.Decision{Risk: e.check.risk()}, nil
	}
	return levelSide(e.Runs, e.check.risk())
}

// levelSide says on which side of zero a volume is shown to lie.
func levelSide(v measure.Volume, risk float64) (measure.Decision, error) {
	return measure.Decide(measure.Between(0, 0), v.Reading(), risk)
}

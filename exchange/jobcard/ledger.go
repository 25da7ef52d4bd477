package jobcard

import (
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// ledger is all that follows from the entries so far. It is a value: a step
// copies it, so that a refused entry leaves the card as it was.
type ledger struct {
	spec Spec
	law  thermal.Fluid

	n    int // entries taken
	last time.Time

	flows  flows
	shares shares

	fillProved bool
	closed     bool
	warmest    units.Temperature // last known temperature of the fluid

	plugs []plugState // one for each of spec.Plugs; replaced, never written in place

	unmixed  bool // refilled or topped up since the gears were last run
	window   reading
	observed observation
	findings []Finding
}

// flows are the volumes at the reference temperature, with their doubt.
type flows struct {
	net      measure.Volume // in - out - spilled - kept
	out      measure.Volume // drained and caught
	in       measure.Volume // refilled and topped up, less what was kept or spilled of it
	used     measure.Volume // taken from the stock
	supplied units.Volume   // brought to the job, on top of spec.OnHand

	cycles      int              // drains that began a new cycle
	cycleOut    measure.Volume   // drained since the last refill began
	cycleIn     measure.Volume   // refilled since the last drain, less kept and spilled
	drainClosed bool             // a refill has begun since the last drain
	cycleReads  int              // readings that cycleOut is made of
	unstated    int              // readings without a stated doubt
	largest     units.Volume     // most drained in one cycle
	finished    []measure.Volume // drained in each cycle before this one; never written in place
}

// plugState is what was done to one plug since it was last opened.
type plugState struct {
	opened   int // entry that opened it last; 0: never
	washer   string
	newRing  bool
	torqued  bool
	inSpread bool // the torque agreed with the sheet
}

// reading is the last window reading and whether it still counts.
type reading struct {
	entry   int
	verdict measure.Verdict
	idling  bool
	level   bool
}

// observation is the last look at the check plug.
type observation struct {
	entry  int
	flow   exchange.AtPlug
	proof  bool           // it was made inside the window, engine idling, box level, and nothing changed since
	why    string         // why it is no proof
	before measure.Volume // the net before this look
}

func newLedger(s Spec) (ledger, error) {
	law, err := s.Fluid.Law()
	if err != nil {
		return ledger{}, err
	}
	l := ledger{spec: s, law: law, plugs: make([]plugState, len(s.Plugs))}
	if l.shares, err = startShares(s); err != nil {
		return ledger{}, err
	}
	return l, nil
}

// drains returns what each cycle drained, the present one last.
func (f flows) drains() []measure.Volume {
	if f.cycles == 0 {
		return nil
	}
	return append(f.finished[:len(f.finished):len(f.finished)], f.cycleOut)
}

// editPlug returns the plugs with one changed, leaving the old slice alone.
func (l ledger) editPlug(id string, edit func(*plugState)) []plugState {
	plugs := append([]plugState(nil), l.plugs...)
	for i, p := range l.spec.Plugs {
		if p.ID == id {
			edit(&plugs[i])
		}
	}
	return plugs
}

// openPlug marks the plug of that role as opened by this entry: what closed it
// before counts no more.
func (l *ledger) openPlug(id string, role sealing.Role) {
	p, ok := l.spec.plugFor(id, role)
	if !ok {
		return
	}
	n := l.n
	l.plugs = l.editPlug(p.ID, func(s *plugState) { *s = plugState{opened: n} })
}

func (l ledger) plugState(id string) plugState {
	for i, p := range l.spec.Plugs {
		if p.ID == id {
			return l.plugs[i]
		}
	}
	return plugState{}
}

// share returns the old share so far.
func (l ledger) share() Share { return l.shares.now(l.spec, l.flows.largest) }

// levelChanged says that something changed the amount of fluid, so that an earlier
// look at the check plug proves nothing any more.
func (l *ledger) levelChanged() {
	if l.observed.entry != 0 {
		l.observed.proof = false
		l.observed.why = "fluid moved since"
	}
}

// note keeps a finding; findings are appended to a fresh slice so that older
// ledgers keep theirs.
func (l *ledger) note(code, text string) {
	l.findings = append(l.findings[:len(l.findings):len(l.findings)], Finding{Entry: l.n, Code: code, Text: text})
}

// Finding is something unusual about an accepted entry: worth a look, not
// wrong by itself.
type Finding struct {
	Entry int    `json:"entry"`
	Code  string `json:"code"` // stable, such as "drain-unusual"
	Text  string `json:"text"`
}

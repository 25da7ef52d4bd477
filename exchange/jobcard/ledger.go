package jobcard

import (
	"slices"
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// job is what a ledger rests on and no entry changes.
type job struct {
	spec   Spec
	law    thermal.Fluid
	onHand units.Volume // what was brought, at the reference temperature
	plugIndex
}

// ledger is all that follows from the entries so far. It is a value: a step
// copies it, so that a refused entry leaves the card as it was.
type ledger struct {
	*job

	n    int // entries taken
	last time.Time

	flows  flows
	shares shares

	fillProved bool
	closed     bool
	warmest    units.Temperature // last known temperature of the fluid

	plugs []plugState // one for each of spec.Plugs; replaced, never written in place, but in a dry run

	unmixed  bool // refilled or topped up since the gears were last run
	window   reading
	observed observation
	finding  *found // the last one

	// dry: entries that were taken once are reckoned again to see whether they still
	// stand; nobody else holds this ledger, and nothing is noted.
	dry bool
}

// line is an entry with what its amount comes to by itself.
type line struct {
	*Entry
	volume *measure.Volume // at the reference temperature; nil where the entry has no amount, or fault
	fault  error           // why the amount cannot be reckoned
}

func (e line) best() units.Volume { return e.volume.Best() }

// line reckons an entry's amount; n is the entry's number.
func (j *job) line(n int, e *Entry) line {
	if e.Amount.IsZero() {
		return line{Entry: e}
	}
	v, err := j.spec.atReference(n, e.Amount, j.law)
	if err != nil {
		return line{Entry: e, fault: err}
	}
	return line{Entry: e, volume: &v}
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
	proof  bool   // it was made inside the window, engine idling, box level, and nothing changed since
	why    string // why it is no proof
	before flows  // what had moved before this look
}

func newLedger(s Spec) (ledger, error) {
	law, err := s.Fluid.Law()
	if err != nil {
		return ledger{}, err
	}
	// The stock is taken as labelled at 20 °C.
	onHand, err := law.Convert(s.OnHand, units.Celsius(20), s.reference())
	if err != nil {
		onHand = s.OnHand
	}
	return startLedger(&job{s, law, onHand, indexPlugs(s.Plugs)})
}

// startLedger returns the ledger of a job without entries.
func startLedger(j *job) (ledger, error) {
	shares, err := startShares(j.spec)
	if err != nil {
		return ledger{}, err
	}
	return ledger{job: j, shares: shares, plugs: make([]plugState, len(j.spec.Plugs))}, nil
}

// editPlug returns the plug at that place to be changed, in a copy of the plugs, so that
// the old slice is left alone.
func (l *ledger) editPlug(i int) *plugState {
	if !l.dry {
		l.plugs = append([]plugState(nil), l.plugs...)
	}
	return &l.plugs[i]
}

// openPlug marks the plug of that role as opened by this entry: what closed it
// before counts no more.
func (l *ledger) openPlug(id string, role sealing.Role) {
	if i, ok := l.plugFor(id, role); ok {
		*l.editPlug(i) = plugState{opened: l.n}
	}
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

// found is a finding and the one before it: as with a move, older ledgers keep theirs.
type found struct {
	before *found
	is     Finding
}

// note keeps a finding; its words are made only where it is kept.
func (l *ledger) note(code string, text func() string) {
	if !l.dry {
		l.finding = &found{l.finding, Finding{Entry: l.n, Code: code, Text: text()}}
	}
}

// said is a finding's words where nothing is put into them.
func said(s string) func() string { return func() string { return s } }

// findings returns them in the order they were found.
func (l ledger) findings() []Finding {
	var list []Finding
	for f := l.finding; f != nil; f = f.before {
		list = append(list, f.is)
	}
	slices.Reverse(list)
	return list
}

// Finding is something unusual about an accepted entry: worth a look, not
// wrong by itself.
type Finding struct {
	Entry int    `json:"entry"`
	Code  string `json:"code"` // stable, such as "drain-unusual"
	Text  string `json:"text"`
}

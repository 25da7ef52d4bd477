package exchange

import (
	"errors"
	"fmt"
	"strconv"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// Pass is one drain-and-refill with its own volume and its own sump: the first
// drain, settled cold, reaches another part of the fluid than later ones.
type Pass struct {
	Drain          units.Volume
	Sump           units.Volume // what the plug can reach this time; zero: the system's
	RefillOldShare float64      // 0 for new fluid
}

// Traced is a two-zone service followed pass by pass at an assumed mixing share.
type Traced struct {
	Rows    []TracedRow
	Share   float64 // old share at the end
	Bounds  Share   // the same service with perfect mixing and with none
	Caveats []Caveat
	Steps   working.Steps
}

// TracedRow is one pass.
type TracedRow struct {
	Pass    int
	Drained float64 // old share of what came out
	Share   float64 // old share of the whole box, after the refill
	Sump    float64 // old share of the sump, after running the gears
	Held    float64 // old share of the fluid held back, after running the gears
}

// traceMostPasses keeps the working of a trace readable and its cost bounded.
const traceMostPasses = 1000

// WhatIf follows the passes at the system's mixing share: each drains, refills as
// much, and runs the gears. It answers "what if the gears mix this well"; the
// bounds beside it hold whatever they do. A system without a sump is well mixed.
// At most 1000 passes; a drain above its sump, a sump above the capacity, or a
// share outside 0 to 1 is an error.
func WhatIf(sys System, passes []Pass) (Traced, error) {
	err := sys.Check()
	if len(passes) > traceMostPasses {
		err = errors.Join(err, fmt.Errorf("%d passes; want at most %d", len(passes), traceMostPasses))
	}
	if err == nil {
		err = traceFaults(sys, passes)
	}
	if err != nil {
		return Traced{Share: 1, Bounds: allOld()}, fmt.Errorf("exchange: what if: %w", err)
	}
	t := Traced{Rows: traceRows(sys, passes)}
	t.Share = traceShare(t.Rows)
	perfect, none := sys, sys
	perfect.Mixing, none.Mixing = 1, 0
	low, high := traceShare(traceRows(perfect, passes)), traceShare(traceRows(none, passes))
	t.Bounds = Share{min(low, high), max(low, high)} // equal but for rounding in a well-mixed box
	t.Caveats = []Caveat{DrainedSampleFlatters}
	if sys.twoZones() {
		t.Caveats = append(t.Caveats, MixingIsWhatIf)
	} else {
		t.Caveats = append(t.Caveats, SumpNotKnown)
	}
	t.Steps = traceSteps(sys, passes, t)
	return t, nil
}

func traceFaults(sys System, passes []Pass) error {
	var faults []error
	for i, p := range passes {
		if len(faults) >= remainingMostFaults {
			break
		}
		where := "pass " + strconv.Itoa(i+1)
		if !p.Sump.IsZero() && !sys.twoZones() {
			faults = append(faults, fmt.Errorf("%s: sump %s in a system without one; want the system's sump too", where, p.Sump))
		}
		if err := (System{Capacity: sys.Capacity, Sump: p.Sump}).Check(); err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", where, err))
			continue
		}
		most, name := p.within(sys).drainable()
		if err := systemDrainFault("drain", p.Drain, most, name); err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", where, err))
		}
		if !systemIsShare(p.RefillOldShare) {
			faults = append(faults, fmt.Errorf("%s: %w", where, systemShareFault("refill's old share", p.RefillOldShare)))
		}
	}
	return errors.Join(faults...)
}

// within is the system as it stands at this pass.
func (p Pass) within(sys System) System {
	if !p.Sump.IsZero() {
		sys.Sump = p.Sump
	}
	return sys
}

func traceRows(sys System, passes []Pass) []TracedRow {
	rows := make([]TracedRow, 0, len(passes))
	st := stateFull(sys)
	for i, p := range passes {
		if sys.twoZones() {
			st = st.settled(p.within(sys).Sump)
		}
		row := TracedRow{Pass: i + 1, Drained: st.DrainShare()}
		st = st.drained(p.Drain).refilled(p.Drain, p.RefillOldShare)
		row.Share = st.OldShare()
		st = st.mixed(sys.Mixing)
		row.Sump, row.Held = st.DrainShare(), st.HeldShare()
		rows = append(rows, row)
	}
	return rows
}

func traceShare(rows []TracedRow) float64 {
	if len(rows) == 0 {
		return 1
	}
	return rows[len(rows)-1].Share
}

func traceSteps(sys System, passes []Pass, t Traced) working.Steps {
	var s working.Builder
	before := 1.0
	for i, row := range t.Rows {
		s.Add("old share after pass "+strconv.Itoa(row.Pass), "x - d·(s - c)/C",
			fmt.Sprintf("%s - %s × (%s - %s) / %s", shareText(before), stepLitres(passes[i].Drain),
				shareText(row.Drained), shareText(passes[i].RefillOldShare), stepLitres(sys.Capacity)),
			shareText(row.Share))
		before = row.Share
	}
	s.Add("with perfect mixing", "m = 1", "", shareText(t.Bounds.Low))
	s.Add("with no mixing", "m = 0", "", shareText(t.Bounds.High))
	return s.Steps()
}

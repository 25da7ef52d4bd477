package exchange

import (
	"errors"
	"fmt"
	"strconv"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// Stage is one part of a combined service: either a drain-and-fill or a flush
// through the lines, never both.
type Stage struct {
	Drain units.Volume // drained and refilled with new fluid
	Flush units.Volume // new fluid passed through
	Flow  Flow         // of the flush; zero: not known, and the share becomes a range
	Tanks int          // of a FlowTanks flush
}

// Combined is a service of several stages.
type Combined struct {
	Rows    []CombinedRow
	Share   Share        // old share at the end
	Fluid   units.Volume // new fluid used, exact, without allowances
	Caveats []Caveat
	Steps   working.Steps
}

// CombinedRow is one stage.
type CombinedRow struct {
	Stage int
	Share Share // old share after it
	Fluid units.Volume
}

const combineMostStages = 100

// Combine follows drains and flushes one after the other, such as three drains and
// then a line flush. Drains act as in [Remaining]; before a flush the gears are
// taken to have made the box all alike, so that it leaves its share of
// [ThroughFlow.Flush] of what there was. 1 to 100 stages; every fault is reported.
func Combine(sys System, stages []Stage) (Combined, error) {
	if err := combineFaults(sys, stages); err != nil {
		return Combined{Share: allOld()}, fmt.Errorf("exchange: combine: %w", err)
	}
	low, high := stateFull(sys), stateFull(sys)
	var c Combined
	flushed := false
	for i, g := range stages {
		row := CombinedRow{Stage: i + 1, Fluid: g.Drain.Add(g.Flush)}
		if g.Flush.IsZero() {
			low = low.drained(g.Drain).refilled(g.Drain, 0).mixed(sys.Mixing)
			high = high.drained(g.Drain).refilled(g.Drain, 0).mixed(sys.Mixing)
		} else {
			flushed = true
			f, err := g.flow(sys).Flush()
			if err != nil {
				return Combined{Share: allOld()}, fmt.Errorf("exchange: combine: stage %d: %w", i+1, err)
			}
			low, high = low.thinned(f.Share.Low), high.thinned(f.Share.High)
		}
		row.Share = Share{low.OldShare(), high.OldShare()}
		c.Rows, c.Fluid = append(c.Rows, row), c.Fluid.Add(row.Fluid)
	}
	c.Share = c.Rows[len(c.Rows)-1].Share
	if flushed {
		c.Caveats = append(c.Caveats, CleanOutletProvesNothing)
	}
	if sys.twoZones() {
		c.Caveats = append(c.Caveats, MixingIsWhatIf)
	}
	c.Steps = combineSteps(stages, c)
	return c, nil
}

func (g Stage) flow(sys System) ThroughFlow {
	return ThroughFlow{Capacity: sys.Capacity, Volume: g.Flush, Flow: g.Flow, Tanks: g.Tanks}
}

// thinned makes the box all alike and leaves the given part of its old share.
func (s State) thinned(part float64) State {
	x := s.OldShare() * part
	s.sumpShare, s.heldShare = x, x
	return s
}

func combineFaults(sys System, stages []Stage) error {
	if err := sys.Check(); err != nil {
		return err
	}
	if len(stages) < 1 || len(stages) > combineMostStages {
		return fmt.Errorf("%d stages; want 1 to %d", len(stages), combineMostStages)
	}
	var faults []error
	most, name := sys.drainable()
	for i, g := range stages {
		where := "stage " + strconv.Itoa(i+1)
		if g.Drain.IsZero() == g.Flush.IsZero() {
			faults = append(faults, fmt.Errorf("%s: drain %s and flush %s; want one of the two", where, g.Drain, g.Flush))
			continue
		}
		if err := systemDrainFault("drain", g.Drain, most, name); err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", where, err))
		}
		if g.Flush.IsZero() && (g.Flow != FlowUnknown || g.Tanks != 0) {
			faults = append(faults, fmt.Errorf("%s: a flow pattern without a flush; want none", where))
		} else if err := g.flow(sys).faults(); err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", where, err))
		}
	}
	return errors.Join(faults...)
}

func combineSteps(stages []Stage, c Combined) working.Steps {
	var s working.Builder
	for i, row := range c.Rows {
		what := "after drain and refill of " + stepLitres(stages[i].Drain)
		formula := "x·(1 - d/C)"
		if !stages[i].Flush.IsZero() {
			what = "after flush of " + stepLitres(stages[i].Flush) + ", flow " + stages[i].Flow.String()
			formula = "x × what the flush leaves"
		}
		s.Add("stage "+strconv.Itoa(row.Stage)+", "+what, formula, "", row.Share.String())
	}
	s.Add("new fluid", "sum of the stages", "", stepLitres(c.Fluid))
	return s.Steps()
}

package measure

import (
	"errors"
	"fmt"
	"math"

	"example.com/meniscus/units"
)

// tool gathers the terms of one reading of one instrument. Causes that belong to
// the instrument ("jug-a/scale") are shared by all its readings; causes that
// belong to one look ("jug-a/reading/drain-1") carry the entry in their id.
type tool struct {
	kind, id, title, entry string
	terms                  []Term
	faults                 []error
}

func (t *tool) fail(err error) {
	if err != nil {
		t.faults = append(t.faults, err)
	}
}

// shared adds a cause of the instrument itself.
func (t *tool) shared(part, what string, shape Shape, scale float64) {
	t.add(t.id+"/"+part, t.name()+": "+what, shape, scale)
}

// own adds a cause of this one reading. Without an entry two readings would
// share it, and a doubt that is really there would cancel.
func (t *tool) own(part, what string, shape Shape, scale float64) {
	if scale == 0 {
		return
	}
	if t.entry == "" {
		t.fail(errors.New("this reading has no entry to tell its doubt from other readings'; want For(\"drain-1\").Read(…)"))
		return
	}
	t.add(t.id+"/"+part+"/"+t.entry, t.name()+": "+what+", "+t.entry, shape, scale)
}

func (t *tool) add(id, label string, shape Shape, scale float64) {
	if scale == 0 {
		return
	}
	c, err := newCause(Cause{id: id, label: label, shape: shape})
	t.fail(err)
	t.terms = append(t.terms, Term{c, scale})
}

func (t *tool) name() string {
	if t.title == "" {
		return t.id
	}
	return t.title
}

// limits turns ±a into a standard uncertainty: at coverage factor k where a
// certificate gives one, otherwise as limits with nothing else known.
func (t *tool) limits(a, k float64) (Shape, float64) {
	if k == 0 {
		return Rectangular, a / math.Sqrt(3)
	}
	u, err := FromExpanded(a, k)
	if err != nil {
		t.fail(fmt.Errorf("coverage factor %v; want a finite number above 0, or 0 for limits", k))
	}
	return Normal, u
}

// step turns a graduation or resolution into a standard uncertainty.
func (t *tool) step(d float64, byEye bool) (Shape, float64) {
	if byEye {
		return Triangular, d / math.Sqrt(24)
	}
	return Rectangular, d / math.Sqrt(12)
}

// check reports everything wrong with the instrument and this reading at once.
func (t *tool) check() error {
	if t.id == "" {
		t.fail(errors.New("no id; want a name that stays the same, such as \"jug-a\""))
	}
	if len(t.faults) == 0 {
		return nil
	}
	return fmt.Errorf("measure: %s %s: %w", t.kind, quote(t.id), errors.Join(t.faults...))
}

// inUnit is q in unit u for an instrument's own figures: in range and not negative.
func inUnit[D units.Dimension](t *tool, what string, q units.Quantity[D], u units.Unit[D]) float64 {
	if !q.Valid() || q.Sign() < 0 {
		t.fail(fmt.Errorf("%s is %v; want 0 or more", what, q))
		return 0
	}
	return q.In(u)
}

// relative checks a share such as 0.01 for ± 1 %.
func (t *tool) relative(what string, x float64) float64 {
	if !(x >= 0 && x < 1) {
		t.fail(fmt.Errorf("%s of %v; want a share from 0 to below 1, such as 0.01 for ± 1 %%", what, x))
		return 0
	}
	return x
}

// reads checks the quantity read against the instrument's range; a most of zero
// is no limit.
func reads[D units.Dimension](t *tool, q, most units.Quantity[D]) {
	if !q.Valid() || q.Sign() < 0 || !most.IsZero() && q.Compare(most) > 0 {
		upTo := ""
		if !most.IsZero() {
			upTo = " to " + most.String()
		}
		t.fail(fmt.Errorf("reading of %v; want 0%s", q, orMore(upTo)))
	}
}

func orMore(upTo string) string {
	if upTo == "" {
		return " or more"
	}
	return upTo
}

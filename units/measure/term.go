package measure

import (
	"errors"
	"fmt"
	"math"

	"example.com/meniscus/units"
)

// Term is how much of one cause went into a reading: its contribution to the
// error is Scale × cause, in the reading's unit. The sign matters, because that
// is how shared causes cancel; |Scale| is a standard uncertainty.
type Term struct {
	Cause *Cause
	Scale float64
}

func (t Term) check() error {
	if t.Cause.ID() == "" {
		return errors.New("a term without a cause; want one from NewCause")
	}
	if !finite(t.Scale) {
		return fmt.Errorf("term %s has scale %v; want a finite number", quote(t.Cause.id), t.Scale)
	}
	return nil
}

// ErrTwoMeanings is wrapped where two causes share an id but differ in shape or
// degrees of freedom, so that they cannot be the same cause.
var ErrTwoMeanings = errors.New("one id, two meanings")

// mostTerms bounds a reading, so that whatever is made of one stays cheap, and so
// that what was written down can be read back.
const mostTerms = 4096

// doubt is the terms of a reading: one per cause, sorted by id, none zero, and no
// more than mostTerms.
type doubt struct {
	terms []Term
	fault error // sticky; a faulty doubt has no terms
}

func faulty(err error) doubt { return doubt{fault: err} }

func overflow() doubt {
	return faulty(fmt.Errorf("measure: a reading is %w; want every value and scale finite and within the range of its unit", units.ErrOutOfRange))
}

func newDoubt(terms []Term) (doubt, error) {
	if len(terms) > mostTerms {
		return doubt{}, fmt.Errorf("measure: a reading of %d terms; want at most %d", len(terms), mostTerms)
	}
	var faults told
	for _, t := range terms {
		faults.add(t.check())
	}
	if err := faults.join(); err != nil {
		return doubt{}, fmt.Errorf("measure: %w", err)
	}
	g := gathering{terms: make([]Term, 0, len(terms))}
	for _, t := range terms {
		g.add(0, t)
	}
	d := g.done()
	return d, d.fault
}

// plus returns d + k·o, causes matched by id.
func (d doubt) plus(o doubt, k float64) doubt {
	if d.fault != nil {
		return d
	}
	if o.fault != nil {
		return o
	}
	g := gathering{terms: append(make([]Term, 0, len(d.terms)+len(o.terms)), d.terms...)}
	g.addAll(o.terms, k)
	return g.done()
}

// u is the root sum of squares. The plain sum is wrong only where a square
// leaves the range of float64; there it is done again in units of the largest.
func (d doubt) u() float64 {
	if d.fault != nil {
		return units.Huge
	}
	sum, largest := 0.0, 0.0
	for _, t := range d.terms {
		sum += float64(t.Scale * t.Scale)
		largest = math.Max(largest, math.Abs(t.Scale))
	}
	if sum > 1e-280 && sum < units.Huge || largest == 0 {
		return math.Sqrt(sum)
	}
	sum = 0
	for _, t := range d.terms {
		s := t.Scale / largest
		sum += float64(s * s)
	}
	return math.Min(largest*math.Sqrt(sum), units.Huge)
}

// gathering merges terms into one list sorted by cause id.
type gathering struct {
	terms []Term
	fault error
}

// addAll adds k times each term; the terms are sorted, so each search starts
// where the last one ended.
func (g *gathering) addAll(terms []Term, k float64) {
	at := 0
	for _, t := range terms {
		if g.fault != nil {
			return
		}
		at = g.add(at, Term{t.Cause, t.Scale * k})
	}
}

// add puts t in at or after position from, and returns its place.
func (g *gathering) add(from int, t Term) int {
	low, high := from, len(g.terms)
	for low < high {
		mid := int(uint(low+high) >> 1)
		c := g.terms[mid].Cause
		if c == t.Cause || c.id == t.Cause.id {
			g.meet(mid, t)
			return mid
		}
		if c.id < t.Cause.id {
			low = mid + 1
		} else {
			high = mid
		}
	}
	if len(g.terms) == mostTerms {
		g.fault = fmt.Errorf("measure: a reading of more than %d causes: %w; want fewer, such as one for what is known to go together", mostTerms, units.ErrOutOfRange)
		return low
	}
	g.terms = append(g.terms, Term{})
	copy(g.terms[low+1:], g.terms[low:])
	g.terms[low] = t
	return low
}

func (g *gathering) meet(at int, t Term) {
	if have := g.terms[at].Cause; g.fault == nil && !have.same(t.Cause) {
		g.fault = fmt.Errorf("measure: cause %s is %s with %v degrees of freedom in one reading and %s with %v in another: %w; want one definition for each id",
			quote(have.id), have.shape, have.dof, t.Cause.shape, t.Cause.dof, ErrTwoMeanings)
	}
	g.terms[at].Scale += t.Scale
}

// done drops what cancelled exactly and refuses what overflowed.
func (g *gathering) done() doubt {
	if g.fault != nil {
		return faulty(g.fault)
	}
	kept := g.terms[:0]
	for _, t := range g.terms {
		if !finite(t.Scale) {
			return overflow()
		}
		if t.Scale != 0 {
			kept = append(kept, t)
		}
	}
	return doubt{terms: kept}
}

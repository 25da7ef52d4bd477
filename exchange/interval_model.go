package exchange

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// intervalModel is the old share as a function of the capacity, and how the
// readings spread it there.
type intervalModel struct {
	low, high float64 // capacity, litres
	drains    []float64
	terms     []intervalTerm // one cause after the other
	causes    []intervalCause
	unruly    bool // a cause without a fourth moment, or with a table, matters

	left, along []float64 // scratch of at, one per drain
	points      []intervalPoint
}

// intervalTerm is how much of a cause is in one drain, litres per standard
// deviation.
type intervalTerm struct {
	drain int
	scale float64
}

// intervalCause is a run of terms.
type intervalCause struct {
	from, to int
	excess   float64 // fourth cumulant of the standardised cause
	unruly   bool
}

// intervalPoint is the distribution of the share at one capacity.
type intervalPoint struct {
	plain        float64 // at the drains' best estimates
	mean, sd     float64
	skew, excess float64
	slope        float64 // of plain, per litre of capacity
	weight       float64 // as a node of a rule
}

func newIntervalModel(s MeasuredService) (*intervalModel, error) {
	n := len(s.Drains)
	m := &intervalModel{low: s.Capacity.Low().In(units.Litre), high: s.Capacity.High().In(units.Litre)}
	if s.measured() {
		m.low = s.bestCapacity().In(units.Litre)
		m.high = m.low
	}
	scratch := make([]float64, 3*n)
	m.drains, m.left, m.along = scratch[:n], scratch[n:2*n], scratch[2*n:]
	var all []intervalUse
	for i, d := range s.Drains {
		m.drains[i] = d.Best().In(units.Litre)
		for _, t := range d.Reading().Terms() {
			all = append(all, intervalUse{t.Cause, intervalTerm{i, t.Scale}})
		}
	}
	slices.SortStableFunc(all, func(a, b intervalUse) int {
		if a.cause == b.cause {
			return 0
		}
		return cmp.Compare(a.cause.ID(), b.cause.ID())
	})
	if err := m.gather(all); err != nil {
		return nil, err
	}
	m.unruly = m.ruledByUnruly()
	return m, nil
}

type intervalUse struct {
	cause *measure.Cause
	term  intervalTerm
}

// gather turns sorted uses into runs, each scaled to a cause of deviation 1.
func (m *intervalModel) gather(all []intervalUse) error {
	m.terms = make([]intervalTerm, 0, len(all))
	m.causes = make([]intervalCause, 0, len(all))
	for i, u := range all {
		if i == 0 || u.cause != all[i-1].cause && u.cause.ID() != all[i-1].cause.ID() {
			c := intervalShape(u.cause)
			c.from = i
			m.causes = append(m.causes, c)
		} else if b := all[i-1].cause; b.Shape() != u.cause.Shape() || b.DoF() != u.cause.DoF() {
			return fmt.Errorf("cause %s: %w; want one definition for each id", u.cause.ID(), measure.ErrTwoMeanings)
		}
		if dof := u.cause.DoF(); u.cause.Shape() == measure.Student && dof > 4 {
			u.term.scale *= math.Sqrt(dof / (dof - 2)) // a t variate is wider than 1
		}
		m.terms = append(m.terms, u.term)
		m.causes[len(m.causes)-1].to = i + 1
	}
	return nil
}

// intervalShape gives the fourth cumulants of the shapes at deviation 1: all are
// symmetric, so there is no third.
func intervalShape(c *measure.Cause) intervalCause {
	switch c.Shape() {
	case measure.Normal:
		return intervalCause{}
	case measure.Rectangular:
		return intervalCause{excess: -1.2}
	case measure.Triangular:
		return intervalCause{excess: -0.6}
	case measure.Arcsine:
		return intervalCause{excess: -1.5}
	case measure.Student:
		if dof := c.DoF(); dof > 4 {
			return intervalCause{excess: 6 / (dof - 4)}
		}
	}
	return intervalCause{unruly: true}
}

func (m *intervalModel) mid() float64 { return m.low + float64((m.high-m.low)/2) }

// at gives the distribution of Π(1 - d/c) at capacity c. In terms of a = scale/(c
// - d) the relative gradient along a cause is A = Σa over its drains; the share
// bends along two causes by A·A' - Σaa', because no drain appears squared. Hence
// the shift of the mean, (ΣA² - ΣΣa²)/2, and the third cumulant,
// 3[(ΣA²)² - Σ(ΣaA)²] over the drains, to second order; the fourth cumulant to first.
func (m *intervalModel) at(c float64) intervalPoint {
	p := intervalPoint{plain: 1}
	slope := 0.0
	for i, d := range m.drains {
		rest := c - d
		m.left[i], m.along[i] = 1/rest, 0
		p.plain *= rest / c
		slope += d / rest
	}
	p.slope = p.plain * slope / c
	variance, squares, fourth := 0.0, 0.0, 0.0
	for _, k := range m.causes {
		sum := 0.0
		for _, t := range m.terms[k.from:k.to] {
			a := float64(t.scale * m.left[t.drain])
			sum += a
			squares += float64(a * a)
		}
		for _, t := range m.terms[k.from:k.to] {
			m.along[t.drain] += float64(float64(t.scale*m.left[t.drain]) * sum)
		}
		square := float64(sum * sum)
		variance += square
		fourth += float64(k.excess * float64(square*square))
	}
	if variance == 0 {
		p.mean = p.plain
		return p
	}
	bend := float64(variance * variance)
	for _, b := range m.along {
		bend -= float64(b * b)
	}
	root := math.Sqrt(variance)
	p.mean = p.plain * (1 + float64((variance-squares)/2))
	p.sd = p.plain * root
	p.skew = 3 * bend / float64(variance*root)
	p.excess = fourth / float64(variance*variance)
	return p
}

// ruledByUnruly says that causes without usable moments hold more than a
// thousandth of the variance of the readings.
func (m *intervalModel) ruledByUnruly() bool {
	m.at(m.mid())
	all, bad := 0.0, 0.0
	for _, k := range m.causes {
		sum := 0.0
		for _, t := range m.terms[k.from:k.to] {
			sum += float64(t.scale * m.left[t.drain])
		}
		all += float64(sum * sum)
		if k.unruly {
			bad += float64(sum * sum)
		}
	}
	return bad > float64(1e-3*all)
}

// capacityShare is the capacity's part of the first-order variance.
func (m *intervalModel) capacityShare() float64 {
	p := m.at(m.mid())
	u := p.slope * (m.high - m.low) / math.Sqrt(12)
	return intervalPart(float64(u*u), p)
}

// intervalPart is the capacity's part of the variance where the readings have
// theirs as at p.
func intervalPart(capacity float64, p intervalPoint) float64 {
	if capacity == 0 {
		return 0
	}
	return capacity / (capacity + float64(p.sd*p.sd))
}

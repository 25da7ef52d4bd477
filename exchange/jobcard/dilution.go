package jobcard

import (
	"math"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// dilution is the job as a chain of refills of a well-mixed box. A refill of old share
// c that takes the box from A to B makes the old share c + (x - c)·A/B; a drain leaves
// it. A and B are the capacity and all that moved until then, so every amount bears on
// every later refill.
type dilution struct {
	refills []poured
	moves   []bearing
	terms   []dilutionTerm
	excess  []float64 // of each cause: its fourth cumulant at deviation 1

	// Scratch of bear and at, so that a thousand capacities cost no more memory than one.
	shares  []float64 // before each refill, and at the end
	earlier []float64 // what a litre more before a refill does
	content []float64 // what a litre of old fluid in a refill does
	each    []float64 // what a litre of each amount does
	sums    []float64 // what each cause does
}

// poured is what was put in between two drains: litres in the box beyond its capacity,
// before and after, and the old share of what was put in.
type poured struct{ before, after, old float64 }

// bearing says where an amount enters: with which sign, first into which refill, and
// whether it is part of that refill or moved before it. A litre more of a part puts old
// litres of old fluid in with it.
type bearing struct {
	sign   float64
	refill int
	within bool
	old    float64
}

// dilutionTerm is a cause of doubt of one amount, in litres a standard deviation.
type dilutionTerm struct {
	move, cause int
	scale       float64
}

func newDilution(moves []*move) *dilution {
	d := &dilution{}
	var in, pending, pendingOld units.Volume
	settle := func() {
		if pending.Sign() <= 0 {
			return // kept before the first refill: owed to the next one
		}
		old := pendingOld.Ratio(pending)
		if old < 0 || old > 1 { // more was kept than new fluid was put in: all that is left is old
			old = clipped(old)
			d.mixIn(len(d.refills), old, 1)
		}
		d.refills = append(d.refills, poured{in.In(units.Litre), in.Add(pending).In(units.Litre), old})
		in, pending, pendingOld = in.Add(pending), units.Volume{}, units.Volume{}
	}
	index := map[string]int{}
	for i, m := range moves {
		v := m.volume.Best()
		switch {
		case m.out != 0:
			settle()
			in = in.Sub(v)
			d.moves = append(d.moves, bearing{-1, len(d.refills), false, 0})
		case m.in > 0:
			pending, pendingOld = pending.Add(v), pendingOld.Add(v.Scale(m.old))
			d.moves = append(d.moves, bearing{1, len(d.refills), true, m.old})
		default:
			old := 0.0
			if pending.Sign() > 0 {
				if old = pendingOld.Ratio(pending); old >= 0 && old <= 1 {
					d.mixIn(len(d.refills), old, v.Ratio(pending))
				}
				old = clipped(old)
				pendingOld = pendingOld.Sub(v.Scale(old))
			}
			pending = pending.Sub(v)
			d.moves = append(d.moves, bearing{-1, len(d.refills), true, old})
		}
		for _, t := range m.volume.Reading().Terms() {
			cause, ok := index[t.Cause.ID()]
			if !ok {
				cause = len(index)
				index[t.Cause.ID()] = cause
				d.excess = append(d.excess, excessOf(t.Cause.Shape()))
			}
			d.terms = append(d.terms, dilutionTerm{i, cause, t.Scale})
		}
	}
	settle()
	n := len(d.refills)
	d.shares, d.earlier, d.content = make([]float64, n+1), make([]float64, n+1), make([]float64, n)
	d.each, d.sums = make([]float64, len(d.moves)), make([]float64, len(index))
	return d
}

// mixIn says what of a refill is taken back in the mixture it has: the parts before it
// then count with their own old share only as far as they are left.
func (d *dilution) mixIn(refill int, mixture, taken float64) {
	for i := len(d.moves) - 1; i >= 0 && d.moves[i].refill == refill; i-- {
		if m := &d.moves[i]; m.within {
			m.old += float64(taken * (mixture - m.old))
		}
	}
}

// at returns the old share of a box of that capacity in litres, how it rises with the
// capacity, its standard deviation, both to first order (JCGM 100:2008 5.1.2 and
// 5.2.2: causes that amounts share add with their signs), and the excess of its
// distribution over a normal one.
func (d *dilution) at(capacity float64) (share, slope, sd, excess float64) {
	share, slope, each := d.bear(capacity)
	clear(d.sums)
	for _, t := range d.terms {
		d.sums[t.cause] += float64(t.scale * each[t.move])
	}
	variance, fourth := 0.0, 0.0
	for i, s := range d.sums {
		square := float64(s * s)
		variance += square
		fourth += float64(d.excess[i] * float64(square*square))
	}
	if variance > 0 {
		excess = fourth / float64(variance*variance)
	}
	return share, slope, math.Sqrt(variance), excess
}

// excessOf is the fourth cumulant of a shape at deviation 1, textbook values; a card's
// instruments have no other shapes.
func excessOf(s measure.Shape) float64 {
	switch s {
	case measure.Rectangular:
		return -1.2
	case measure.Triangular:
		return -0.6
	case measure.Arcsine:
		return -1.5
	}
	return 0
}

// bear returns the old share, and how it moves with a litre of capacity and with a
// litre of each amount; each holds until the next call.
func (d *dilution) bear(capacity float64) (share, slope float64, each []float64) {
	n := len(d.refills)
	d.shares[0] = 1
	for k, p := range d.refills {
		d.shares[k+1] = p.old + float64((d.shares[k]-p.old)*(capacity+p.before)/(capacity+p.after))
	}
	left := 1.0 // what is left at the end of a share that refill k left
	d.earlier[n] = 0
	for k := n - 1; k >= 0; k-- {
		b := capacity + d.refills[k].after
		d.content[k] = left / b
		d.earlier[k] = d.earlier[k+1] + float64(d.content[k]*(d.shares[k]-d.shares[k+1]))
		left *= (capacity + d.refills[k].before) / b
	}
	for i, m := range d.moves {
		k := m.refill
		d.each[i] = m.sign * d.earlier[k]
		if m.within && k < n {
			d.each[i] = m.sign * (d.earlier[k+1] + float64(d.content[k]*(m.old-d.shares[k+1])))
		}
	}
	return d.shares[n], d.earlier[0], d.each
}

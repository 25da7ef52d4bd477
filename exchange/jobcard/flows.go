package jobcard

import (
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// flows are the volumes at the reference temperature. They are added up exactly as
// the entries come; their doubt, which takes every reading's causes, only when it is
// asked for.
type flows struct {
	net      units.Volume // in - out - spilled - kept
	out      units.Volume // drained and caught
	in       units.Volume // refilled and topped up, less what was kept or spilled of it
	used     units.Volume // taken from the stock
	supplied units.Volume // brought to the job, on top of spec.OnHand
	last     *move        // the last of what net, out and in are made of

	cycles      int          // drains that began a new cycle
	cycleOut    units.Volume // drained since the last refill began
	cycleIn     units.Volume // refilled since the last drain, less kept and spilled
	drainClosed bool         // a refill has begun since the last drain
	cycleReads  int          // readings that cycleOut is made of
	unstated    int          // readings without a stated doubt
	largest     units.Volume // most drained in one cycle
}

// move is one amount that went into the box or out of it. Moves hang together from the
// last to the first: a ledger with one more shares all those before it with the
// ledger it came from, and neither can change what the other has.
type move struct {
	before  *move
	volume  *measure.Volume
	in, out int8    // what it counts for in the sums: 1, 0 or -1
	old     float64 // share of old fluid in what was put in
}

// put counts what went in, and how much of it was old fluid.
func (f *flows) put(v *measure.Volume, old float64) {
	f.in, f.net = f.in.Add(v.Best()), f.net.Add(v.Best())
	f.used, f.cycleIn = f.used.Add(v.Best()), f.cycleIn.Add(v.Best())
	f.last = &move{before: f.last, volume: v, in: 1, old: old}
}

// withhold counts what was put in and never reached the box.
func (f *flows) withhold(v *measure.Volume) {
	f.in, f.net = f.in.Sub(v.Best()), f.net.Sub(v.Best())
	f.cycleIn = f.cycleIn.Sub(v.Best())
	f.last = &move{before: f.last, volume: v, in: -1}
}

// take counts what came out, as part of the present cycle's drain where it says so.
func (f *flows) take(v *measure.Volume, drain bool) {
	f.out, f.net = f.out.Add(v.Best()), f.net.Sub(v.Best())
	f.last = &move{before: f.last, volume: v, out: 1}
	if drain {
		f.cycleOut = f.cycleOut.Add(v.Best())
		f.cycleReads++
	}
}

// startCycle closes the books of the cycle before.
func (f *flows) startCycle() {
	f.cycles++
	f.cycleOut, f.cycleIn, f.cycleReads = units.Volume{}, units.Volume{}, 0
	f.drainClosed = false
}

// moves returns all moves, the first first.
func (f flows) moves() []*move {
	n := 0
	for m := f.last; m != nil; m = m.before {
		n++
	}
	list := make([]*move, n)
	for m := f.last; m != nil; m = m.before {
		n--
		list[n] = m
	}
	return list
}

func (f flows) netMeasured() measure.Volume {
	return f.measured(f.net, func(m *move) int8 { return m.in - m.out })
}

func (f flows) inMeasured() measure.Volume {
	return f.measured(f.in, func(m *move) int8 { return m.in })
}

func (f flows) outMeasured() measure.Volume {
	return f.measured(f.out, func(m *move) int8 { return m.out })
}

// measured gives a sum its doubt.
func (f flows) measured(best units.Volume, counts func(*move) int8) measure.Volume {
	moves := f.moves()
	parts := make([]measure.Part, 0, len(moves))
	for _, m := range moves {
		if k := counts(m); k != 0 {
			parts = append(parts, measure.Part{Of: m.volume.Reading(), Sensitivity: float64(k)})
		}
	}
	return summed(best, parts)
}

// summed gives an exact sum the doubt of its parts, shared causes added with their
// signs in the order of the parts: the terms that adding one part at a time gives,
// without a copy of them at every part.
func summed(best units.Volume, parts []measure.Part) measure.Volume {
	if r, err := measure.Combine(0, parts...); err == nil {
		if v, err := measure.NewMeasured(best, r.Terms()...); err == nil {
			return v
		}
	}
	return measure.MeasuredExactly(units.Litre.Of(units.Huge)) // not valid, as a sum past the range is
}

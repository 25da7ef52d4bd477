package jobcard

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// By hand, 2 L out of 10 L and 2 L back: the share is 8/10, and rises by 2/100 a litre of
// capacity. A litre more out leaves 7/9, so -2/100 a litre at the start; a litre more
// back leaves 8/11, -8/100. One jug for both, wrong by e: (10 - 2(1 + e))/10, -0.2 e.
func TestDilutionByHand(t *testing.T) {
	s := simple(10)
	out, back := plain(2), plain(2)
	out.PlusMinus = units.Litre.Of(0.1 * math.Sqrt(3)) // u 0.1 L
	card := fill(t, s, FillPlug(at(0), ""), DrainOf(at(1), out), RefillOf(at(2), back))
	d := newDilution(card.state.flows.moves())
	share, slope, each := d.bear(10)
	each = slices.Clone(each)
	for name, pair := range map[string][2]float64{"share": {share, 0.8}, "capacity": {slope, 0.02}, "drain": {each[0], -0.02}, "refill": {each[1], -0.08}} {
		if math.Abs(pair[0]-pair[1]) > 1e-12 {
			t.Errorf("%s: %v; by hand %v", name, pair[0], pair[1])
		}
	}
	if _, _, sd, _ := d.at(10); math.Abs(sd-0.002) > 1e-9 {
		t.Errorf("deviation %v; by hand 0.02 × 0.1", sd)
	}
	scale, err := measure.NewCause("jug/scale", "", measure.Normal, 0)
	if err != nil {
		t.Fatal(err)
	}
	two, err := measure.NewMeasured(units.Litre.Of(2), measure.Term{Cause: scale, Scale: 2 * 0.01})
	if err != nil {
		t.Fatal(err)
	}
	drain := &move{volume: &two, out: 1}
	if _, _, sd, _ := newDilution([]*move{drain, {before: drain, volume: &two, in: 1}}).at(10); math.Abs(sd-0.002) > 1e-12 {
		t.Errorf("one jug for both: %v; by hand 0.2 × 0.01", sd)
	}
}

// The chain of refills gives the share that the boxes of the ledger give, at each
// capacity, whatever was done; and each amount bears on it as a small change of that
// amount shows.
func TestDilutionAgainstTheLedger(t *testing.T) {
	tried := 0
	manyCards(t, 1, func(card *Card, _ *rand.Rand) {
		moves := card.state.flows.moves()
		if len(moves) == 0 || len(moves) > 60 {
			return
		}
		tried++
		d, shares := newDilution(moves), card.OldShare()
		for c, want := range map[units.Volume]float64{card.spec.Capacity.Low(): shares.Low, card.spec.Capacity.Mid(): shares.Estimate, card.spec.Capacity.High(): shares.High} {
			if got, _, _, _ := d.at(c.In(units.Litre)); math.Abs(got-want) > 1e-9 {
				t.Errorf("at %v: %v, the ledger's boxes %v\n%s", c, got, want, card.Record())
			}
		}
		c, step := card.spec.Capacity.Mid().In(units.Litre), 1e-6
		_, slope, each := d.bear(c)
		each = slices.Clone(each)
		high, _, _, _ := d.at(c + step)
		low, _, _, _ := d.at(c - step)
		if by := (high - low) / (2 * step); math.Abs(by-slope) > 1e-6 {
			t.Errorf("by capacity %v, by a small change %v", slope, by)
		}
		for i := range moves {
			if by := nudged(t, moves, i, c, step); math.Abs(by-each[i]) > 1e-6 {
				t.Errorf("amount %d: %v, by a small change %v\n%s", i, each[i], by, card.Record())
			}
		}
	})
	if tried < 30 {
		t.Errorf("only %d cards were tried", tried)
	}
}

// nudged is how the share moves with one amount, by changing it.
func nudged(t *testing.T, moves []*move, i int, capacity, step float64) float64 {
	t.Helper()
	ends := [2]float64{}
	for k, by := range []float64{-step, step} {
		other := make([]*move, len(moves))
		copy(other, moves)
		changed := *moves[i]
		v := measure.MeasuredExactly(changed.volume.Best().Add(units.Litre.Of(by)))
		changed.volume, other[i] = &v, &changed
		ends[k], _, _, _ = newDilution(other).at(capacity)
	}
	return (ends[1] - ends[0]) / (2 * step)
}

// The interval holds the estimate, whatever was poured: the finished job of the golden
// records, with more put in at the end than came out, and one that was never refilled.
func TestIntervalHoldsTheEstimate(t *testing.T) {
	over := ternEntries()
	over[10] = RefillOf(at(80), jug(2.45, 20))
	for name, entries := range map[string][]Entry{"as drained": ternEntries(), "over": over} {
		card := fill(t, ternSpec(), entries...)
		r, err := card.OldShareInterval()
		share := card.OldShare()
		if err != nil || math.Abs(r.Best-share.Estimate) > 1e-12 || r.Low >= share.Estimate || r.High <= share.Estimate || math.Abs(r.Median-share.Estimate) > 2e-3 {
			t.Errorf("%s: %v to %v about %v, estimate %v, %v", name, r.Low, r.High, r.Best, share.Estimate, err)
		}
		if r.Method != exchange.ByQuadrature || r.Low < share.Low-0.01 || r.High > share.High+0.01 || len(r.Steps) != 4 {
			t.Errorf("%s: %v, %v to %v beside %v to %v, %d steps", name, r.Method, r.Low, r.High, share.Low, share.High, len(r.Steps))
		}
	}
	dry, err := fill(t, ternSpec(), ternEntries()[:2]...).OldShareInterval()
	if err != nil || dry.Low != 1 || dry.High != 1 || dry.Best != 1 {
		t.Errorf("never refilled: %+v, %v", dry, err)
	}
}

// Without doubt in the readings the capacity alone makes the interval: from 2.5 % to
// 97.5 % of the way from 9 L to 11 L, 1 - 2/9.05 to 1 - 2/10.95.
func TestIntervalOfExactReadings(t *testing.T) {
	s := simple(10)
	s.Capacity, _ = units.NewRange(litres(9), litres(11))
	r, err := fill(t, s, FillPlug(at(0), ""), DrainOf(at(1), plain(2)), RefillOf(at(2), plain(2))).OldShareInterval()
	if err != nil || r.Method != exchange.ByDefinition || math.Abs(r.Low-(1-2/9.05)) > 1e-12 || math.Abs(r.High-(1-2/10.95)) > 1e-12 || math.Abs(r.Median-0.8) > 1e-12 || r.CapacityShare != 1 {
		t.Errorf("%+v, %v", r, err)
	}
}

// Half the doubt the capacity's: 9.9 to 10.1 L is u 0.2/√12, by the slope 0.02; the drain
// is given the limits that bring as much by its slope, -0.02.
func TestIntervalSharesTheDoubt(t *testing.T) {
	s := simple(10)
	s.Capacity, _ = units.NewRange(litres(9.9), litres(10.1))
	out := plain(2)
	out.PlusMinus = litres(0.1)
	r, err := fill(t, s, FillPlug(at(0), ""), DrainOf(at(1), out), RefillOf(at(2), plain(2))).OldShareInterval()
	if err != nil || math.Abs(r.CapacityShare-0.5) > 1e-6 {
		t.Errorf("%+v, %v", r, err)
	}
	// Two equal rectangles of u = 0.02·0.1/√3 make a triangle: k of 95 % is √6(1 - √0.05) = 1.90.
	if half := (r.High - r.Low) / 2 / (0.002 / math.Sqrt(3) * math.Sqrt2); math.Abs(half-1.90) > 0.04 {
		t.Errorf("half the interval is %v deviations", half)
	}
}

// A simulation (JCGM 101:2008) of the same job, 200 000 draws of the capacity and of every
// reading through the chain written out, ends where the quadrature does, within some
// hundredths of the half-width: one jug's rectangle is most of the doubt.
func TestIntervalAgainstSimulation(t *testing.T) {
	s := ternSpec()
	s.Capacity, _ = units.NewRange(litres(9.9), litres(10.1))
	card := fill(t, s, ternEntries()...)
	r, err := card.OldShareInterval()
	if err != nil {
		t.Fatal(err)
	}
	half, err := measure.NewCause("capacity", "", measure.Rectangular, 0)
	if err != nil {
		t.Fatal(err)
	}
	c, err := measure.New(10, measure.Term{Cause: half, Scale: 0.1 / math.Sqrt(3)})
	if err != nil {
		t.Fatal(err)
	}
	inputs := []measure.Input{{Name: "capacity", Of: c}}
	for _, m := range card.state.flows.moves() { // out, in, out, in, out, in
		inputs = append(inputs, measure.Input{Name: "amount", Of: m.volume.Reading()})
	}
	o, err := measure.Simulate(t.Context(), measure.Simulation{Inputs: inputs, Trials: 200_000, Seed: 3, Model: func(x []float64) float64 {
		share, box := 1.0, x[0]
		for i := 1; i+1 < len(x); i += 2 {
			box -= x[i]
			share *= box / (box + x[i+1])
			box += x[i+1]
		}
		return share
	}})
	if err != nil {
		t.Fatal(err)
	}
	for p, got := range map[float64]float64{0.025: r.Low, 0.5: r.Median, 0.975: r.High} {
		want, errQ := o.Quantile(p)
		se, errS := o.StandardError(p)
		if errQ != nil || errS != nil || math.Abs(got-want) > 4*se+4e-4 {
			t.Errorf("%v: %v, simulated %v ± %v, %v %v", p, got, want, se, errQ, errS)
		}
	}
	if r.CapacityShare > 0.5 {
		t.Errorf("the readings were meant to count: capacity %v", r.CapacityShare)
	}
}

// 2 L out of 10 L and 2.5 L back: 8/10.5 is old. 2.5 L out and 2 L back of which a quarter
// is old: 0.25 + (0.7619 - 0.25)·8/10. Then the capacity's range, 9 to 11 L, is all the doubt.
func TestIntervalStepsByHand(t *testing.T) {
	s := simple(10)
	back := RefillOf(at(4), plain(2))
	back.OldShare = 0.25
	entries := []Entry{FillPlug(at(0), ""), DrainOf(at(1), plain(2)), RefillOf(at(2), plain(2.5)), DrainOf(at(3), plain(2.5)), back}
	r, err := fill(t, s, entries...).OldShareInterval()
	const want = "old share after refill 1, middle capacity = c + (x - c)·A/B = 0.0000 + (1.0000 - 0.0000) × 8.000 L / 10.500 L = 0.7619\n" +
		"old share after refill 2, middle capacity = c + (x - c)·A/B = 0.2500 + (0.7619 - 0.2500) × 8.000 L / 10.000 L = 0.6595\n" +
		"interval of 95 % = by definition over the capacity and the readings = 0.6595 to 0.6595\n"
	if got := r.Steps.Text(); err != nil || got != want || len(r.Caveats) != 0 || r.Nodes != 0 {
		t.Errorf("%v, %v\n%swant\n%s", err, r.Caveats, got, want)
	}
	s.Capacity, _ = units.NewRange(litres(9), litres(11))
	entries[1].Amount.PlusMinus = litres(0.05)
	if r, err = fill(t, s, entries...).OldShareInterval(); err != nil || len(r.Caveats) != 1 || r.Caveats[0] != exchange.CapacityDominates || r.Nodes < 16 {
		t.Errorf("%v, %v, %d nodes", err, r.Caveats, r.Nodes)
	}
}

func TestExcessOfTheShapesOfInstruments(t *testing.T) {
	for shape, want := range map[measure.Shape]float64{measure.Normal: 0, measure.Rectangular: -1.2, measure.Triangular: -0.6, measure.Arcsine: -1.5} {
		if got := excessOf(shape); got != want {
			t.Errorf("%v: %v; want %v", shape, got, want)
		}
	}
}

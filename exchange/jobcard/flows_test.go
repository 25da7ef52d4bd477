package jobcard

import (
	"math/rand/v2"
	"testing"

	"example.com/meniscus/units/measure"

	"github.com/google/go-cmp/cmp"
)

// slowFlows adds one amount at a time, doubt and all.
func slowFlows(t *testing.T, c *Card) (net, in, out measure.Volume) {
	t.Helper()
	spec := c.Spec()
	law, err := spec.Fluid.Law()
	if err != nil {
		t.Fatal(err)
	}
	for i, e := range c.Entries() {
		if c.IsStruck(i+1) || e.Amount.IsZero() {
			continue
		}
		v, err := spec.atReference(i+1, e.Amount, law)
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case e.Kind == Refilled || e.Kind == ToppedUp:
			net, in = net.Add(v), in.Add(v)
		case e.Kind == Kept || e.Kind == Spilled && e.Origin == FromRefill:
			net, in = net.Sub(v), in.Sub(v)
		case e.Kind == Drained || e.Kind == CheckPlugObserved || e.Kind == Spilled && e.Origin == FromBox:
			net, out = net.Sub(v), out.Add(v)
		}
	}
	return net, in, out
}

func sameVolume(t *testing.T, what string, got, want measure.Volume) {
	t.Helper()
	number := func(terms []measure.Term) (ids []string, scales []float64) {
		for _, term := range terms {
			ids, scales = append(ids, term.Cause.ID()), append(scales, term.Scale)
		}
		return ids, scales
	}
	gotIDs, gotScales := number(got.Reading().Terms())
	wantIDs, wantScales := number(want.Reading().Terms())
	if got.Best() != want.Best() || !cmp.Equal(gotIDs, wantIDs) || !cmp.Equal(gotScales, wantScales) {
		t.Errorf("%s: %v %v %v; added one at a time %v %v %v", what, got.Best(), gotIDs, gotScales, want.Best(), wantIDs, wantScales)
	}
}

// manyCards appends what makes sense of random entries, and calls with each card.
func manyCards(t *testing.T, seed uint64, visit func(*Card, *rand.Rand)) {
	t.Helper()
	rng := rand.New(rand.NewPCG(seed, 7))
	for range 60 {
		card := fill(t, ternSpec(), FillPlug(at(0), "fill"))
		for i := 1; i < 60; i++ {
			kind := byte(rng.IntN(17))
			switch rng.IntN(5) { // what moves fluid, and strikes, more often
			case 0:
				kind = byte(Drained)
			case 1:
				kind = byte(Refilled)
			case 2:
				kind = byte(Struck)
			}
			x := byte(rng.IntN(120))
			if Kind(kind) == Struck {
				x = byte(rng.IntN(card.Len() + 2))
			}
			_ = card.Append(scripted(i, kind, x)) // refused where it makes no sense
		}
		visit(card, rng)
	}
}

// Doubt that is gathered when it is asked for is, to the bit, what adding one amount
// at a time gives.
func TestDoubtIsThatOfAddingOneAtATime(t *testing.T) {
	struck := 0
	manyCards(t, 3, func(card *Card, _ *rand.Rand) {
		struck += card.strikes
		net, in, out := slowFlows(t, card)
		b := card.Balance()
		sameVolume(t, "net", b.Net, net)
		sameVolume(t, "in", b.In, in)
		sameVolume(t, "out", b.Out, out)
		if b.PlusMinus != net.U().Scale(coverage) {
			t.Errorf("± %v; want %v", b.PlusMinus, net.U().Scale(coverage))
		}
	})
	if struck < 100 {
		t.Errorf("only %d strikes were tried", struck)
	}
}

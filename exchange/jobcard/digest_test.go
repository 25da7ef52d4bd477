package jobcard

import (
	"math/rand/v2"
	"testing"

	"example.com/meniscus/internal/pinned"
	"example.com/meniscus/units"
)

// What a card reckons after every entry of many scripted jobs, and the JSON of each, to
// the bit: the same on every processor and from edition to edition. A change of this
// is a change to be listed.
func TestCardDigest(t *testing.T) {
	const want = "c71750701f5b788a4606e5acbf568e41"
	results := pinned.Open()
	out := results.Add
	rng := rand.New(rand.NewPCG(51, 52))
	for results.Count() < 20_000 {
		card, err := Open(ternSpec())
		if err != nil {
			t.Fatal(err)
		}
		for i := range 40 {
			kind := byte(rng.IntN(17))
			if i == 0 {
				kind = byte(FillPlugOpened)
			}
			if err := card.Append(scripted(2*i, kind, byte(rng.IntN(256)))); err != nil {
				continue // words may change; what was taken is in the JSON
			}
			share, balance := card.OldShare(), card.Balance()
			for _, x := range [...]float64{share.Estimate, share.Low, share.High, share.Most} {
				out(x)
			}
			for _, v := range [...]units.Volume{balance.Net.Best(), balance.Net.U(), balance.PlusMinus, card.FluidUsed(), card.FluidLeft()} {
				out(v.In(units.Litre))
			}
		}
		encoded, err := card.MarshalJSON()
		if err != nil {
			t.Fatal(err)
		}
		results.Write(encoded)
		if r, err := card.OldShareInterval(); err == nil {
			out(r.Low)
			out(r.Median)
			out(r.High)
		}
	}
	if got := results.Digest(); got != want {
		t.Errorf("digest of %d results is %s; want %s", results.Count(), got, want)
	}
}

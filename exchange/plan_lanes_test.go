package exchange

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/meniscus/internal/allocated"
	"example.com/meniscus/units"
)

// Side by side comes to the same bits as one after the other.
func TestPlanLanesKeepTheBits(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	full := 0
	for range 3000 {
		k := likely{low: 1 + 9*r.Float64()}
		k.high = k.low + float64(400*r.Float64())
		k.first[0], k.later[0] = k.low*r.Float64(), k.low*r.Float64()
		k.first[1] = k.first[0] + float64((k.low-k.first[0])*r.Float64())
		k.later[1] = k.later[0] + float64((k.low-k.later[0])*r.Float64())
		n := 1 + r.IntN(planMostCycles)
		x, _ := k.share(n, k.low+float64((k.high-k.low)*r.Float64()), r.Float64())
		var c [likelyLanes]float64
		for i := range c {
			c[i] = k.low + float64((k.high-k.low)*r.Float64())
		}
		if n%5 == 0 {
			c[1] = k.low / 100 // no fluid there: less than one drain
		}
		for i, got := range k.positions(n, x, c) {
			if want := k.position(n, x, c[i]); math.Float64bits(got) != math.Float64bits(want) {
				t.Fatalf("lane %d of %v, n %d, x %g, %+v: %g, alone %g", i, c, n, x, k, got, want)
			} else if want > 0 && want < 1 {
				full++
			}
		}
	}
	if full < 1000 {
		t.Errorf("%d positions within the range; want more, or the test proves little", full)
	}
}

// The longest plan allowed allocates little.
func TestLongestPlanIsBounded(t *testing.T) {
	q := planLongest(t)
	var p Proposal
	var err error
	took := allocated.Bytes(func() { p, err = Plan(q) })
	if err != nil || len(p.Rows) != planMostCycles || took > 4<<20 {
		t.Errorf("%d rows, %d bytes, %v; want at most 4 MiB", len(p.Rows), took, err)
	}
}

// planLongest is the request that takes longest: wide ranges, and a first drain of
// its own, so that every row's interval is integrated.
func planLongest(tb testing.TB) Request {
	between := func(low, high float64) units.Range[units.VolumeDim] {
		r, err := units.NewRange(units.Litre.Of(low), units.Litre.Of(high))
		if err != nil {
			tb.Fatal(err)
		}
		return r
	}
	q := Request{Capacity: between(10, 400), Drain: between(0.1, 9), FirstDrain: between(0.2, 8), Sump: units.Litre.Of(9.5), Target: 1e-9, MostCycles: planMostCycles}
	for i := range planMostWhatIfs {
		q.WhatIfMixing = append(q.WhatIfMixing, float64(i)/planMostWhatIfs)
	}
	return q
}

func BenchmarkLongestPlan(b *testing.B) {
	q := planLongest(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Plan(q); err != nil {
			b.Fatal(err)
		}
	}
}

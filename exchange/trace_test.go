package exchange

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/meniscus/units"
)

// With one sump and new fluid it is Remaining, pass by pass.
func TestWhatIfAgainstRemaining(t *testing.T) {
	sys := System{dilutionLitres(12.3), dilutionLitres(5.2), 0.8}
	ds := dilutionList(2.4, 2.6, 2.2)
	got, err := WhatIf(sys, []Pass{{Drain: ds[0]}, {Drain: ds[1]}, {Drain: ds[2]}})
	if err != nil {
		t.Fatal(err)
	}
	for n, row := range got.Rows {
		want, err := Remaining(sys, ds[:n+1])
		if err != nil || math.Abs(row.Share-want) > 1e-15 {
			t.Errorf("pass %d: %v, want %v, %v", n+1, row.Share, want, err)
		}
	}
	bounds, err := Bounds(sys.Capacity, sys.Sump, ds)
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "low", got.Bounds.Low, bounds.Low, 1e-15)
	dilutionNear(t, "high", got.Bounds.High, bounds.High, 1e-15)
	if !slices.Contains(got.Caveats, MixingIsWhatIf) || !slices.Contains(got.Caveats, DrainedSampleFlatters) {
		t.Errorf("caveats %v", got.Caveats)
	}
}

// Every drain with a sump of its own, every run with a mixing share of its own:
// the share stays between perfect mixing and none, the samples flatter, and the
// mass balance of the samples gives the share back.
func TestWhatIfBoundsOnHistories(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 22))
	for range 5000 {
		c := dilutionLitres(5 + 10*rng.Float64())
		sys := System{Capacity: c, Sump: c.Scale(0.2 + 0.7*rng.Float64())}
		var passes []Pass
		var samples []DrainedSample
		st := stateFull(sys)
		for range 1 + rng.IntN(7) {
			p := Pass{Sump: c.Scale(0.1 + 0.85*rng.Float64())}
			p.Drain = p.Sump.Scale(rng.Float64())
			passes = append(passes, p)
			st = st.settled(p.Sump)
			if st.DrainShare() > st.OldShare()+1e-14 {
				t.Fatalf("the sample shows %v, the box holds %v", st.DrainShare(), st.OldShare())
			}
			samples = append(samples, DrainedSample{Volume: p.Drain, OldShare: st.DrainShare()})
			st = st.drained(p.Drain).refilled(p.Drain, 0).mixed(rng.Float64())
		}
		got, err := WhatIf(sys, passes)
		if err != nil {
			t.Fatal(err)
		}
		if x := st.OldShare(); x < got.Bounds.Low-1e-14 || x > got.Bounds.High+1e-14 {
			t.Fatalf("share %v outside %v of %v", x, got.Bounds, passes)
		}
		balance, err := FromSamples(units.Exactly(c), samples)
		if err != nil {
			t.Fatal(err)
		}
		dilutionNear(t, "from samples", balance.Share.High, st.OldShare(), 1e-13)
		if slices.Contains(balance.Caveats, SampleAboveSystem) {
			t.Fatal("true samples were told to be above the box")
		}
	}
}

func TestWhatIfFaults(t *testing.T) {
	sys := System{Capacity: dilutionLitres(10), Sump: dilutionLitres(4)}
	cases := []struct {
		name   string
		sys    System
		passes []Pass
		want   []string
	}{
		{"no box", System{}, nil, []string{"capacity 0 L"}},
		{"drain above its own sump", sys, []Pass{{Drain: dilutionLitres(3), Sump: dilutionLitres(2)}}, []string{"pass 1: drain: 3 L", "sump, 2 L"}},
		{"sump above capacity", sys, []Pass{{Sump: dilutionLitres(11)}}, []string{"pass 1: sump 11 L"}},
		{"refill", sys, []Pass{{}, {RefillOldShare: 2}}, []string{"pass 2: refill's old share 2"}},
		{"sump in a well-mixed system", System{Capacity: dilutionLitres(10)}, []Pass{{Sump: dilutionLitres(4)}}, []string{"pass 1: sump 4 L in a system without one"}},
		{"many", sys, make([]Pass, 1001), []string{"1001 passes"}},
	}
	for _, c := range cases {
		got, err := WhatIf(c.sys, c.passes)
		if err == nil || got.Share != 1 || got.Rows != nil {
			t.Errorf("%s: %+v, %v; want an error", c.name, got, err)
			continue
		}
		for _, w := range c.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: %q does not say %q", c.name, err, w)
			}
		}
	}
	_, err := WhatIf(sys, make([]Pass, 0))
	if err != nil {
		t.Error(err)
	}
	_, err = WhatIf(sys, slices.Repeat([]Pass{{Drain: dilutionLitres(9)}}, 50))
	if n := strings.Count(err.Error(), "pass "); n != remainingMostFaults {
		t.Errorf("%d faults told of fifty; want %d", n, remainingMostFaults)
	}
	if got, err := WhatIf(sys, nil); err != nil || got.Share != 1 || got.Bounds != (Share{1, 1}) {
		t.Errorf("no pass: %+v, %v; want all old", got, err)
	}
}

package exchange

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.com/meniscus/internal/pinned"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

var digestUpdate = flag.Bool("digest.update", false, "write the digests in testdata anew")

// digestLaw is a law with what makes one round of results of it.
type digestLaw struct {
	name string
	one  func(testing.TB, *rand.Rand, func(float64))
}

// checkDigests holds 20 000 results of each law, to the last bit, against a file: they
// are the same on every machine and for ever, and a changed last digit is a change to
// be listed. Arguments come from whole numbers.
func checkDigests(t *testing.T, file string, seed uint64, laws []digestLaw) {
	t.Helper()
	var b strings.Builder
	for _, law := range laws {
		results, rng := pinned.Open(), rand.New(rand.NewPCG(seed, seed+1))
		for results.Count() < 20_000 {
			law.one(t, rng, results.Add)
		}
		fmt.Fprintf(&b, "%s %d %s\n", law.name, results.Count(), results.Digest())
	}
	if *digestUpdate {
		if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if b.String() != string(want) {
		t.Errorf("digests\n%swant\n%s", b.String(), want)
	}
}

func TestDilutionDigests(t *testing.T) {
	checkDigests(t, "testdata/digests-dilution.txt", 31, []digestLaw{
		{"Remaining", digestRemaining}, {"WhatIf", digestWhatIf}, {"ThroughFlow", digestFlow},
		{"Inverse", digestInverse}, {"Interval", digestInterval}, {"Plan", digestPlan},
	})
}

// digestVolume is a whole number of microlitres between two of litres.
func digestVolume(rng *rand.Rand, low, high int64) units.Volume {
	n := low*1_000_000 + rng.Int64N((high-low)*1_000_000)
	v, err := units.ParseVolume(strconv.FormatInt(n, 10) + "e-3 mL")
	if err != nil {
		panic(err)
	}
	return v
}

func digestSystem(rng *rand.Rand) System {
	return System{digestVolume(rng, 8, 15), digestVolume(rng, 4, 6), rng.Float64()}
}

func digestRemaining(_ testing.TB, rng *rand.Rand, out func(float64)) {
	sys := digestSystem(rng)
	drains := []units.Volume{digestVolume(rng, 1, 4), digestVolume(rng, 1, 4), digestVolume(rng, 1, 4)}
	x, _ := Remaining(sys, drains)
	y, _ := Remaining(System{Capacity: sys.Capacity}, drains)
	b, _ := Bounds(sys.Capacity, sys.Sump, drains)
	out(x)
	out(y)
	out(b.High)
}

func digestWhatIf(_ testing.TB, rng *rand.Rand, out func(float64)) {
	sys := digestSystem(rng)
	t, _ := WhatIf(sys, []Pass{
		{Drain: digestVolume(rng, 1, 4), Sump: digestVolume(rng, 4, 6)},
		{Drain: digestVolume(rng, 1, 4), RefillOldShare: rng.Float64()},
		{Drain: digestVolume(rng, 1, 4)},
	})
	for _, row := range t.Rows {
		out(row.Share)
		out(row.Drained)
		out(row.Held)
	}
	f, _ := LongRunFactor(sys, digestVolume(rng, 1, 4))
	out(f.PerCycle)
	out(f.Fading)
}

func digestFlow(_ testing.TB, rng *rand.Rand, out func(float64)) {
	f := ThroughFlow{Capacity: digestVolume(rng, 8, 15), Volume: digestVolume(rng, 0, 40), Flow: FlowTanks, Tanks: 1 + rng.IntN(60)}
	r, _ := f.Flush()
	out(r.Share.High)
	out(r.Outlet.High)
	f.Flow, f.Tanks = FlowMixed, 0
	r, _ = f.Flush()
	out(r.Share.High)
	m, _ := MixingRun{digestVolume(rng, 0, 3), rng.Float64(), digestVolume(rng, 1, 5), digestVolume(rng, 1, 9)}.Share()
	out(m)
}

func digestInverse(_ testing.TB, rng *rand.Rand, out func(float64)) {
	target, c, n := rng.Float64(), digestVolume(rng, 8, 15), 1+rng.IntN(9)
	x, _ := RealCycles(target, c, digestVolume(rng, 1, 4))
	d, _ := DrainFor(target, c, n)
	e, _ := CapacityFor(target, c, n)
	out(x)
	out(d.In(units.Litre))
	out(e.In(units.Litre))
}

func digestInterval(_ testing.TB, rng *rand.Rand, out func(float64)) {
	low := digestVolume(rng, 8, 11)
	capacity, _ := units.NewRange(low, low.Add(digestVolume(rng, 0, 3)))
	s := MeasuredService{Capacity: capacity}
	for i := range 3 {
		scale, _ := measure.NewCause("jug", "", measure.Normal, 0)
		own, _ := measure.NewCause("look-"+strconv.Itoa(i), "", measure.Triangular, 0)
		d, _ := measure.NewMeasured(digestVolume(rng, 1, 3), measure.Term{Cause: scale, Scale: rng.Float64() / 64}, measure.Term{Cause: own, Scale: rng.Float64() / 64})
		s.Drains = append(s.Drains, d)
	}
	s.Trials = 1000
	r, _ := s.Interval()
	p, _ := s.Chance(rng.Float64())
	for _, x := range [...]float64{r.Low, r.Median, r.High, p, r.CapacityShare} {
		out(x)
	}
}

func digestPlan(_ testing.TB, rng *rand.Rand, out func(float64)) {
	low, drain := digestVolume(rng, 8, 11), digestVolume(rng, 1, 3)
	capacity, _ := units.NewRange(low, low.Add(digestVolume(rng, 0, 3)))
	drains, _ := units.NewRange(drain, drain.Add(digestVolume(rng, 0, 1)))
	r := Request{Capacity: capacity, Drain: drains, Target: rng.Float64(), Sump: digestVolume(rng, 4, 8), WhatIfMixing: []float64{rng.Float64()}}
	if rng.IntN(8) == 0 {
		r.FirstDrain = units.Exactly(digestVolume(rng, 1, 4))
	}
	p, _ := Plan(r)
	for _, row := range p.Rows {
		for _, x := range [...]float64{row.Share.Low, row.Share.High, row.Bounds.High, row.Interval.Low, row.Interval.High, row.GainPerLitre, row.WhatIf[0], row.Chance} {
			out(x)
		}
	}
}

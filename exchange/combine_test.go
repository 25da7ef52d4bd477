package exchange

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/meniscus/units"
)

func TestCombineAgainstParts(t *testing.T) {
	sys := System{Capacity: dilutionLitres(12)}
	flush := Stage{Flush: dilutionLitres(6), Flow: FlowMixed}
	got, err := Combine(sys, []Stage{{Drain: dilutionLitres(3)}, {Drain: dilutionLitres(3)}, {Drain: dilutionLitres(3)}, flush})
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "share", got.Share.High, 0.421875*math.Exp(-0.5), 1e-15)
	if got.Share.Low != got.Share.High || got.Fluid != dilutionLitres(15) || len(got.Rows) != 4 {
		t.Errorf("%+v", got)
	}
	// In a well-mixed box the order does not matter.
	first, err := Combine(sys, []Stage{flush, {Drain: dilutionLitres(3)}, {Drain: dilutionLitres(3)}, {Drain: dilutionLitres(3)}})
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "flush first", first.Share.High, got.Share.High, 1e-15)
	if !slices.Contains(got.Caveats, CleanOutletProvesNothing) {
		t.Errorf("caveats %v", got.Caveats)
	}
	// A flow nobody knows: plug would push half out, mixing leaves exp(-1/2).
	unknown, err := Combine(sys, []Stage{{Flush: dilutionLitres(6)}})
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "plug end", unknown.Share.Low, 0.5, 0)
	dilutionNear(t, "mixed end", unknown.Share.High, math.Exp(-0.5), 1e-15)
}

func TestCombineTwoZones(t *testing.T) {
	sys := System{dilutionLitres(12.3), dilutionLitres(5.2), 0.5}
	ds := dilutionList(2.4, 2.4)
	got, err := Combine(sys, []Stage{{Drain: ds[0]}, {Drain: ds[1]}, {Flush: dilutionLitres(12.3), Flow: FlowTanks, Tanks: 3}})
	if err != nil {
		t.Fatal(err)
	}
	want, err := Remaining(sys, ds)
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "share", got.Share.High, want*tanksShare(3, 1), 1e-15)
	if !slices.Contains(got.Caveats, MixingIsWhatIf) {
		t.Errorf("caveats %v", got.Caveats)
	}
}

func TestCombineMostStages(t *testing.T) {
	for n, ok := range map[int]bool{1: true, 100: true, 101: false} {
		stages := slices.Repeat([]Stage{{Drain: dilutionLitres(1)}}, n)
		if got, err := Combine(System{Capacity: dilutionLitres(10)}, stages); (err == nil) != ok || ok && len(got.Rows) != n {
			t.Errorf("%d stages: %d rows, %v", n, len(got.Rows), err)
		}
	}
}

func TestCombineFaults(t *testing.T) {
	sys := System{Capacity: dilutionLitres(12), Sump: dilutionLitres(5)}
	d := dilutionLitres(2)
	cases := []struct {
		name   string
		sys    System
		stages []Stage
		want   []string
	}{
		{"no box", System{}, []Stage{{Drain: d}}, []string{"capacity 0 L"}},
		{"nothing", sys, nil, []string{"0 stages"}},
		{"many", sys, make([]Stage, 101), []string{"101 stages"}},
		{"both", sys, []Stage{{Drain: d, Flush: d}}, []string{"stage 1: drain 2 L and flush 2 L; want one"}},
		{"neither", sys, []Stage{{Drain: d}, {}}, []string{"stage 2: drain 0 L and flush 0 L"}},
		{"drain above sump, flush negative", sys, []Stage{{Drain: dilutionLitres(6)}, {Flush: dilutionLitres(-1)}}, []string{"stage 1: drain: 6 L", "stage 2: volume: -1 L"}},
		{"flow without flush", sys, []Stage{{Drain: d, Flow: FlowPlug}}, []string{"a flow pattern without a flush"}},
		{"tanks", sys, []Stage{{Flush: d, Flow: FlowTanks}}, []string{"stage 1: 0 tanks"}},
		{"out of range", sys, []Stage{{Flush: units.Litre.Of(math.NaN())}}, []string{"volume: out of range"}},
	}
	for _, c := range cases {
		got, err := Combine(c.sys, c.stages)
		if err == nil || got.Share != (Share{1, 1}) || got.Rows != nil {
			t.Errorf("%s: %+v, %v; want an error", c.name, got, err)
			continue
		}
		for _, w := range c.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: %q does not say %q", c.name, err, w)
			}
		}
	}
}

package exchange

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

// Real numbers of cycles: aquaria (share 0.1 and 0.2 left by tenths) and vacuum
// purging, which empties a vessel to a pressure and fills it with clean gas: one
// cycle keeps the ratio of the pressures.
func TestRealCyclesPublished(t *testing.T) {
	table := published.Load(t, "exchange_vectors")
	for _, r := range table.Where("law", "cycles real") {
		got, err := RealCycles(r.Input("inputs", "share"), dilutionLitres(1), dilutionLitres(r.Input("inputs", "r")))
		if err != nil {
			t.Fatal(err)
		}
		dilutionNear(t, r.Text("id")+" ("+r.Source()+")", got, r.Float("published"), r.Float("tolerance"))
		dilutionNear(t, r.Text("id")+" recomputed", got, r.Float("computed"), 1e-8)
	}
	purges := map[string]struct{ start, target, high, low float64 }{
		"rep-17": {0.21, 0.01, 1, 0.5},
		"rep-18": {0.21, 5e-6, 760, 6},
	}
	for _, r := range table.Where("law", "vacuum swing cycles real") {
		p, ok := purges[r.Text("id")]
		if !ok {
			t.Fatalf("%s: new row; write its pressures out", r.Text("id"))
		}
		got, err := RealCycles(p.target/p.start, dilutionLitres(p.high/2), dilutionLitres((p.high-p.low)/2))
		if err != nil {
			t.Fatal(err)
		}
		dilutionNear(t, r.Text("id")+" ("+r.Source()+")", got, r.Float("published"), r.Float("tolerance"))
		dilutionNear(t, r.Text("id")+" recomputed", got, r.Float("computed"), 1e-8)
	}
}

// Pressure-swing purging from 0.21 to 1e-6 at 760 and 20 mmHg takes 3.37, so 4,
// purges (Crowl and Louvar, Chemical Process Safety, inerting chapter; from
// memory).
func TestRealCyclesPurge(t *testing.T) {
	c, d := dilutionLitres(380), dilutionLitres(370) // halves of 760 and 740
	got, err := RealCycles(1e-6/0.21, c, d)
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "purges", got, 3.37, 0.005)
	if n, err := Cycles(1e-6/0.21, c, d); err != nil || n != 4 {
		t.Errorf("whole purges %d, %v; want 4", n, err)
	}
}

// Gas for vacuum purges and the share one pressure purge leaves.
func TestPurgePublished(t *testing.T) {
	table := published.Load(t, "exchange_vectors")
	gas := table.Find("law", "vacuum swing gas") // n = 3 down to 0.008 atm
	d := dilutionLitres(0.992)
	p, err := Plan(Request{Capacity: units.Exactly(dilutionLitres(1)), Drain: units.Exactly(d), Target: 1e-6})
	if err != nil || p.Cycles.Chosen != 3 {
		t.Fatalf("%+v, %v; want 3 cycles", p.Cycles, err)
	}
	dilutionNear(t, gas.Text("id"), p.Fluid.Refills.In(units.Litre), gas.Float("published"), gas.Float("tolerance"))

	one := table.Find("law", "pressure swing") // 20 %, 7.8 to 1
	x, err := Remaining(System{Capacity: dilutionLitres(7.8)}, dilutionList(6.8))
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, one.Text("id"), 20*x, one.Float("published"), one.Float("tolerance"))
	dilutionNear(t, one.Text("id")+" recomputed", 20*x, one.Float("computed"), 1e-8)
}

func TestInverseTable(t *testing.T) {
	for _, r := range published.Load(t, "exchange_inverse").Rows() {
		target, c, d := r.Float("target"), dilutionLitres(r.Float("C")), dilutionLitres(r.Float("d"))
		n, err := RealCycles(target, c, d)
		if err != nil {
			t.Fatal(err)
		}
		dilutionNear(t, "real cycles", n, r.Float("n_real"), 2e-14*n)
		drain, err := DrainFor(target, c, 4)
		if err != nil {
			t.Fatal(err)
		}
		dilutionNear(t, "drain for 4", drain.In(units.Litre), r.Float("drain_for_4_exchanges"), 1e-13)
		capacity, err := CapacityFor(target, d, 4)
		if err != nil {
			t.Fatal(err)
		}
		dilutionNear(t, "capacity for 4", capacity.In(units.Litre), r.Float("capacity_at_which_4_suffice"), 1e-12)
	}
}

// There and back: the drain found meets the target in n cycles and not in one
// less; so does the capacity.
func TestInverseRoundTrip(t *testing.T) {
	for n := 1; n < 20; n++ {
		for target := 0.05; target < 1; target += 0.05 {
			c := dilutionLitres(7.3)
			d, err := DrainFor(target, c, n)
			if err != nil {
				t.Fatal(err)
			}
			if got, err := Cycles(target, c, d); err != nil || got != n {
				t.Errorf("target %v: drain %v takes %d cycles, %v; want %d", target, d, got, err, n)
			}
			c, err = CapacityFor(target, d, n)
			if err != nil {
				t.Fatal(err)
			}
			dilutionNear(t, "capacity", c.In(units.Litre), 7.3, 1e-11)
		}
	}
}

func TestInverseEdges(t *testing.T) {
	c, d := dilutionLitres(10), dilutionLitres(2)
	if v, err := DrainFor(0, c, 3); err != nil || v != c {
		t.Errorf("drain for nothing left: %v, %v; want all of it", v, err)
	}
	if v, err := DrainFor(1, c, 3); err != nil || !v.IsZero() {
		t.Errorf("drain for all left: %v, %v; want 0", v, err)
	}
	if v, err := CapacityFor(0, d, 1); err != nil || v != d {
		t.Errorf("capacity for nothing left: %v, %v; want the drain", v, err)
	}
	if n, err := RealCycles(1, c, d); err != nil || n != 0 || math.Signbit(n) {
		t.Errorf("cycles for all left: %v, %v; want 0", n, err)
	}
	if n, err := RealCycles(1, c, c); err != nil || n != 0 {
		t.Errorf("cycles for all left, emptying: %v, %v; want 0", n, err)
	}
	huge := units.Litre.Of(math.NaN())
	bad := map[string]error{}
	_, bad["target 0"] = RealCycles(0, c, d)
	_, bad["empties the box"] = RealCycles(0.5, c, c)
	_, bad["capacity 0 L"] = RealCycles(0.5, units.Volume{}, d)
	_, bad["0 cycles"] = DrainFor(0.5, c, 0)
	_, bad["10001 cycles"] = DrainFor(0.5, c, 10_001)
	_, bad["not a number"] = DrainFor(math.NaN(), c, 2)
	_, bad["capacity is out of range"] = DrainFor(0.5, huge, 2)
	_, bad["target 1 is met"] = CapacityFor(1, d, 2)
	_, bad["drain out of range"] = CapacityFor(0.5, huge, 2)
	_, bad["is out of range; want at most"] = CapacityFor(1-1e-15, dilutionLitres(500), 10_000)
	_, bad["target -1"] = CapacityFor(-1, d, 2)
	for want, err := range bad {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v does not say %q", err, want)
		}
	}
	if _, err := CapacityFor(1-1e-15, dilutionLitres(500), 10_000); err == nil || errors.Is(err, ErrCannotMeet) {
		t.Errorf("%v", err)
	}
}

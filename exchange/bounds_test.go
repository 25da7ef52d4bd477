package exchange

import (
	"math/rand/v2"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

func TestBoundsTable(t *testing.T) {
	for _, r := range published.Load(t, "exchange_bounds").Rows() {
		d := dilutionRepeat(dilutionLitres(r.Float("drain")), r.Int("n"))
		got, err := Bounds(dilutionLitres(r.Float("C")), dilutionLitres(r.Float("V_sump")), d)
		if err != nil {
			t.Fatalf("line %d: %v", r.Line(), err)
		}
		dilutionNear(t, "lower", got.Low, r.Float("lower_well_mixed"), 1e-14)
		dilutionNear(t, "upper", got.High, r.Float("upper_no_mixing"), 1e-14)
	}
}

// On random histories, each run of the gears mixing as it likes, the share never
// leaves the bounds; nor does it where the sump is kept secret.
func TestBoundsHoldOnHistories(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 20_000 {
		c := dilutionLitres(5 + 10*rng.Float64())
		sys := System{Capacity: c, Sump: c.Scale(0.05 + 0.95*rng.Float64())}
		st, err := Start(sys)
		if err != nil {
			t.Fatal(err)
		}
		var drains []units.Volume
		for range 1 + rng.IntN(8) {
			d := sys.Sump.Scale(rng.Float64())
			drains = append(drains, d)
			st = boundsStep(t, st, d, rng.Float64())
			if st.DrainShare() > st.OldShare()+1e-15 {
				t.Fatalf("the drained sample shows %v, the box holds %v", st.DrainShare(), st.OldShare())
			}
		}
		known, err := Bounds(c, sys.Sump, drains)
		if err != nil {
			t.Fatal(err)
		}
		unknown, err := Bounds(c, units.Volume{}, drains)
		if err != nil {
			t.Fatal(err)
		}
		const rounding = 4e-15
		for _, b := range []Share{known, unknown} {
			if x := st.OldShare(); x < b.Low-rounding || x > b.High+rounding {
				t.Fatalf("share %v outside %v; C %v S %v drains %v", x, b, c, sys.Sump, drains)
			}
		}
		if unknown.High < known.High-rounding {
			t.Fatalf("knowing the sump %v made the bound worse: %v against %v", sys.Sump, known, unknown)
		}
	}
}

func boundsStep(t *testing.T, st State, d units.Volume, m float64) State {
	t.Helper()
	next, err := st.Drain(d)
	if err == nil {
		next, err = next.Refill(d, 0)
	}
	if err == nil {
		next, err = next.Mix(m)
	}
	if err != nil {
		t.Fatal(err)
	}
	return next
}

func TestBoundsEdges(t *testing.T) {
	c, s := dilutionLitres(12), dilutionLitres(5)
	cases := []struct {
		name   string
		sump   units.Volume
		drains []units.Volume
		want   Share
	}{
		{"nothing drained", s, nil, Share{1, 1}},
		{"nothing drained, sump unknown", units.Volume{}, dilutionList(0, 0), Share{1, 1}},
		{"one drain leaves no doubt", s, dilutionList(3), Share{0.75, 0.75}},
		{"sump unknown: only the largest drain counts for sure", units.Volume{}, dilutionList(3, 6, 3), Share{0.28125, 0.5}},
		{"sump emptied", dilutionLitres(6), dilutionList(6, 6), Share{0.25, 0.5}},
		{"sump is the box", c, dilutionList(3, 3), Share{0.5625, 0.5625}},
	}
	for _, k := range cases {
		got, err := Bounds(c, k.sump, k.drains)
		if err != nil {
			t.Fatalf("%s: %v", k.name, err)
		}
		dilutionNear(t, k.name+" low", got.Low, k.want.Low, 1e-15)
		dilutionNear(t, k.name+" high", got.High, k.want.High, 1e-15)
		if got.Low > got.High {
			t.Errorf("%s: ends the wrong way round: %v", k.name, got)
		}
	}
	for _, bad := range [][]units.Volume{dilutionList(6), dilutionList(-1)} {
		if got, err := Bounds(c, s, bad); err == nil || got != (Share{1, 1}) {
			t.Errorf("drains %v: got %v, %v; want all old and an error", bad, got, err)
		}
	}
}

func BenchmarkBounds(b *testing.B) {
	b.ReportAllocs()
	c, s, drains := dilutionLitres(12.3), dilutionLitres(5.2), dilutionList(2.4, 2.5, 2.3, 2.4, 2.4)
	for b.Loop() {
		if _, err := Bounds(c, s, drains); err != nil {
			b.Fatal(err)
		}
	}
}

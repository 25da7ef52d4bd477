package exchange

import (
	"math/rand/v2"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

func TestLongRunTable(t *testing.T) {
	for _, r := range published.Load(t, "exchange_two_compartment").Rows() {
		s, h := dilutionLitres(r.Float("V_sump")), dilutionLitres(r.Float("V_held"))
		got, err := LongRunFactor(System{s.Add(h), s, r.Float("m")}, dilutionLitres(r.Float("drain")))
		if err != nil {
			t.Fatal(err)
		}
		dilutionNear(t, "larger", got.PerCycle, r.Float("lambda_plus"), 1e-14)
		dilutionNear(t, "smaller", got.Fading, r.Float("lambda_minus"), 1e-14)
	}
}

// C 12.3, S 5.2, drains of 2.46: eigenvalues computed by an independent tool.
func TestLongRunValues(t *testing.T) {
	for _, k := range []struct{ m, larger, smaller float64 }{{.8, .816281310, .129103306}, {.5, .855499192, .307962346}} {
		got, err := LongRunFactor(System{dilutionLitres(12.3), dilutionLitres(5.2), k.m}, dilutionLitres(2.46))
		if err != nil {
			t.Fatal(err)
		}
		dilutionNear(t, "larger", got.PerCycle, k.larger, 6e-10)
		dilutionNear(t, "smaller", got.Fading, k.smaller, 6e-10)
	}
}

// The old share after n cycles obeys X(n+2) = τ·X(n+1) - ρ(1-m)·X(n), and the
// ratio of successive shares goes to the larger factor.
func TestLongRunRecurrence(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 18))
	for range 300 {
		c := dilutionLitres(6 + 8*rng.Float64())
		sys := System{c, c.Scale(0.2 + 0.6*rng.Float64()), rng.Float64()}
		d := sys.Sump.Scale(0.1 + 0.8*rng.Float64())
		x := [3]float64{}
		for n := range x {
			var err error
			if x[n], err = Remaining(sys, dilutionRepeat(d, n)); err != nil {
				t.Fatal(err)
			}
		}
		a, b := sys.Sump.Ratio(c), sys.Held().Ratio(c)
		sum, product := longRunTerms(sys.Mixing, a, b, remainingFactor(sys.Sump, d))
		older, old := x[0], x[1]
		for n := 2; n < 30; n++ {
			older, old = old, sum*old-product*older
			got, err := Remaining(sys, dilutionRepeat(d, n))
			if err != nil {
				t.Fatal(err)
			}
			dilutionNear(t, "recurrence", got, old, 1e-13)
		}
		f, err := LongRunFactor(sys, d)
		if err != nil {
			t.Fatal(err)
		}
		if f.Fading < 0.5*f.PerCycle { // settled by 60 cycles
			dilutionNear(t, "ratio", ratioAfter(t, sys, d, 60), f.PerCycle, 1e-12)
		}
		if f.PerCycle < remainingFactor(c, d)-1e-15 {
			t.Errorf("long run %v beats a well-mixed box", f.PerCycle)
		}
	}
}

func ratioAfter(t *testing.T, sys System, d units.Volume, n int) float64 {
	t.Helper()
	x, err := Remaining(sys, dilutionRepeat(d, n))
	if err != nil {
		t.Fatal(err)
	}
	y, err := Remaining(sys, dilutionRepeat(d, n+1))
	if err != nil {
		t.Fatal(err)
	}
	return y / x
}

func TestLongRunEdges(t *testing.T) {
	c, s := dilutionLitres(10), dilutionLitres(4)
	for _, k := range []struct {
		name          string
		sys           System
		drain         float64
		larger, small float64
	}{
		{"well mixed", System{Capacity: c}, 2, 0.8, 0},
		{"no mixing", System{Capacity: c, Sump: s}, 2, 1, 0.5},
		{"no mixing, sump emptied", System{Capacity: c, Sump: s}, 4, 1, 0},
		{"nothing drained", System{c, s, 0.25}, 0, 1, 0.75},
		{"all mixed", System{c, s, 1}, 2, 0.8, 0},
		{"sump is the box, emptied", System{c, c, 1}, 10, 0, 0},
	} {
		f, err := LongRunFactor(k.sys, dilutionLitres(k.drain))
		if err != nil {
			t.Fatal(err)
		}
		dilutionNear(t, k.name, f.PerCycle, k.larger, 1e-15)
		dilutionNear(t, k.name, f.Fading, k.small, 1e-15)
	}
	if f, err := LongRunFactor(System{}, c); err == nil || f.PerCycle != 1 {
		t.Errorf("no box: %v, %v", f, err)
	}
}

package exchange

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

func TestCyclesPublished(t *testing.T) {
	for _, r := range published.Load(t, "exchange_vectors").Where("law", "cycles") {
		target := r.Input("inputs", "target") / r.Input("inputs", "start")
		got, err := Cycles(target, dilutionLitres(1), dilutionLitres(r.Input("inputs", "r")))
		if err != nil || got != int(r.Float("published")) {
			t.Errorf("%s: got %d, %v; want %s (%s)", r.Text("id"), got, err, r.Text("published"), r.Source())
		}
	}
}

func TestCyclesTable(t *testing.T) {
	for _, r := range published.Load(t, "exchange_inverse").Rows() {
		got, err := Cycles(r.Float("target"), dilutionLitres(r.Float("C")), dilutionLitres(r.Float("d")))
		if err != nil || got != r.Int("n_ceil") {
			t.Errorf("line %d: got %d, %v; want %d", r.Line(), got, err, r.Int("n_ceil"))
		}
	}
}

// A target met exactly is met: halving 80 twice is 20, and nine tenths three
// times are 0.729 although the product of floats is not.
func TestCyclesMetExactly(t *testing.T) {
	cases := []struct {
		target, capacity, drain float64
		want                    int
	}{
		{20.0 / 80, 2, 1, 2},
		{0.729, 10, 1, 3},
		{0.1 * 0.1, 10, 9, 2},
		{1, 10, 1, 0},
		{0, 10, 10, 1},
		{0.2401, 10, 3, 4},
		{0.2400, 10, 3, 5},
	}
	for _, c := range cases {
		got, err := Cycles(c.target, dilutionLitres(c.capacity), dilutionLitres(c.drain))
		if err != nil || got != c.want {
			t.Errorf("target %v, %v of %v: got %d, %v; want %d", c.target, c.drain, c.capacity, got, err, c.want)
		}
	}
}

// EXCHANGE.md: capacity 12-15, drains 2.5-3: 3-4 cycles to 50 %, 5-8 to 25 %.
func TestCyclesRangeTrade(t *testing.T) {
	c, d := dilutionRange(t, 12, 15), dilutionRange(t, 2.5, 3)
	for _, k := range []struct {
		target      float64
		least, most int
	}{{0.5, 3, 4}, {0.25, 5, 8}} {
		least, most, err := CyclesRange(k.target, c, d)
		if err != nil || least != k.least || most != k.most {
			t.Errorf("target %v: %d to %d, %v; want %d to %d", k.target, least, most, err, k.least, k.most)
		}
	}
	if _, _, err := CyclesRange(0.5, c, dilutionRange(t, 0, 1)); err == nil {
		t.Error("a range whose low end drains nothing was accepted")
	}
	if _, _, err := CyclesRange(0.5, c, dilutionRange(t, 1, 13)); err == nil {
		t.Error("a drain above the smallest capacity was accepted")
	}
}

// The answer meets the target and one cycle less does not.
func TestCyclesIsSmallest(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for range 2000 {
		c, d, target := dilutionLitres(5+10*rng.Float64()), dilutionLitres(0.5+4*rng.Float64()), 0.02+0.9*rng.Float64()
		n, err := Cycles(target, c, d)
		if err != nil {
			t.Fatal(err)
		}
		x, _ := Remaining(System{Capacity: c}, dilutionRepeat(d, n))
		y, _ := Remaining(System{Capacity: c}, dilutionRepeat(d, max(0, n-1)))
		if x > target*(1+cyclesGuard) || n > 0 && y <= target {
			t.Errorf("n %d gives %v, n-1 gives %v, target %v", n, x, y, target)
		}
	}
}

func TestCyclesFaults(t *testing.T) {
	c, d := dilutionLitres(10), dilutionLitres(1)
	cases := []struct {
		name            string
		target          float64
		capacity, drain units.Volume
		want            string
	}{
		{"target NaN", math.NaN(), c, d, "target is not a number"},
		{"target above one", 1.1, c, d, "target 1.1; want 0 to 1"},
		{"target below zero", -0.1, c, d, "target -0.1"},
		{"no capacity", 0.5, units.Volume{}, d, "capacity 0 L"},
		{"no drain", 0.5, c, units.Volume{}, "drain: 0 L; want more than 0"},
		{"drain above capacity", 0.5, c, dilutionLitres(11), "capacity, 10 L"},
		{"out of range", 0.5, c, units.Litre.Of(math.NaN()), "out of range"},
	}
	for _, k := range cases {
		n, err := Cycles(k.target, k.capacity, k.drain)
		if err == nil || n != 0 || !strings.Contains(err.Error(), k.want) {
			t.Errorf("%s: got %d, %v; want an error with %q", k.name, n, err, k.want)
		}
		if errors.Is(err, ErrCannotMeet) {
			t.Errorf("%s: a bad input reads as a target that cannot be met", k.name)
		}
	}
	for _, k := range []struct{ target, drain float64 }{{0, 1}, {0.5, 1e-6}} {
		if _, err := Cycles(k.target, c, dilutionLitres(k.drain)); !errors.Is(err, ErrCannotMeet) {
			t.Errorf("target %v with drains of %v L: %v; want ErrCannotMeet", k.target, k.drain, err)
		}
	}
}

func BenchmarkCycles(b *testing.B) {
	b.ReportAllocs()
	c, d := dilutionLitres(12.3), dilutionLitres(2.46)
	for b.Loop() {
		if _, err := Cycles(0.2, c, d); err != nil {
			b.Fatal(err)
		}
	}
}

package exchange

import (
	"errors"
	"math"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

// dilutionLitres keeps the tables of these tests short.
func dilutionLitres(x float64) units.Volume { return units.Litre.Of(x) }

func dilutionList(xs ...float64) []units.Volume {
	vs := make([]units.Volume, len(xs))
	for i, x := range xs {
		vs[i] = dilutionLitres(x)
	}
	return vs
}

func dilutionRange(t testing.TB, low, high float64) units.Range[units.VolumeDim] {
	t.Helper()
	r, err := units.NewRange(dilutionLitres(low), dilutionLitres(high))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func dilutionRepeat(d units.Volume, n int) []units.Volume {
	ds := make([]units.Volume, n)
	for i := range ds {
		ds[i] = d
	}
	return ds
}

func dilutionNear(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.15g, want %.15g ± %g", what, got, want, tolerance)
	}
}

// dilutionWant is the figure a row stands for: the printed one where there is
// one, else ours.
func dilutionWant(r published.Row) (want, tolerance float64) {
	if !r.Has("published") {
		return r.Float("computed"), math.Abs(r.Float("computed")) * 1e-9
	}
	return r.Float("published"), r.Float("tolerance")
}

// Repeated removal and replacement, milk to aquaria; each row names its source.
func TestRemainingPublished(t *testing.T) {
	for _, r := range published.Load(t, "exchange_vectors").Where("law", "repeated") {
		sys, d, scale := System{Capacity: dilutionLitres(1)}, units.Volume{}, 1.0
		inputs := r.Text("inputs")
		switch {
		case strings.HasPrefix(inputs, "C="):
			sys.Capacity, d = dilutionLitres(r.Input("inputs", "C")), dilutionLitres(r.Input("inputs", "d"))
			if strings.Contains(inputs, "amount=") {
				scale = r.Input("inputs", "amount")
			}
		case strings.HasPrefix(inputs, "r="):
			d, scale = dilutionLitres(r.Input("inputs", "r")), r.Input("inputs", "start")
		case strings.HasPrefix(inputs, "d/C=2/3"):
			sys.Capacity, d = dilutionLitres(3), dilutionLitres(2)
		default:
			t.Fatalf("%s: inputs %q are in no known form", r.Text("id"), inputs)
		}
		got, err := Remaining(sys, dilutionRepeat(d, int(r.Input("inputs", "n"))))
		if err != nil {
			t.Fatalf("%s: %v", r.Text("id"), err)
		}
		want, tolerance := dilutionWant(r)
		dilutionNear(t, r.Text("id")+" ("+r.Source()+")", got*scale, want, tolerance)
		if r.Has("published") && !r.Bool("agrees") {
			t.Errorf("%s: no row of this law is known to disagree", r.Text("id"))
		}
	}
}

// Serial dilution: a factor 1/k keeps a k-th, so the drain is 1 - 1/k.
func TestRemainingUnequalPublished(t *testing.T) {
	lists := map[string][]units.Volume{
		"rep-14": dilutionList(110, 132, 132, 132, 132),
		"rep-15": dilutionList(110, 132, 132, 132, 132, 150),
	}
	sys := System{Capacity: dilutionLitres(165)} // divides by 3, 5 and 11
	for _, r := range published.Load(t, "exchange_vectors").Where("law", "repeated unequal") {
		drains, ok := lists[r.Text("id")]
		if !ok {
			t.Fatalf("%s: new row; write its drains out", r.Text("id"))
		}
		got, err := Remaining(sys, drains)
		if err != nil {
			t.Fatal(err)
		}
		want, tolerance := dilutionWant(r)
		dilutionNear(t, r.Text("id")+" ("+r.Source()+")", got, want, tolerance)
	}
}

// EXCHANGE.md: three drains of 3 from 12 leave 0.421875, exactly a float64.
func TestRemainingExactCase(t *testing.T) {
	got, err := Remaining(System{Capacity: dilutionLitres(12)}, dilutionList(3, 3, 3))
	if err != nil || got != 0.421875 {
		t.Errorf("got %v, %v; want 0.421875", got, err)
	}
}

// C 12.3 L, S 5.2 L, four drains of 2.46 L: computed by an independent tool.
func TestRemainingTwoZonesTable(t *testing.T) {
	rows := []struct {
		m    float64
		want [4]float64
	}{
		{1, [4]float64{.8, .64, .512, .4096}},
		{.8, [4]float64{.8, .650923077, .531064970, .433463375}},
		{.5, [4]float64{.8, .667307692, .565617604, .482264416}},
		{0, [4]float64{.8, .694615385, .639085799, .609825979}},
	}
	for _, row := range rows {
		sys := System{Capacity: dilutionLitres(12.3), Sump: dilutionLitres(5.2), Mixing: row.m}
		for n := range row.want {
			got, err := Remaining(sys, dilutionRepeat(dilutionLitres(2.46), n+1))
			if err != nil {
				t.Fatal(err)
			}
			dilutionNear(t, "old share", got, row.want[n], 6e-10)
		}
	}
}

// Independent tool, 157 cases of the two-zone model, with both shares.
func TestTwoCompartmentTable(t *testing.T) {
	for _, r := range published.Load(t, "exchange_two_compartment").Rows() {
		s, h, d := r.Float("V_sump"), r.Float("V_held"), r.Float("drain")
		sys := System{Capacity: dilutionLitres(s).Add(dilutionLitres(h)), Sump: dilutionLitres(s), Mixing: r.Float("m")}
		n := r.Int("n")
		got, err := Remaining(sys, dilutionRepeat(dilutionLitres(d), n))
		if err != nil {
			t.Fatalf("line %d: %v", r.Line(), err)
		}
		dilutionNear(t, "total", got, r.Float("total_old"), 1e-12)
		st := stateFull(sys)
		for range n {
			st = st.drained(dilutionLitres(d)).refilled(dilutionLitres(d), 0).mixed(sys.Mixing)
		}
		dilutionNear(t, "sump", st.DrainShare(), r.Float("sump_old"), 1e-12)
		dilutionNear(t, "held", st.HeldShare(), r.Float("held_old"), 1e-12)
	}
}

func TestRemainingRangeTable(t *testing.T) {
	for _, r := range published.Load(t, "exchange_interval").Rows() {
		c := dilutionRange(t, r.Float("C_lo"), r.Float("C_hi"))
		d := dilutionRange(t, r.Float("d_lo"), r.Float("d_hi"))
		drains := make([]units.Range[units.VolumeDim], r.Int("n"))
		for i := range drains {
			drains[i] = d
		}
		got, err := RemainingRange(c, drains)
		if err != nil {
			t.Fatalf("line %d: %v", r.Line(), err)
		}
		dilutionNear(t, "low", got.Low, r.Float("old_lo"), 1e-14)
		dilutionNear(t, "high", got.High, r.Float("old_hi"), 1e-14)
	}
}

// remainingSlow is the law in exact fractions, step by step.
func remainingSlow(capacity units.Volume, drains []units.Volume) *big.Rat {
	x := big.NewRat(1, 1)
	c := dilutionRat(capacity)
	for _, d := range drains {
		keep := new(big.Rat).Sub(c, dilutionRat(d))
		x.Mul(x, keep.Quo(keep, c))
	}
	return x
}

// dilutionRat is a volume in litres as an exact fraction, read from its text.
func dilutionRat(v units.Volume) *big.Rat {
	r, ok := new(big.Rat).SetString(strings.TrimSuffix(v.String(), " L"))
	if !ok {
		panic("not a volume: " + v.String())
	}
	return r
}

func dilutionFloat(r *big.Rat) float64 { f, _ := r.Float64(); return f }

func TestRemainingAgainstFractions(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		c := dilutionLitres(0.5 + 20*rng.Float64())
		drains := make([]units.Volume, rng.IntN(12))
		for i := range drains {
			drains[i] = c.Scale(rng.Float64())
		}
		got, err := Remaining(System{Capacity: c}, drains)
		if err != nil {
			t.Fatal(err)
		}
		want := dilutionFloat(remainingSlow(c, drains))
		dilutionNear(t, "share", got, want, want*2.3e-16*float64(len(drains)+1))
	}
}

// More fluid in the box, or a smaller drain, never leaves less old fluid.
func TestRemainingMonotone(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 2000 {
		s, c := 3+rng.Float64(), 8+8*rng.Float64()
		m := rng.Float64()
		drains := dilutionRepeat(dilutionLitres(0.5+2*rng.Float64()), 1+rng.IntN(6))
		base := System{dilutionLitres(c), dilutionLitres(s), m}
		more := base
		more.Capacity = dilutionLitres(c * (1 + rng.Float64()))
		better := base
		better.Mixing = m + (1-m)*rng.Float64()
		larger := dilutionRepeat(drains[0].Scale(1+0.1*rng.Float64()), len(drains))
		at := func(sys System, ds []units.Volume) float64 {
			x, err := Remaining(sys, ds)
			if err != nil {
				t.Fatal(err)
			}
			return x
		}
		x := at(base, drains)
		const rounding = 1e-14
		if y := at(more, drains); y < x-rounding {
			t.Errorf("a larger capacity lowered the share: %v to %v", x, y)
		}
		if y := at(better, drains); y > x+rounding {
			t.Errorf("better mixing raised the share: %v to %v", x, y)
		}
		if y := at(base, larger); y > x+rounding {
			t.Errorf("larger drains raised the share: %v to %v", x, y)
		}
	}
}

// Order of drains does not matter in a well-mixed box.
func TestRemainingOrder(t *testing.T) {
	sys := System{Capacity: dilutionLitres(11)}
	a, _ := Remaining(sys, dilutionList(3.1, 2.2, 2.7))
	b, _ := Remaining(sys, dilutionList(2.7, 3.1, 2.2))
	dilutionNear(t, "share", a, b, 1e-15)
}

func TestRemainingFaults(t *testing.T) {
	good := dilutionList(1)
	huge := units.Litre.Of(math.Inf(1))
	cases := []struct {
		name string
		sys  System
		ds   []units.Volume
		want []string
	}{
		{"no box", System{}, good, []string{"capacity 0 L", "more than 0"}},
		{"negative capacity", System{Capacity: dilutionLitres(-3)}, good, []string{"capacity -3 L"}},
		{"capacity out of range", System{Capacity: huge}, good, []string{"capacity is out of range"}},
		{"giant", System{Capacity: dilutionLitres(20_000)}, good, []string{"20000 L", "to 500 L"}},
		{"drain above capacity", System{Capacity: dilutionLitres(5)}, dilutionList(1, 6), []string{"drain 2: 6 L", "capacity, 5 L"}},
		{"drain above sump", System{Capacity: dilutionLitres(9), Sump: dilutionLitres(4)}, dilutionList(5), []string{"drain 1: 5 L", "sump, 4 L"}},
		{"negative drain", System{Capacity: dilutionLitres(5)}, dilutionList(-1), []string{"drain 1: -1 L"}},
		{"two faults", System{Capacity: dilutionLitres(5)}, dilutionList(-1, 7), []string{"drain 1", "drain 2"}},
		{"drain out of range", System{Capacity: dilutionLitres(5)}, []units.Volume{huge}, []string{"drain 1 is out of range"}},
		{"sump above capacity", System{Capacity: dilutionLitres(5), Sump: dilutionLitres(6)}, nil, []string{"sump 6 L", "capacity, 5 L"}},
		{"sump out of range", System{Capacity: dilutionLitres(5), Sump: huge}, nil, []string{"sump is out of range"}},
		{"mixing", System{Capacity: dilutionLitres(5), Sump: dilutionLitres(6), Mixing: 2}, nil, []string{"sump 6 L", "mixing share 2; want 0 to 1"}},
		{"NaN", System{Capacity: dilutionLitres(5), Mixing: math.NaN()}, nil, []string{"mixing share is not a number"}},
	}
	for _, c := range cases {
		got, err := Remaining(c.sys, c.ds)
		if err == nil || got != 1 {
			t.Errorf("%s: got %v, %v; want 1 and an error", c.name, got, err)
			continue
		}
		for _, w := range c.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: %q does not say %q", c.name, err, w)
			}
		}
	}
	if _, err := Remaining(System{Capacity: huge}, nil); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("%v does not wrap ErrOutOfRange", err)
	}
	_, err := Remaining(System{Capacity: dilutionLitres(1)}, dilutionRepeat(dilutionLitres(2), 100_000))
	if n := len(err.Error()); n > 2000 {
		t.Errorf("a long bad list made %d bytes of error", n)
	}
}

func TestRemainingRangeFaults(t *testing.T) {
	ok := dilutionRange(t, 10, 12)
	bad := func(c units.Range[units.VolumeDim], ds ...units.Range[units.VolumeDim]) {
		t.Helper()
		if s, err := RemainingRange(c, ds); err == nil || s != (Share{1, 1}) {
			t.Errorf("got %v, %v; want all old and an error", s, err)
		}
	}
	bad(units.Range[units.VolumeDim]{}, ok)
	bad(ok, dilutionRange(t, 9, 11)) // the larger end may exceed what is there
	bad(ok, dilutionRange(t, -1, 1))
	bad(ok, units.Exactly(units.Litre.Of(math.Inf(1))))
	bad(units.Exactly(units.Litre.Of(math.Inf(1))), ok)
}

func BenchmarkRemaining(b *testing.B) {
	b.ReportAllocs()
	sys, drains := System{Capacity: dilutionLitres(12.3)}, dilutionList(2.4, 2.5, 2.3, 2.4, 2.4)
	for b.Loop() {
		if _, err := Remaining(sys, drains); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRemainingTwoZones(b *testing.B) {
	b.ReportAllocs()
	sys := System{Capacity: dilutionLitres(12.3), Sump: dilutionLitres(5.2), Mixing: 0.8}
	drains := dilutionList(2.4, 2.5, 2.3, 2.4, 2.4)
	for b.Loop() {
		if _, err := Remaining(sys, drains); err != nil {
			b.Fatal(err)
		}
	}
}

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

// A refill that is itself part old: 25 of 125 drained from 50 ppm, 10 ppm put
// back. The published page misreads its own sum as 44; it is 42, and 44 must not
// come out.
func TestStateImpureRefillPublished(t *testing.T) {
	r := published.Load(t, "exchange_vectors").Find("law", "repeated with impure refill")
	start, fill := r.Input("inputs", "start"), r.Input("inputs", "fill")
	st, err := Start(System{Capacity: dilutionLitres(r.Input("inputs", "C"))})
	if err != nil {
		t.Fatal(err)
	}
	d := dilutionLitres(r.Input("inputs", "d"))
	st, _ = st.Drain(d)
	st, err = st.Refill(d, fill/start)
	if err != nil {
		t.Fatal(err)
	}
	got := start * st.OldShare()
	dilutionNear(t, r.Text("id"), got, r.Float("computed"), 1e-9)
	if r.Bool("agrees") || math.Abs(got-r.Float("published")) < 1 {
		t.Errorf("row %s is a published error, yet %v agrees with it", r.Text("id"), got)
	}
}

// Two zones of salt water between two runs of the pumps: as a share of the
// saltier tank. The step s + m(mean - s) against the published solution of the
// differential equation.
func TestStateMixPublished(t *testing.T) {
	for _, r := range published.Load(t, "exchange_vectors").Where("law", "two zones") {
		inputs := strings.ReplaceAll(r.Text("inputs"), ";salt 10,40", "")
		if inputs == r.Text("inputs") {
			t.Fatalf("%s: inputs %q are in no known form", r.Text("id"), r.Text("inputs"))
		}
		s, h := r.Input("inputs", "S"), r.Input("inputs", "H")
		q, minutes := r.Input("inputs", "q"), r.Input("inputs", "t")
		m := -math.Expm1(-q * minutes * (1/s + 1/h))
		st, err := Start(System{Capacity: dilutionLitres(s + h), Sump: dilutionLitres(s)})
		if err != nil {
			t.Fatal(err)
		}
		most := 40 / h // pounds per gallon in the saltier tank stand for a share of 1
		st.sumpShare, st.heldShare = 10/s/most, 1
		st, err = st.Mix(m)
		if err != nil {
			t.Fatal(err)
		}
		got := st.DrainShare() * most * s
		if strings.HasSuffix(r.Text("id"), "-B") {
			got = st.HeldShare() * most * h
		}
		dilutionNear(t, r.Text("id")+" ("+r.Source()+")", got, r.Float("published"), r.Float("tolerance"))
	}
}

// ledgerSlow is the two-zone ledger in exact fractions.
type ledgerSlow struct{ sump, held, oldSump, oldHeld *big.Rat }

func (l *ledgerSlow) drain(v *big.Rat) {
	if l.sump.Sign() == 0 {
		return
	}
	part := new(big.Rat).Quo(v, l.sump)
	l.oldSump.Sub(l.oldSump, part.Mul(part, l.oldSump))
	l.sump.Sub(l.sump, v)
}

func (l *ledgerSlow) refill(v, share *big.Rat) {
	l.sump.Add(l.sump, v)
	l.oldSump.Add(l.oldSump, new(big.Rat).Mul(v, share))
}

func (l *ledgerSlow) mix(m *big.Rat) {
	all := new(big.Rat).Add(l.sump, l.held)
	mean := new(big.Rat).Add(l.oldSump, l.oldHeld)
	mean.Quo(mean, all)
	toward := func(old, volume *big.Rat) {
		gap := new(big.Rat).Mul(mean, volume)
		gap.Sub(gap, old)
		old.Add(old, gap.Mul(gap, m))
	}
	toward(l.oldSump, l.sump)
	toward(l.oldHeld, l.held)
}

func (l *ledgerSlow) settle(v *big.Rat) {
	moved := new(big.Rat).Sub(v, l.sump)
	carry := new(big.Rat)
	switch moved.Sign() {
	case 1:
		carry.Mul(l.oldHeld, new(big.Rat).Quo(moved, l.held))
	case -1:
		carry.Mul(l.oldSump, new(big.Rat).Quo(moved, l.sump))
	}
	l.oldSump.Add(l.oldSump, carry)
	l.oldHeld.Sub(l.oldHeld, carry)
	l.sump.Add(l.sump, moved)
	l.held.Sub(l.held, moved)
}

func (l *ledgerSlow) share() float64 {
	old := new(big.Rat).Add(l.oldSump, l.oldHeld)
	return dilutionFloat(old.Quo(old, new(big.Rat).Add(l.sump, l.held)))
}

func ledgerFloat(x float64) *big.Rat { return new(big.Rat).SetFloat64(x) }

// Random histories of every step, volumes other than full included: volumes
// agree exactly, shares to a few roundings.
func TestStateAgainstFractions(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for range 400 {
		c := dilutionLitres(2 + 10*rng.Float64())
		sys := System{Capacity: c}
		if rng.IntN(3) > 0 {
			sys.Sump = c.Scale(0.2 + 0.7*rng.Float64())
		}
		st, err := Start(sys)
		if err != nil {
			t.Fatal(err)
		}
		slow := &ledgerSlow{dilutionRat(st.sump), dilutionRat(st.held), dilutionRat(st.sump), dilutionRat(st.held)}
		for range 8 {
			st = ledgerRandomStep(t, rng, st, slow)
		}
		if dilutionRat(st.sump).Cmp(slow.sump) != 0 || dilutionRat(st.held).Cmp(slow.held) != 0 {
			t.Fatalf("volumes %v + %v, want %v + %v", st.sump, st.held, slow.sump, slow.held)
		}
		dilutionNear(t, "old share", st.OldShare(), slow.share(), 1e-13)
	}
}

func ledgerRandomStep(t *testing.T, rng *rand.Rand, st State, slow *ledgerSlow) State {
	t.Helper()
	u := rng.Float64()
	var err error
	switch k := rng.IntN(5); {
	case k == 0:
		v := st.SumpContents().Scale(u)
		slow.drain(dilutionRat(v))
		st, err = st.Drain(v)
	case k <= 2:
		v, share := st.mostContents().Sub(st.Contents()).Scale(u/2), rng.Float64()
		slow.refill(dilutionRat(v), ledgerFloat(share))
		st, err = st.Refill(v, share)
	case k == 3 || !st.system.twoZones():
		slow.mix(ledgerFloat(u))
		st, err = st.Mix(u)
	default:
		v := st.Contents().Scale(0.1 + 0.8*u)
		slow.settle(dilutionRat(v))
		st, err = st.Settle(v)
	}
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// A box left low after a drain mixes by what it holds, not by its capacity.
func TestStateBelowCapacity(t *testing.T) {
	st, _ := Start(System{Capacity: dilutionLitres(10)})
	st, _ = st.Drain(dilutionLitres(4))
	st, _ = st.Refill(dilutionLitres(2), 0) // 6 old of 8
	if got := st.OldShare(); got != 0.75 || st.Contents() != dilutionLitres(8) {
		t.Errorf("share %v of %v; want 0.75 of 8 L", got, st.Contents())
	}
	st, _ = st.Drain(dilutionLitres(4)) // leaves 3 old of 4
	st, _ = st.Refill(dilutionLitres(6), 0)
	if got := st.OldShare(); math.Abs(got-0.3) > 1e-16 || st.Contents() != dilutionLitres(10) {
		t.Errorf("share %v of %v; want 0.3 of 10 L", got, st.Contents())
	}
}

func TestStateRefusals(t *testing.T) {
	st, err := Start(System{Capacity: dilutionLitres(10), Sump: dilutionLitres(4)})
	if err != nil {
		t.Fatal(err)
	}
	huge := units.Litre.Of(math.NaN())
	cases := []struct {
		name string
		do   func(State) (State, error)
		want string
	}{
		{"more than the sump", func(s State) (State, error) { return s.Drain(dilutionLitres(5)) }, "drain: 5 L; want 0 to the contents of the sump, 4 L"},
		{"negative drain", func(s State) (State, error) { return s.Drain(dilutionLitres(-1)) }, "-1 L"},
		{"drain out of range", func(s State) (State, error) { return s.Drain(huge) }, "out of range"},
		{"negative refill", func(s State) (State, error) { return s.Refill(dilutionLitres(-1), 0) }, "refill: -1 L; want 0 to 5 L"},
		{"overfull", func(s State) (State, error) { return s.Refill(dilutionLitres(6), 0) }, "6 L; want 0 to 5 L"},
		{"refill out of range", func(s State) (State, error) { return s.Refill(huge, 0) }, "out of range"},
		{"share", func(s State) (State, error) { return s.Refill(dilutionLitres(1), 1.5) }, "old share 1.5; want 0 to 1"},
		{"share NaN", func(s State) (State, error) { return s.Refill(dilutionLitres(1), math.NaN()) }, "not a number"},
		{"mixing", func(s State) (State, error) { return s.Mix(-0.1) }, "mixing share -0.1"},
		{"mixing NaN", func(s State) (State, error) { return s.Mix(math.NaN()) }, "not a number"},
		{"settle", func(s State) (State, error) { return s.Settle(dilutionLitres(11)) }, "want 0 to the contents, 10 L"},
		{"settle out of range", func(s State) (State, error) { return s.Settle(huge) }, "out of range"},
	}
	for _, c := range cases {
		next, err := c.do(st)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v does not say %q", c.name, err, c.want)
		}
		if next != st {
			t.Errorf("%s: a refused step changed the state", c.name)
		}
		if next, err := c.do(State{}); !errors.Is(err, ErrNoBox) || next != (State{}) {
			t.Errorf("%s: the zero State answered %v, %v; want ErrNoBox", c.name, next, err)
		}
	}
	one, _ := Start(System{Capacity: dilutionLitres(10)})
	if _, err := one.Settle(dilutionLitres(4)); err == nil {
		t.Error("a box with no known sump settled")
	}
	if _, err := Start(System{}); err == nil {
		t.Error("a box without capacity started")
	}
}

func TestStateEdges(t *testing.T) {
	empty, _ := Start(System{Capacity: dilutionLitres(4)})
	empty, err := empty.Drain(dilutionLitres(4))
	if err != nil || !empty.Contents().IsZero() || empty.OldShare() != 1 {
		t.Errorf("drained dry: %v, share %v, %v", empty.Contents(), empty.OldShare(), err)
	}
	filled, err := empty.Refill(dilutionLitres(4), 0)
	if err != nil || filled.OldShare() != 0 {
		t.Errorf("all new: share %v, %v; want 0", filled.OldShare(), err)
	}
	two, _ := Start(System{Capacity: dilutionLitres(4), Sump: dilutionLitres(1)})
	two, _ = two.Drain(dilutionLitres(1)) // the sump is dry
	if two, err = two.Mix(0.5); err != nil || two.OldShare() != 1 {
		t.Errorf("mixing with a dry sump: %v, %v", two.OldShare(), err)
	}
	two, _ = two.Settle(dilutionLitres(3)) // all of it runs to the sump
	two, _ = two.Drain(dilutionLitres(3))
	two, err = two.Refill(dilutionLitres(4), 0.25)
	if err != nil || two.OldShare() != 0.25 {
		t.Errorf("share %v, %v; want 0.25", two.OldShare(), err)
	}
	// Boxes at the top of the range keep room for an overfill.
	big, err := Start(System{Capacity: dilutionLitres(systemMostLitres)})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := big.Refill(dilutionLitres(systemMostLitres/2), 0); err != nil {
		t.Error(err)
	}
}

func TestStartFromFaults(t *testing.T) {
	sys := System{Capacity: dilutionLitres(10), Sump: dilutionLitres(4)}
	bad := []Arrival{
		{},
		{System: sys, Contents: dilutionLitres(5), OldShare: 1},  // less than is held back
		{System: sys, Contents: dilutionLitres(16), OldShare: 1}, // more than it can hold
		{System: sys, Contents: units.Litre.Of(math.NaN()), OldShare: 1},
		{System: sys, Contents: dilutionLitres(10), OldShare: -0.5},
		{System: sys, Contents: dilutionLitres(10), OldShare: math.NaN()},
	}
	for i, a := range bad {
		if st, err := StartFrom(a); err == nil || st != (State{}) {
			t.Errorf("case %d: got %v, %v; want an error and no state", i, st, err)
		}
	}
}

// The ends of what a box may hold are accepted, a tick beyond is not.
func TestStartFromEnds(t *testing.T) {
	sys := System{Capacity: dilutionLitres(10), Sump: dilutionLitres(4)}
	tick := units.Litre.Of(1e-14)
	least, most := dilutionLitres(6), dilutionLitres(15)
	for _, k := range []struct {
		contents units.Volume
		ok       bool
	}{{least, true}, {least.Sub(tick), false}, {most, true}, {most.Add(tick), false}} {
		st, err := StartFrom(Arrival{System: sys, Contents: k.contents, OldShare: 0.5})
		if (err == nil) != k.ok || k.ok && (st.Contents() != k.contents || st.OldShare() != 0.5 || st.HeldShare() != 0.5) {
			t.Errorf("contents %v: %v, %v", k.contents, st.Contents(), err)
		}
	}
}

func BenchmarkStateCycle(b *testing.B) {
	b.ReportAllocs()
	st, err := Start(System{Capacity: dilutionLitres(12.3), Sump: dilutionLitres(5.2)})
	if err != nil {
		b.Fatal(err)
	}
	d := dilutionLitres(2.46)
	for b.Loop() {
		st, _ = st.Drain(d)
		st, _ = st.Refill(d, 0)
		st, _ = st.Mix(0.8)
	}
}

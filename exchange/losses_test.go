package exchange

import (
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units"
)

// EXCHANGE.md: 0.02 + 0.02 qt per swap leaves the box 0.16 qt low after four.
func TestLossesShortfall(t *testing.T) {
	q := units.USQuart.Of
	l := Losses{KeptEachTime: q(0.02), FilmEachTime: q(0.02), KeptOnce: q(1)}
	got, err := l.Shortfall(4)
	if err != nil || got != q(0.16) {
		t.Errorf("got %v, %v; want %v", got, err, q(0.16))
	}
	// The ledger agrees: four swaps of 2.4 qt from a box of 13 qt.
	st, err := Start(System{Capacity: q(13)})
	if err != nil {
		t.Fatal(err)
	}
	for range 4 {
		if st, err = st.Swap(q(2.4), l); err != nil {
			t.Fatal(err)
		}
	}
	if low := q(13).Sub(st.Contents()); low != q(0.16) {
		t.Errorf("the ledger stands %v low, want %v", low, q(0.16))
	}
}

// EXCHANGE.md: a line that keeps x of what was drained and hands it back makes
// the pass act as d - x.
func TestLossesLineActsAsLess(t *testing.T) {
	l := Losses{LineReturns: dilutionLitres(0.3)}
	d, err := l.Acting(dilutionLitres(2.5))
	if err != nil || d != dilutionLitres(2.2) {
		t.Fatalf("acting %v, %v; want 2.2 L", d, err)
	}
	sys := System{Capacity: dilutionLitres(12)}
	st, _ := Start(sys)
	for range 5 {
		if st, err = st.Swap(dilutionLitres(2.5), l); err != nil {
			t.Fatal(err)
		}
	}
	want, err := Remaining(sys, dilutionRepeat(d, 5))
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "share", st.OldShare(), want, 1e-15)
	if st.Contents() != sys.Capacity {
		t.Errorf("a line that returns what it keeps left %v", st.Contents())
	}
}

func TestLossesFaults(t *testing.T) {
	nan := units.Litre.Of(math.NaN())
	bad := Losses{KeptOnce: dilutionLitres(-1), KeptEachTime: nan, FilmEachTime: dilutionLitres(101), LineReturns: nan}
	err := bad.Check()
	for _, w := range []string{"kept once: -1 L; want 0 to 100 L", "kept each time: out of range", "film each time: 101 L", "line returns: out of range"} {
		if err == nil || !strings.Contains(err.Error(), w) {
			t.Errorf("%v does not say %q", err, w)
		}
	}
	if err := (Losses{FilmEachTime: dilutionLitres(lossesMostLitres)}).Check(); err != nil {
		t.Errorf("the most that is accepted: %v", err)
	}
	if _, err := bad.Shortfall(1); err == nil {
		t.Error("shortfall of bad losses")
	}
	for _, n := range []int{-1, planMostCycles + 1} {
		if v, err := (Losses{}).Shortfall(n); err == nil || !v.IsZero() {
			t.Errorf("%d swaps: %v, %v", n, v, err)
		}
	}
	l := Losses{LineReturns: dilutionLitres(1)}
	for _, v := range []units.Volume{dilutionLitres(0.5), nan} {
		if _, err := l.Acting(v); err == nil {
			t.Errorf("acting drain of %v through a line that returns 1 L", v)
		}
	}
	if _, err := bad.Acting(dilutionLitres(1)); err == nil {
		t.Error("acting drain of bad losses")
	}
	st, _ := Start(System{Capacity: dilutionLitres(10)})
	for name, try := range map[string]func(State) (State, error){
		"bad losses":    func(s State) (State, error) { return s.Swap(dilutionLitres(1), bad) },
		"less than x":   func(s State) (State, error) { return s.Swap(dilutionLitres(0.5), l) },
		"more than all": func(s State) (State, error) { return s.Swap(dilutionLitres(11), l) },
		"out of range":  func(s State) (State, error) { return s.Swap(nan, l) },
	} {
		next, err := try(st)
		if name == "less than x" && (err == nil || !strings.Contains(err.Error(), "want at least what the line keeps and returns, 1 L")) {
			t.Errorf("%s: %v", name, err)
		}
		if err == nil || next != st {
			t.Errorf("%s: %v, %v; want the receiver and an error", name, next, err)
		}
	}
	if next, err := (State{}).Swap(dilutionLitres(1), Losses{}); err == nil || next != (State{}) {
		t.Errorf("zero state: %v, %v", next, err)
	}
	// An overfilled box has no room once the swap is short of nothing.
	all, _ := st.Drain(dilutionLitres(10))
	if next, err := all.Swap(units.Volume{}, Losses{}); err != nil || next.OldShare() != 1 {
		t.Errorf("swapping nothing: %v, %v", next.OldShare(), err)
	}
}

package exchange

import (
	"testing"

	"example.com/meniscus/units"
)

func TestLossesSteps(t *testing.T) {
	ml := units.Millilitre.Of
	l := Losses{KeptOnce: ml(250), KeptEachTime: ml(20), FilmEachTime: ml(15), LineReturns: ml(50)}
	s, err := l.Steps(units.Litre.Of(2), 4)
	if err != nil {
		t.Fatal(err)
	}
	const want = "lost at each swap = kept + film = 0.020 L + 0.015 L = 0.035 L\n" +
		"box low after all swaps, if as much is poured as was drained = n × lost = 4 × 0.035 L = 0.140 L\n" +
		"each swap acts as a drain of = d - returned = 2.000 L - 0.050 L = 1.950 L\n" +
		"to pour in all, level = n·d + n × lost + kept once = 4 × 2.000 L + 0.140 L + 0.250 L = 8.390 L\n"
	if got := s.Text(); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

// The last line is what brings the ledger back to where it stood: swap by swap, the
// box ends low by the second line, and pouring that much more ends it level.
func TestLossesStepsAgreeWithTheLedger(t *testing.T) {
	ml := units.Millilitre.Of
	l := Losses{KeptEachTime: ml(20), FilmEachTime: ml(15)}
	st, err := Start(System{Capacity: units.Litre.Of(10)})
	if err != nil {
		t.Fatal(err)
	}
	for range 4 {
		if st, err = st.Swap(units.Litre.Of(2), l); err != nil {
			t.Fatal(err)
		}
	}
	low, err := l.Shortfall(4)
	if err != nil || st.Contents().Add(low) != units.Litre.Of(10) {
		t.Errorf("box holds %s, low by %s: %v", st.Contents(), low, err)
	}
}

func TestLossesStepsRefuse(t *testing.T) {
	ml := units.Millilitre.Of
	if s, err := (Losses{LineReturns: ml(50)}).Steps(ml(40), 1); s != nil || err == nil {
		t.Errorf("line returns more than was drained: %v, %v", s, err)
	}
	if s, err := (Losses{}).Steps(ml(40), -1); s != nil || err == nil {
		t.Errorf("-1 swaps: %v, %v", s, err)
	}
	if s, err := (Losses{KeptOnce: ml(-1)}).Steps(ml(40), 1); s != nil || err == nil {
		t.Errorf("kept -1 mL: %v, %v", s, err)
	}
}

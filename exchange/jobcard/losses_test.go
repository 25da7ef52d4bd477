package jobcard

import (
	"testing"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
)

// Two hundredths of a quart of film in the pan and two kept in hose and jug, at every
// swap: as entries of their own they leave the card 0.16 qt low after four swaps (the
// worked figure of EXCH-ref), which is what exchange.Losses says, and no jug read
// more carefully would show less.
func TestLossesAreEntriesOfTheirOwn(t *testing.T) {
	qt := units.USQuart.Of
	amount := func(v float64) Amount {
		return Amount{Volume: qt(v), Temperature: units.Celsius(15), PlusMinus: units.Millilitre.Of(1)}
	}
	entries := []Entry{FillPlug(at(0), "")}
	for i := range 4 {
		entries = append(entries, DrainOf(at(5*i+1), amount(2)), Spill(at(5*i+2), amount(0.02), FromBox),
			RefillOf(at(5*i+3), amount(2)), KeptBack(at(5*i+4), amount(0.02)), GearRuns(at(5*i+5), 1))
	}
	card := fill(t, simple(10), entries...)
	low, err := exchange.Losses{FilmEachTime: qt(0.02), KeptEachTime: qt(0.02)}.Shortfall(4)
	if err != nil {
		t.Fatal(err)
	}
	if net := card.Balance().Net.Best(); net != low.Neg() || net != qt(-0.16) {
		t.Errorf("net %s, the losses come to %s; want -0.16 qt", net, low)
	}
	if b := card.Balance(); b.Verdict != Short {
		t.Errorf("%s; want short: four losses are far past this doubt", b.Sentence())
	}
}

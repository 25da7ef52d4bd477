package jobcard

import (
	"fmt"
	"testing"

	"example.com/meniscus/internal/allocated"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

// crowdedSpec lists as many vessels and thermometers as a job may.
func crowdedSpec() Spec {
	s := Spec{Job: "crowded", Capacity: volumes(8, 8), UsualDrain: volumes(4, 5), Sump: litres(4), OnHand: litres(0.1), Runs: 3, Fluid: Fluid{Density15: 850}}
	for i := range mostListed {
		s.Vessels = append(s.Vessels, thermal.Vessel{ID: fmt.Sprintf("jug-%d", i), Material: thermal.Polypropylene, Graduation: units.Millilitre.Of(50), ScaleError: 0.02})
		s.Thermometers = append(s.Thermometers, Thermometer{ID: fmt.Sprintf("p-%d", i), PlusMinus: units.CelsiusDegree.Of(1), Step: units.CelsiusDegree.Of(0.1)})
		s.Plugs = append(s.Plugs, ternSpec().Plugs[i%3])
		s.Plugs[i].ID = fmt.Sprintf("plug-%d", i)
		s.Washers = append(s.Washers, ternSpec().Washers[0])
		s.Washers[i].ID = fmt.Sprintf("ring-%d", i)
		s.Plugs[i].Washer = "ring-0"
	}
	s.Scales = ternSpec().Scales
	return s
}

// crowded reads in every instrument in turn.
func crowded(i int, litresRead float64) Amount {
	return Amount{Volume: litres(litresRead), Temperature: units.Celsius(float64(15 + i%40)), Vessel: fmt.Sprintf("jug-%d", i%mostListed), Thermometer: fmt.Sprintf("p-%d", i%mostListed)}
}

// dearCards are the cards that cost most to read for their size.
func dearCards(t testing.TB) map[string]*Card {
	t.Helper()
	cards := map[string]*Card{}
	small := []Entry{FillPlug(at(0), "")}
	for i := len(small); i < mostEntries-mostStrikes; i++ {
		small = append(small, DrainOf(at(0), crowded(i, 0.004)))
	}
	for i := range mostStrikes {
		small = append(small, Strike(at(0), 1+mostStrikes-i, "slip"))
	}
	pairs := []Entry{FillPlug(at(0), "")}
	for i := len(pairs); i < mostEntries; i += 2 {
		pairs = append(pairs, DrainOf(at(0), crowded(i, 1)), RefillOf(at(0), crowded(i, 1)))
	}
	struckPairs := append([]Entry(nil), pairs[0])
	for range mostStrikes {
		struckPairs = append(struckPairs, Note(at(0), "x"))
	}
	struckPairs = append(struckPairs, pairs[1:mostEntries-2*mostStrikes]...)
	for i := range mostStrikes {
		struckPairs = append(struckPairs, Strike(at(0), 2+i, "slip"))
	}
	rings := []Entry{FillPlug(at(0), "")}
	for i := len(rings); i < mostEntries-mostStrikes; i++ {
		ring := NewWasher(at(0), "plug-1", fmt.Sprintf("ring-%d", i%mostListed))
		ring.New = false
		rings = append(rings, ring)
	}
	for i := range mostStrikes {
		rings = append(rings, Strike(at(0), 2+i, "slip"))
	}
	for name, entries := range map[string][]Entry{"drains, struck": small, "pairs": pairs[:mostEntries], "pairs, struck": struckPairs, "washers, struck": rings} {
		cards[name] = fill(t, crowdedSpec(), entries...)
	}
	tabled := crowdedSpec()
	tabled.Fluid = Fluid{}
	for i := range 1000 {
		tabled.Fluid.Table = append(tabled.Fluid.Table, thermal.DensityPoint{At: units.Celsius(float64(i) / 10), Density: units.Density(900 - float64(i)/10)})
	}
	cards["pairs, struck, long table"] = fill(t, tabled, struckPairs...)
	return cards
}

// A card of many entries and strikes was reckoned again from the start at each strike,
// amounts and doubts and all: gigabytes for a file of 100 kB.
func TestTheDearestCardsAreBounded(t *testing.T) {
	for name, card := range dearCards(t) {
		text, err := card.MarshalJSON()
		if err != nil {
			t.Fatal(err)
		}
		got := allocated.Bytes(func() { _, err = Decode(text) })
		t.Logf("%s: %d kB of text, %d kB allocated", name, len(text)>>10, got>>10)
		if err != nil || got > 32<<20 {
			t.Errorf("%s: %d kB to decode %d kB, %v; want at most 32 MB", name, got>>10, len(text)>>10, err)
		}
		if net := card.Balance().Net; !net.Valid() {
			t.Errorf("%s: net %v", name, net.Err())
		}
		for what, do := range map[string]func(){
			"balance": func() { card.Balance() }, "interval": func() { _, _ = card.OldShareInterval() },
			"findings": func() { card.Findings() }, "blocking": func() { card.Blocking() }, "next": func() { card.Next() },
			"weighed": func() { weighed(t, card) }, "record": func() { _ = card.Record() },
		} {
			if got := allocated.Bytes(do); got > 32<<20 {
				t.Errorf("%s: %d kB for its %s; want at most 32 MB", name, got>>10, what)
			}
		}
	}
}

// What a card of each kind costs to read, and its answers.
func BenchmarkDearCards(b *testing.B) {
	for name, card := range dearCards(b) {
		text, err := card.MarshalJSON()
		if err != nil {
			b.Fatal(err)
		}
		b.Run("decode "+name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Decode(text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func weighed(t *testing.T, card *Card) {
	t.Helper()
	if _, err := card.Weighed("scale-1"); err != nil {
		t.Error(err)
	}
}

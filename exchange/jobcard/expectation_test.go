package jobcard_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

// overfilled is a box that came in right, was drained of 2 L and refilled with
// 2.3 L, all as at 15 °C, and stands at mid-window.
func overfilled(more ...jobcard.Entry) *jobcard.Card {
	s := tenLitres()
	s.Window = thermal.Window{Low: units.Celsius(38), High: units.Celsius(48)}
	s.Overfill = units.Litre.Of(0.3)
	s.Fluid = jobcard.Fluid{Expansion: 7e-4}
	card, err := jobcard.Open(s)
	if err != nil {
		fmt.Println(err)
	}
	for _, e := range append([]jobcard.Entry{
		jobcard.FillPlug(clock(0), ""), jobcard.DrainOf(clock(10), l(2)), jobcard.RefillOf(clock(20), l(2.3)), jobcard.GearRuns(clock(25), 4),
		jobcard.ReadWindow(clock(30), jobcard.WindowReading{Temperature: units.Celsius(43)}),
	}, more...) {
		if err := card.Append(e); err != nil {
			fmt.Println(err)
		}
	}
	return card
}

// By hand: 0.3 L over as at 15 °C are 0.3·e^(7e-4·28) = 305.94 mL at 43 °C, and
// at mid-window nothing else is off, so that is what should run.
func TestExpectedAtTheCheckPlugByHand(t *testing.T) {
	caught := jobcard.Observe(clock(40), "", exchange.PlugTrickles)
	caught.Amount = jobcard.Amount{Volume: units.Litre.Of(0.3), Temperature: units.Celsius(43)}
	for name, card := range map[string]*jobcard.Card{"before the look": overfilled(), "after it": overfilled(caught)} {
		check, err := card.LevelCheck(exchange.CameInRight)
		if err != nil {
			t.Fatal(err)
		}
		expected, err := check.Expect()
		if err != nil {
			t.Fatal(err)
		}
		if got := expected.Runs.Best().In(units.Millilitre); math.Abs(got-305.94) > 0.01 {
			t.Errorf("%s: %v mL should run, by hand 305.94", name, got)
		}
	}
	card := overfilled(caught)
	check, _ := card.LevelCheck(exchange.CameInRight)
	expected, _ := check.Expect()
	seen, ok := card.Observation()
	if !ok {
		t.Fatal("nothing was seen")
	}
	found, err := expected.Observe(seen)
	if err != nil {
		t.Fatal(err)
	}
	if found.Standing != exchange.AtLip || math.Abs(found.Difference.Best().In(units.Millilitre)+5.94) > 0.01 {
		t.Errorf("standing %v, difference %v; want at the lip, 5.94 mL less than expected", found.Standing, found.Difference.Best())
	}
	if _, err := open().LevelCheck(exchange.CameInRight); err == nil {
		t.Error("a box without a window has no level check")
	}
}

func ExampleCard_LevelCheck() {
	check, _ := overfilled().LevelCheck(exchange.CameInRight)
	expected, _ := check.Expect()
	fmt.Println(expected.Runs.Best().Text(units.Millilitre, 0), "should run")
	// Output: 306 mL should run
}

func ExampleCard_Observation() {
	seen, ok := overfilled(jobcard.Observe(clock(40), "", exchange.PlugDrips)).Observation()
	fmt.Println(seen.Last, ok)
	// Output: drip true
}

package jobcard

import (
	"math"
	"strings"
	"testing"
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
)

// Every limit of an entry's own figures from both sides.
func TestEntryLimits(t *testing.T) {
	day := Duration(24 * time.Hour)
	drain := func(a Amount) Entry { return DrainOf(at(1), a) }
	flow := func(d Duration) Entry { e := Observe(at(1), "", exchange.PlugDrips); e.Lasting = d; return e }
	torque := func(nm, turns float64) Entry {
		return Entry{At: at(1), Kind: PlugTorqued, Plug: "fill", Torque: units.NewtonMetre.Of(nm), Turns: turns}
	}
	read := func(plusMinus float64) Entry {
		return ReadWindow(at(1), WindowReading{Temperature: units.Celsius(40), PlusMinus: units.CelsiusDegree.Of(plusMinus)})
	}
	volume := func(litre, plusMinus float64) Entry {
		return drain(Amount{Volume: litres(litre), Temperature: units.Celsius(15), PlusMinus: litres(plusMinus)})
	}
	for name, tt := range map[string]struct {
		good, bad []Entry
		want      string
	}{
		"year":      {[]Entry{Note(time.Date(1, 1, 1, 0, 0, 1, 0, time.UTC), "x"), Note(time.Date(9999, 12, 31, 0, 0, 0, 0, time.UTC), "x")}, []Entry{Note(time.Date(0, 12, 31, 0, 0, 0, 0, time.UTC), "x"), Note(time.Date(10000, 1, 1, 0, 0, 0, 0, time.UTC), "x")}, "in the years 1 to 9999"},
		"old share": {[]Entry{{At: at(1), Kind: Refilled, Amount: plain(1), OldShare: 1}}, []Entry{{At: at(1), Kind: Refilled, Amount: plain(1), OldShare: math.Nextafter(1, 2)}, {At: at(1), Kind: Refilled, Amount: plain(1), OldShare: -0.1}}, "want 0 (new) to 1"},
		"runs":      {[]Entry{GearRuns(at(1), 1000)}, []Entry{GearRuns(at(1), 1001), GearRuns(at(1), -1)}, "want 1 to 1000"},
		"torque":    {[]Entry{torque(30, 0)}, []Entry{torque(-1, 0), torque(math.NaN(), 0)}, "want a positive torque"},
		"turns":     {[]Entry{torque(0, 20)}, []Entry{torque(0, 20.001), torque(0, -1), torque(0, math.NaN())}, "want 0 to 20"},
		"± reading": {[]Entry{read(0), read(2)}, []Entry{read(-1), read(math.NaN())}, "on a temperature; want zero or more"},
		"lasting":   {[]Entry{flow(day)}, []Entry{flow(day + 1), flow(-1)}, "want 0 to 24 h"},
		"flow":      {[]Entry{Observe(at(1), "", exchange.PlugStreams)}, []Entry{Observe(at(1), "", exchange.PlugStreams+1)}, "not one of the package's constants"},
		"origin":    {[]Entry{Spill(at(1), plain(1), FromStock)}, []Entry{Spill(at(1), plain(1), FromStock+1)}, "not one of the package's constants"},
		"text":      {[]Entry{Note(at(1), strings.Repeat("x", 1000))}, []Entry{Note(at(1), strings.Repeat("x", 1001))}, "at most 1000"},
		"name":      {[]Entry{NewWasher(at(1), strings.Repeat("p", 64), "w")}, []Entry{NewWasher(at(1), strings.Repeat("p", 65), "w")}, "at most 64"},
		"volume":    {[]Entry{volume(0.001, 0)}, []Entry{volume(-0.001, 0), volume(math.NaN(), 0)}, "want a positive volume"},
		"± volume":  {[]Entry{volume(2, 2)}, []Entry{volume(2, 2.001), volume(2, -1), volume(2, math.NaN())}, "want zero up to the volume itself"},
		"mass":      {[]Entry{drain(Amount{Mass: units.Gram.Of(1)})}, []Entry{drain(Amount{Mass: units.Gram.Of(-1)}), drain(Amount{Mass: units.Gram.Of(math.NaN())})}, "want a positive mass"},
		"mass and": {nil, []Entry{
			drain(Amount{Mass: units.Gram.Of(1), Vessel: "jug-a"}), drain(Amount{Mass: units.Gram.Of(1), Thermometer: "probe-1"}), drain(Amount{Mass: units.Gram.Of(1), PlusMinus: litres(1)}),
		}, "it needs none"},
		"vessel and ±":     {nil, []Entry{drain(Amount{Volume: litres(1), Temperature: units.Celsius(15), Vessel: "jug-a", PlusMinus: litres(0.1)})}, "whose own graduation is the doubt"},
		"volume and scale": {nil, []Entry{drain(Amount{Volume: litres(1), Temperature: units.Celsius(15), Scale: "scale-1"})}, "want a vessel"},
	} {
		for i, e := range tt.good {
			if err := e.check(); err != nil {
				t.Errorf("%s, good %d: %v", name, i+1, err)
			}
		}
		for i, e := range tt.bad {
			if err := e.check(); err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("%s, bad %d: %v; want %q", name, i+1, err, tt.want)
			}
		}
	}
}

// A kind that is none is answered with the kinds there are, in order.
func TestNoKindListsTheKinds(t *testing.T) {
	err := Entry{At: at(1), Kind: 99}.check()
	if err == nil || !strings.HasSuffix(err.Error(), "want one of: fill plug opened, drained, refilled, mixed, kept, spilled, washer fitted, plug torqued, window read, check plug observed, topped up, supplied, noted, struck, closed") {
		t.Errorf("%v", err)
	}
}

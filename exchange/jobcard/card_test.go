package jobcard

import (
	"testing"
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

func at(minute int) time.Time {
	return time.Date(2026, 11, 2, 8, 0, 0, 0, time.UTC).Add(time.Duration(minute) * time.Minute)
}

func litres(x float64) units.Volume { return units.Litre.Of(x) }

func mm(x float64) units.Length { return units.Millimetre.Of(x) }

// jug reads 2.1 L at 18 °C and the like.
func jug(x, celsius float64) Amount {
	return Amount{Volume: litres(x), Temperature: units.Celsius(celsius), Vessel: "jug-a", Thermometer: "probe-1"}
}

func mustThread(s string) sealing.Thread {
	t, err := sealing.ParseThread(s)
	if err != nil {
		panic(err)
	}
	return t
}

// ternSpec is the invented tern-6 of the Saltmarsh workshop.
func ternSpec() Spec {
	capacity, err := units.NewRange(litres(9.6), litres(10.4))
	if err != nil {
		panic(err)
	}
	usual, err := units.NewRange(litres(1.9), litres(2.3))
	if err != nil {
		panic(err)
	}
	return Spec{
		Job: "2026-118", Vehicle: "bus 7", Procedure: "tern-6",
		Capacity: capacity, Sump: litres(4.2), UsualDrain: usual,
		Fluid:  Fluid{Class: "S-2", Density15: 850},
		Window: thermal.Window{Low: units.Celsius(38), High: units.Celsius(48), EngineIdling: true, Level: true},
		Target: 0.55, OnHand: litres(8), Runs: 4, Overfill: litres(0.3),
		Plugs: []sealing.Plug{
			{ID: "fill", Role: sealing.Fill, Thread: mustThread("M18x1.5"), Torque: units.NewtonMetre.Of(32)},
			{ID: "drain", Role: sealing.Drain, Thread: mustThread("M16x1.5"), Torque: units.NewtonMetre.Of(24), Shoulder: mm(16), Collar: mm(21), Washer: "ring-16"},
			{ID: "check", Role: sealing.Check, Thread: mustThread("M10x1"), Torque: units.NewtonMetre.Of(11)},
		},
		Washers:      []sealing.Washer{{ID: "ring-16", Inner: mm(16.2), Outer: mm(20), Thickness: mm(1.5)}},
		Tools:        []sealing.Tool{{ID: "wrench-50", Low: units.NewtonMetre.Of(5), High: units.NewtonMetre.Of(50)}},
		Vessels:      []thermal.Vessel{{ID: "jug-a", Material: thermal.Polypropylene, Graduation: units.Millilitre.Of(50), ScaleError: 0.02, Capacity: litres(3)}},
		Thermometers: []Thermometer{{ID: "probe-1", PlusMinus: units.CelsiusDegree.Of(1), Step: units.CelsiusDegree.Of(0.1)}},
		Scales:       []Scale{{ID: "scale-1", PlusMinus: units.Gram.Of(5), Step: units.Gram.Of(1)}},
	}
}

// ternEntries is a whole job, well done.
func ternEntries() []Entry {
	nm := units.NewtonMetre.Of
	return []Entry{
		FillPlug(at(0), "fill"),
		DrainOf(at(10), jug(2.1, 18)), RefillOf(at(20), jug(2.1, 18)), GearRuns(at(30), 4),
		DrainOf(at(40), jug(2.2, 45)), RefillOf(at(50), jug(2.15, 20)), GearRuns(at(60), 4),
		DrainOf(at(70), jug(2.2, 45)), NewWasher(at(75), "drain", "ring-16"), TorqueSet(at(76), "drain", nm(24), "wrench-50"),
		RefillOf(at(80), jug(2.15, 20)), GearRuns(at(90), 4),
		ReadWindow(at(95), WindowReading{Temperature: units.Celsius(43), Thermometer: "probe-1", EngineIdling: true, Level: true}),
		Observe(at(96), "check", exchange.PlugTrickles), TorqueSet(at(97), "check", nm(11), "wrench-50"), TorqueSet(at(98), "fill", nm(32), "wrench-50"),
	}
}

func fill(t testing.TB, s Spec, entries ...Entry) *Card {
	t.Helper()
	card, err := Open(s)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if err := card.Append(e); err != nil {
			t.Fatal(err)
		}
	}
	return card
}

func TestAWholeJobCloses(t *testing.T) {
	card := fill(t, ternSpec(), ternEntries()...)
	if err := card.Append(Close(at(99))); err != nil {
		t.Fatal(err)
	}
}

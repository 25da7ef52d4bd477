package samebits

import (
	"bytes"
	"encoding/json"
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

func minute(n int) time.Time {
	return time.Date(2026, 11, 2, 8, n, 0, 0, time.UTC)
}

func sealings(s *sheet) {
	nm, mm := units.NewtonMetre.Of, units.Millimetre.Of
	set, err := sealing.Adapter{Wanted: nm(24), Lever: mm(300), Extension: mm(60), AngleDegrees: 45}.Setting()
	s.number("setting with an adapter at 45°, N·m", set.Set.In(units.NewtonMetre), err)
	low, high, err := sealing.Tool{ID: "wrench-50", Low: nm(5), High: nm(50), Tolerance: sealing.StandardTolerance(nm(50))}.Spread(nm(24))
	s.number("spread of the wrench at 24 N·m, low", low.In(units.NewtonMetre), err)
	s.number("spread of the wrench at 24 N·m, high", high.In(units.NewtonMetre), err)
	r := sealing.Fit(drainPlug(s), ring())
	s.number("land of the washer, mm", r.Land.In(units.Millimetre), nil)
	s.word("fit of the washer", r.Verdict)
}

func drainPlug(s *sheet) sealing.Plug {
	thread, err := sealing.ParseThread("M16x1.5")
	if err != nil {
		s.tb.Fatal(err)
	}
	return sealing.Plug{ID: "drain", Role: sealing.Drain, Thread: thread, Torque: units.NewtonMetre.Of(24), Shoulder: units.Millimetre.Of(16), Collar: units.Millimetre.Of(21), Washer: "ring-16"}
}

func ring() sealing.Washer {
	return sealing.Washer{ID: "ring-16", Inner: units.Millimetre.Of(16.2), Outer: units.Millimetre.Of(20), Thickness: units.Millimetre.Of(1.5)}
}

// finished is a job of two cycles, measured in one jug.
func finished(s *sheet) *jobcard.Card {
	plug, check := drainPlug(s), drainPlug(s)
	check.ID, check.Role, check.Torque, check.Washer = "check", sealing.Check, units.NewtonMetre.Of(11), ""
	fill := check
	fill.ID, fill.Role = "fill", sealing.Fill
	c, err := jobcard.Open(jobcard.Spec{
		Job: "2026-118", Vehicle: "bus 7", Procedure: "tern-6", Capacity: capacity(s), Sump: units.Litre.Of(4.2), UsualDrain: between(s, 1.9, 2.3),
		Fluid: jobcard.Fluid{Class: "S-2", Density15: 850}, CaseMetal: thermal.Aluminium,
		Window: thermal.Window{Low: units.Celsius(38), High: units.Celsius(48), EngineIdling: true, Level: true},
		Target: 0.65, OnHand: units.Litre.Of(5), Runs: 4, Plugs: []sealing.Plug{fill, plug, check}, Washers: []sealing.Washer{ring()},
		Tools:        []sealing.Tool{{ID: "wrench-50", Low: units.NewtonMetre.Of(5), High: units.NewtonMetre.Of(50)}},
		Vessels:      []thermal.Vessel{{ID: "jug-a", Material: thermal.Polypropylene, Graduation: units.Millilitre.Of(50), ScaleError: 0.02, Capacity: units.Litre.Of(3)}},
		Thermometers: []jobcard.Thermometer{{ID: "probe-1", PlusMinus: units.CelsiusDegree.Of(1), Step: units.CelsiusDegree.Of(0.1)}},
	})
	if err != nil {
		s.tb.Fatal(err)
	}
	jug := func(litres, celsius float64) jobcard.Amount {
		return jobcard.Amount{Volume: units.Litre.Of(litres), Temperature: units.Celsius(celsius), Vessel: "jug-a", Thermometer: "probe-1"}
	}
	nm := units.NewtonMetre.Of
	for _, e := range []jobcard.Entry{
		jobcard.FillPlug(minute(0), "fill"),
		jobcard.DrainOf(minute(5), jug(2.1, 18)), jobcard.RefillOf(minute(10), jug(2.1, 18)), jobcard.GearRuns(minute(15), 4),
		jobcard.DrainOf(minute(20), jug(2.2, 45)), jobcard.NewWasher(minute(22), "drain", "ring-16"), jobcard.TorqueSet(minute(23), "drain", nm(24), "wrench-50"),
		jobcard.RefillOf(minute(25), jug(2.15, 20)), jobcard.GearRuns(minute(30), 4),
		jobcard.ReadWindow(minute(35), jobcard.WindowReading{Temperature: units.Celsius(45), Thermometer: "probe-1", EngineIdling: true, Level: true}),
		jobcard.Observe(minute(36), "check", exchange.PlugTrickles), jobcard.TorqueSet(minute(37), "check", nm(11), "wrench-50"), jobcard.TorqueSet(minute(38), "fill", nm(11), "wrench-50"),
		jobcard.Close(minute(40)),
	} {
		if err := c.Append(e); err != nil {
			s.tb.Fatal(err)
		}
	}
	return c
}

func level(s *sheet) {
	check, err := finished(s).LevelCheck(exchange.CameInRight)
	if err != nil {
		s.tb.Fatal(err)
	}
	e, err := check.Expect()
	s.reading("expected to run, L", e.Runs.Reading(), err)
	s.reading("excess, L", e.Excess.Reading(), err)
	s.number("worth, K", e.Worth.In(units.CelsiusDegree), err)
	s.number("probability that fluid runs", e.Decision.Above, err)
}

func card(s *sheet) {
	c := finished(s)
	share, balance := c.OldShare(), c.Balance()
	s.number("old share", share.Estimate, nil)
	s.number("old share, low", share.Low, nil)
	s.number("old share, high", share.High, nil)
	s.number("old share, whatever the gears do", share.Most, nil)
	s.reading("balance, L", balance.Net.Reading(), nil)
	r, err := c.OldShareInterval()
	s.number("old share, 95 % from", r.Low, err)
	s.number("old share, 95 % to", r.High, err)
	s.litres("fluid left", c.FluidLeft(), nil)
	data, err := c.MarshalJSON()
	if err != nil {
		s.tb.Fatal(err)
	}
	var text bytes.Buffer
	if err := json.Indent(&text, data, "", "  "); err != nil {
		s.tb.Fatal(err)
	}
	s.line(text.String())
}

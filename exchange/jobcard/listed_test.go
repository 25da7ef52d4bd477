package jobcard

import (
	"fmt"
	"strings"
	"testing"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/units"
)

// One character off, and the answer is the list to choose from.
func TestAnUnknownNameIsAnsweredWithThoseThereAre(t *testing.T) {
	few := ternSpec()
	ten, eleven := few, few
	few.Vessels = append(few.Vessels, few.Vessels[0])
	few.Vessels[1].ID = "jug-c"
	for i := range 11 {
		if i < 10 {
			ten.Tools = append(ten.Tools[:i:i], sealing.Tool{ID: fmt.Sprintf("wrench-%d", i), High: units.NewtonMetre.Of(50)})
		}
		eleven.Tools = append(eleven.Tools[:i:i], sealing.Tool{ID: fmt.Sprintf("wrench-%d", i), High: units.NewtonMetre.Of(50)})
	}
	none := Spec{Job: "none", Capacity: volumes(8, 8)}
	with := func(edit func(*Amount)) Entry {
		a := jug(0.1, 20)
		edit(&a)
		return DrainOf(at(1), a)
	}
	weighed := DrainOf(at(1), Amount{Mass: units.Kilogram.Of(0.1), Scale: "scale-2"})
	read := ReadWindow(at(1), WindowReading{Temperature: units.Celsius(43), Thermometer: "probe-2"})
	opened := []Entry{FillPlug(at(0), "")}
	for _, tt := range []struct {
		spec Spec
		e    Entry
		want string
	}{
		{few, with(func(a *Amount) { a.Vessel = "jug-b" }), `vessel "jug-b" is not one of the job's; want one of jug-a, jug-c`},
		{few, with(func(a *Amount) { a.Thermometer = "probe-2" }), `thermometer "probe-2" is not one of the job's; want one of probe-1`},
		{few, weighed, `scale "scale-2" is not one of the job's; want one of scale-1`},
		{few, read, `thermometer "probe-2" is not one of the job's; want one of probe-1`},
		{few, NewWasher(at(1), "drain", "ring-18"), `washer "ring-18" is not one of the job's; want one of ring-16`},
		{few, NewWasher(at(1), "side", "ring-16"), `plug "side" is not one of the job's; want one of fill, drain, check`},
		{few, TorqueSet(at(1), "side", units.NewtonMetre.Of(24), ""), `plug "side" is not one of the job's; want one of fill, drain, check`},
		{ten, TorqueSet(at(1), "fill", units.NewtonMetre.Of(32), "wrench"), `tool "wrench" is not one of the job's; want one of wrench-0, wrench-1, wrench-2, wrench-3, wrench-4, wrench-5, wrench-6, wrench-7, wrench-8, wrench-9`},
		{eleven, TorqueSet(at(1), "fill", units.NewtonMetre.Of(32), "wrench"), "wrench-8, wrench-9 and 1 more"},
		{none, with(func(a *Amount) { a.Thermometer = "" }), `vessel "jug-a" is not one of the job's; want no vessel name: the job lists none`},
		{none, with(func(a *Amount) { a.Vessel = "" }), `want no thermometer name: the job lists none`},
		{none, weighed, `want no scale name: the job lists none`},
	} {
		accepts(t, tt.spec, opened, tt.e, tt.want)
		if err := fill(t, tt.spec, opened...).Append(tt.e); err != nil && !strings.HasSuffix(err.Error(), tt.want) {
			t.Errorf("%v; want it to end in %q", err, tt.want)
		}
	}
	card := fill(t, few, opened[0], DrainOf(at(1), jug(1, 20)))
	if _, err := card.PutBack(Pour{Temperature: units.Celsius(20), Vessel: "jug-b"}); err == nil || err.Error() != `jobcard: put back: vessel "jug-b" is not one of the job's; want one of jug-a, jug-c` {
		t.Errorf("put back: %v", err)
	}
	if _, err := card.Weighed("scale-2"); err == nil || err.Error() != `jobcard: weighed: scale "scale-2" is not one of the job's; want one of scale-1` {
		t.Errorf("weighed: %v", err)
	}
}

// A spec is answered in the same way; an id that is no id is not repeated.
func TestAPlugsUnknownWasherIsAnsweredWithThoseThereAre(t *testing.T) {
	if got := oneOf("washer", 1, func(int) string { return "" }); got != "one of the job's" {
		t.Errorf("%q", got)
	}
	s := ternSpec()
	s.Washers = append(s.Washers, sealing.Washer{ID: "no id\xff"})
	s.Plugs[1].Washer = "ring-61"
	const want = `plug "drain" takes washer "ring-61", which the job does not list; want one of ring-16 and 1 more`
	if err := s.Check(); err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("%v; want %q", err, want)
	}
}

package jobcard

import (
	"strings"
	"testing"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/units"
)

func tightened(nm, turns float64) Entry {
	return Entry{At: at(1), Kind: PlugTorqued, Plug: "p", Torque: units.NewtonMetre.Of(nm), Turns: turns}
}

// A taper plug agrees within half a turn, a torque within its own band, and a sheet
// that states nothing with anything.
func TestPlugAgrees(t *testing.T) {
	taper := sealing.Plug{ID: "p", Turns: 2}
	for turns, want := range map[float64]bool{1.49: false, 1.5: true, 2: true, 2.5: true, 2.51: false} {
		if got := plugAgrees(taper, tightened(0, turns)); got != want {
			t.Errorf("%v turns: %v", turns, got)
		}
	}
	if plug := (sealing.Plug{ID: "p", Torque: units.NewtonMetre.Of(24)}); !plugAgrees(plug, tightened(24, 0)) || plugAgrees(plug, tightened(30, 0)) {
		t.Error("a torque is judged wrongly")
	}
	if !plugAgrees(sealing.Plug{ID: "p"}, tightened(99, 0)) {
		t.Error("a sheet that states nothing disagrees")
	}
}

func TestNeedTightening(t *testing.T) {
	torque, taper, none := sealing.Plug{ID: "p", Torque: units.NewtonMetre.Of(24)}, sealing.Plug{ID: "p", Turns: 2}, sealing.Plug{ID: "p"}
	for name, tt := range map[string]struct {
		plug  sealing.Plug
		entry Entry
		want  string
	}{
		"torque, given":          {torque, tightened(24, 0), ""},
		"torque, turns given":    {torque, tightened(0, 2), "want the torque it was set to"},
		"taper, given":           {taper, tightened(0, 2), ""},
		"taper, torque given":    {taper, tightened(24, 0), "want the turns it was given"},
		"nothing stated, torque": {none, tightened(24, 0), ""},
		"nothing stated, turns":  {none, tightened(0, 2), ""},
		"nothing at all":         {none, tightened(0, 0), "neither torque nor turns"},
	} {
		err := needTightening(tt.plug, tt.entry)
		if tt.want == "" && err != nil || tt.want != "" && (err == nil || !strings.Contains(err.Error(), tt.want)) {
			t.Errorf("%s: %v; want %q", name, err, tt.want)
		}
	}
}

func TestPlugLines(t *testing.T) {
	torque, taper, none := sealing.Plug{ID: "p", Torque: units.NewtonMetre.Of(24), Washer: "w"}, sealing.Plug{ID: "p", Turns: 2}, sealing.Plug{ID: "p"}
	for _, tt := range []struct {
		plug sealing.Plug
		s    plugState
		want string
	}{
		{torque, plugState{}, "not opened"},
		{torque, plugState{opened: 3}, "opened by entry 3; NO washer yet; NOT tightened yet; it wants 24.0 N·m (17.7 lbf·ft)"},
		{torque, plugState{opened: 3, washer: "w", newRing: true}, "opened by entry 3; new washer w; NOT tightened yet; it wants 24.0 N·m (17.7 lbf·ft)"},
		{torque, plugState{opened: 3, washer: "w", torqued: true}, "opened by entry 3; used washer w; tightened, but not as the sheet says; it wants 24.0 N·m (17.7 lbf·ft)"},
		{torque, plugState{opened: 3, washer: "w", newRing: true, torqued: true, inSpread: true}, "opened by entry 3; new washer w; tightened as the sheet says, 24.0 N·m (17.7 lbf·ft)"},
		{taper, plugState{opened: 3}, "opened by entry 3; NOT tightened yet; it wants 2 turns past finger tight"},
		{taper, plugState{opened: 3, torqued: true, inSpread: true}, "opened by entry 3; tightened as the sheet says, 2 turns past finger tight"},
		{none, plugState{opened: 3}, "opened by entry 3; NOT tightened yet"},
		{none, plugState{opened: 3, torqued: true, inSpread: true}, "opened by entry 3; tightened; the sheet states no torque"},
	} {
		if got := plugLine(tt.plug, tt.s); got != tt.want {
			t.Errorf("got  %s\nwant %s", got, tt.want)
		}
	}
}

// A plug nobody opened may be set without a new washer; one that was opened may not.
func TestUnopenedPlugNeedsNoWasher(t *testing.T) {
	fill(t, ternSpec(), FillPlug(at(0), "fill"), TorqueSet(at(1), "drain", units.NewtonMetre.Of(24), "wrench-50"))
}

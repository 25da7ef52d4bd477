package sealing

import (
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units"
)

// Each limit is tried from both sides, one at a time, so that a limit that
// moves by one step shows.
func TestFitAtItsEdges(t *testing.T) {
	plug := Plug{ID: "drain", Thread: thread(t, "M16x1.5"), Shoulder: mm(15.9), Collar: mm(21), Seat: mm(20)}
	ring := Washer{ID: "ring", Inner: mm(16), Outer: mm(20)}
	for _, tt := range []struct {
		name    string
		edit    func(*Plug, *Washer)
		want    Verdict
		reasons int
	}{
		{"hole just as wide as the thread, ring just as wide as the seat", func(*Plug, *Washer) {}, Fits, 0},
		{"no seat measured", func(p *Plug, _ *Washer) { p.Seat = units.Length{} }, Fits, 0},
		{"no thread stated", func(p *Plug, _ *Washer) { p.Thread = Thread{} }, Fits, 0},
		{"hole not measured", func(_ *Plug, w *Washer) { w.Inner = units.Length{} }, CannotCheck, 1},
		{"ring's outside not measured", func(_ *Plug, w *Washer) { w.Outer = units.Length{} }, CannotCheck, 1},
		{"collar not measured", func(p *Plug, _ *Washer) { p.Collar = units.Length{} }, CannotCheck, 1},
		{"a hair over the seat", func(_ *Plug, w *Washer) { w.Outer = mm(20.000001) }, DoesNotFit, 1},
		{"a hair too tight for the thread", func(_ *Plug, w *Washer) { w.Inner = mm(15.999999) }, DoesNotFit, 1},
		{"collar inside the hole", func(p *Plug, w *Washer) { p.Collar = mm(15.95) }, DoesNotFit, 2},
		{"collar as wide as the hole", func(p *Plug, w *Washer) { p.Collar = mm(16) }, DoesNotFit, 1},
		{"two dimensions missing", func(p *Plug, w *Washer) { p.Shoulder, w.Inner = units.Length{}, units.Length{} }, CannotCheck, 2},
	} {
		p, w := plug, ring
		tt.edit(&p, &w)
		if got := Fit(p, w); got.Verdict != tt.want || len(got.Reasons) != tt.reasons {
			t.Errorf("%s: %v %v, want %v and %d reasons", tt.name, got.Verdict, got.Reasons, tt.want, tt.reasons)
		}
	}
	narrow := plug
	narrow.Collar = mm(19)
	if got := land(narrow, ring); got != mm(1.5) {
		t.Errorf("under a 19 mm collar the land is %v, want 1.5 mm", got)
	}
	narrow.Seat = mm(18)
	if got := land(narrow, ring); got != mm(1) {
		t.Errorf("on an 18 mm seat the land is %v, want 1 mm", got)
	}
	for _, w := range []Washer{{Inner: mm(16)}, {Outer: mm(20)}} {
		if got := land(plug, w); !got.IsZero() {
			t.Errorf("land %v of a ring half measured", got)
		}
	}
}

func TestPlugLimitsFromBothSides(t *testing.T) {
	nm := units.NewtonMetre.Of
	good := Plug{ID: "p", Thread: thread(t, "M16x1.5"), Torque: nm(24)}
	for _, tt := range []struct {
		name string
		edit func(*Plug)
		bad  string
	}{
		{"spread as large as the torque", func(p *Plug) { p.Spread = nm(24) }, ""},
		{"spread over the torque", func(p *Plug) { p.Spread = nm(24.1) }, "spread"},
		{"negative spread", func(p *Plug) { p.Spread = nm(-1) }, "spread"},
		{"spread out of range", func(p *Plug) { p.Spread = nm(math.Inf(1)) }, "spread"},
		{"20 turns", func(p *Plug) { p.Turns = 20 }, ""},
		{"over 20 turns", func(p *Plug) { p.Turns = 20.1 }, "turns"},
		{"turns backwards", func(p *Plug) { p.Turns = -0.1 }, "turns"},
		{"torque out of range", func(p *Plug) { p.Torque = nm(math.NaN()) }, "torque is"},
		{"square key as wide as the head", func(p *Plug) { p.Collar, p.Drive = mm(14), Drive{Kind: SquareSocket, Size: mm(9.9)} }, "does not go into"},
		{"square key that goes in", func(p *Plug) { p.Collar, p.Drive = mm(14), Drive{Kind: SquareSocket, Size: mm(9.8)} }, ""},
		{"hex head wider than the collar", func(p *Plug) { p.Collar, p.Drive = mm(14), Drive{Kind: HexHead, Size: mm(17)} }, ""},
		{"socket in a parallel thread without a collar measured", func(p *Plug) { p.Drive = Drive{Kind: HexSocket, Size: mm(14)} }, ""},
		{"socket wider than a taper plug", func(p *Plug) {
			p.Thread, p.Drive = exampleThread("M10x1 taper"), Drive{Kind: HexSocket, Size: mm(8)}
		}, "does not go into"},
		{"socket that a taper plug takes", func(p *Plug) {
			p.Thread, p.Drive = exampleThread("M10x1 taper"), Drive{Kind: HexSocket, Size: mm(7)}
		}, ""},
		{"pipe thread, whose root is not known", func(p *Plug) {
			p.Thread, p.Drive = exampleThread("1/8 NPT"), Drive{Kind: HexSocket, Size: mm(9)}
		}, ""},
		{"shoulder without a collar", func(p *Plug) { p.Shoulder = mm(16) }, ""},
		{"washer on a parallel thread", func(p *Plug) { p.Washer = "ring" }, ""},
	} {
		p := good
		tt.edit(&p)
		err := p.Check()
		if (err == nil) != (tt.bad == "") || err != nil && !strings.Contains(err.Error(), tt.bad) {
			t.Errorf("%s: %v, want %q", tt.name, err, tt.bad)
		}
	}
}

func TestDriveAndThreadLimits(t *testing.T) {
	for text, ok := range map[string]bool{
		"hexalobular T1": true, "hexalobular T100": true, "hexalobular T101": false, "hexalobular T0": false, "hexalobular T+5": false, "hexalobular T045": false,
		"hex socket 200 mm": true, "hex socket 200.1 mm": false, "hex socket 0 mm": false, "hex socket 0.1 mm": true,
	} {
		if d, err := ParseDrive(text); (err == nil) != ok {
			t.Errorf("%q: %v, %v", text, d, err)
		}
	}
	for n, want := range map[int]string{40: "unknown kind", 41: "too long"} {
		if _, err := ParseDrive(strings.Repeat("h", n)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%d letters: %v", n, err)
		}
	}
	for n, want := range map[int]string{24: "not a thread", 25: "longer than any"} {
		if _, err := ParseThread(strings.Repeat("h", n)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%d letters: %v", n, err)
		}
	}
	if got := (Drive{Kind: SquareSocket, Size: mm(10)}).AcrossCorners(); math.Abs(got.In(units.Millimetre)-14.142136) > 1e-6 {
		t.Errorf("a 10 mm square is %v at its corners", got)
	}
	if (Drive{Kind: 99, Size: mm(10)}).String() != "" || DriveKind(99).String() != "" {
		t.Error("an unknown kind has a name")
	}
	for text, ok := range map[string]bool{"M999.9x1": true, "M1000x1": false, "M0x1": false, "M1x0.5": false, "M2x0.5": true, "M6x1": true, "M6x3": false} {
		if th, err := ParseThread(text); (err == nil) != ok {
			t.Errorf("%q: %v, %v", text, th, err)
		}
	}
	if got := (Thread{system: PipeTaper60}).Minor(); !got.IsZero() {
		t.Errorf("root of a pipe thread: %v", got)
	}
}

func TestToolLimitsFromBothSides(t *testing.T) {
	nm := units.NewtonMetre.Of
	for name, tt := range map[string]struct {
		tool Tool
		ok   bool
	}{
		"from zero":           {Tool{ID: "a", High: nm(5)}, true},
		"low out of range":    {Tool{ID: "a", Low: nm(math.Inf(-1)), High: nm(5)}, false},
		"high out of range":   {Tool{ID: "a", High: nm(math.Inf(1))}, false},
		"below zero":          {Tool{ID: "a", Low: nm(-0.1), High: nm(5)}, false},
		"low just under high": {Tool{ID: "a", Low: nm(4.9), High: nm(5)}, true},
		"low as high":         {Tool{ID: "a", Low: nm(5), High: nm(5)}, false},
		"negative tolerance":  {Tool{ID: "a", High: nm(5), Tolerance: -0.01}, false},
		"tolerance under one": {Tool{ID: "a", High: nm(5), Tolerance: 0.99}, true},
	} {
		if err := tt.tool.Check(); (err == nil) != tt.ok {
			t.Errorf("%s: %v", name, err)
		}
	}
	wrench := Tool{ID: "a", Low: nm(2), High: nm(5), Tolerance: 0.1}
	for _, at := range []float64{2, 5} {
		if low, high, err := wrench.Spread(nm(at)); err != nil || low != nm(at*0.9) || high != nm(at*1.1) {
			t.Errorf("%v N·m: %v to %v, %v", at, low, high, err)
		}
	}
}

package sealing

import (
	"fmt"
	"testing"

	"example.com/meniscus/units"
)

func mm(x float64) units.Length { return units.Millimetre.Of(x) }

func thread(t *testing.T, s string) Thread {
	t.Helper()
	th, err := ParseThread(s)
	if err != nil {
		t.Fatal(err)
	}
	return th
}

func TestFitJudgesMeasuredGeometry(t *testing.T) {
	plug := Plug{ID: "drain", Thread: thread(t, "M16x1.5"), Shoulder: mm(16), Collar: mm(21), Seat: mm(24)}
	ring := Washer{ID: "ring", Inner: mm(16.2), Outer: mm(20), Thickness: mm(1.5)}
	for _, tt := range []struct {
		name string
		edit func(*Plug, *Washer)
		want Verdict
	}{
		{"right ring", func(*Plug, *Washer) {}, Fits},
		{"rides on the shoulder", func(p *Plug, _ *Washer) { p.Shoulder = mm(17) }, DoesNotFit},
		{"touches the shoulder", func(p *Plug, _ *Washer) { p.Shoulder = mm(16.2) }, DoesNotFit},
		{"does not pass the thread", func(_ *Plug, w *Washer) { w.Inner = mm(14.2) }, DoesNotFit},
		{"stands out past the collar", func(_ *Plug, w *Washer) { w.Outer = mm(22) }, DoesNotFit},
		{"overhangs the seat", func(p *Plug, _ *Washer) { p.Seat = mm(19) }, DoesNotFit},
		{"as wide as the collar", func(_ *Plug, w *Washer) { w.Outer = mm(21) }, Fits},
		{"shoulder not measured", func(p *Plug, _ *Washer) { p.Shoulder = units.Length{} }, CannotCheck},
		{"shoulder not measured, and too wide", func(p *Plug, w *Washer) { p.Shoulder = units.Length{}; w.Outer = mm(22) }, DoesNotFit},
		{"taper", func(p *Plug, _ *Washer) { p.Thread = thread(t, "M16x1.5 taper") }, DoesNotFit},
		{"nothing measured", func(p *Plug, w *Washer) { *p, *w = Plug{}, Washer{} }, CannotCheck},
	} {
		p, w := plug, ring
		tt.edit(&p, &w)
		got := Fit(p, w)
		if got.Verdict != tt.want || (len(got.Reasons) == 0) != (tt.want == Fits) {
			t.Errorf("%s: %v %v, want %v", tt.name, got.Verdict, got.Reasons, tt.want)
		}
	}
	if got := Fit(plug, ring).Land; got != mm(1.9) {
		t.Errorf("land = %v, want 1.9 mm", got)
	}
}

func ExampleFit() {
	thread, _ := ParseThread("M16x1.5")
	plug := Plug{ID: "drain", Thread: thread, Shoulder: mm(17), Collar: mm(21)}
	ring := Washer{ID: "ring-16", Inner: mm(16.2), Outer: mm(20)}
	fmt.Println(Fit(plug, ring).Reasons[0])
	// Output: the ring's hole of 16.2 mm rides on the shoulder of 17 mm
}

package sealing

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

// Every thread of the outside table parses, and its diameter, pitch and root
// diameter agree (ISO 261/262 pitches; root by the ISO 898-1 formula).
func TestThreadsAgainstTheOutsideTable(t *testing.T) {
	for _, row := range published.Load(t, "threads").Rows() {
		name := row.Text("thread")
		th, err := ParseThread(name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, c := range []struct {
			what      string
			got       units.Length
			want, tol float64
		}{
			{"diameter", th.Diameter(), row.Float("d_mm"), 0},
			{"pitch", th.Pitch(), row.Float("pitch_mm"), 0},
			{"root", th.Minor(), row.Float("d3_mm"), 0.0006},
		} {
			if math.Abs(c.got.In(units.Millimetre)-c.want) > c.tol {
				t.Errorf("%s: %s %v, table says %v", name, c.what, c.got, c.want)
			}
		}
		if !th.Listed() || th.Taper() || th.System() != Metric {
			t.Errorf("%s: listed %v, taper %v", name, th.Listed(), th.Taper())
		}
	}
}

func TestTaperAndPipeThreadsAgainstTheOutsideTable(t *testing.T) {
	for _, row := range published.Load(t, "threads_taper").Rows() {
		name := row.Text("thread")
		th, err := ParseThread(name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if want := strings.Contains(row.Text("taper"), "1:16"); th.Taper() != want {
			t.Errorf("%s: taper %v, table says %v", name, th.Taper(), want)
		}
		if math.Abs(th.Diameter().In(units.Millimetre)-row.Float("major_mm")) > 1e-9 {
			t.Errorf("%s: major diameter %v, table says %v", name, th.Diameter(), row.Float("major_mm"))
		}
		if math.Abs(th.Pitch().In(units.Millimetre)-row.Float("pitch_mm")) > 0.0006 {
			t.Errorf("%s: pitch %v, table says %v", name, th.Pitch(), row.Float("pitch_mm"))
		}
	}
}

func TestParseThreadRefuses(t *testing.T) {
	for _, tt := range []struct{ in, want string }{
		{"", "not a thread"}, {"16x1.5", "not a thread"}, {"M", "not a size"}, {"M16x", "not a size"},
		{"M16x1.25", "ISO 261 has no pitch 1.25 for M16; want 2, 1.5, 1"},
		{"M12x2", "ISO 261 has no pitch"}, {"M26", "no coarse pitch"}, {"M11", "no coarse pitch"},
		{"M8x4", "no thread"}, {"Mx1", "not a size"}, {"M-8x1", "not a size"}, {"M1e3x1", "not a size"}, {"MNaN", "not a size"},
		{"5/8 NPT", "no such pipe size"}, {"1/8-28 NPT", "27 threads per inch"}, {"R9", "no such pipe size"}, {"G", "no such pipe size"},
		{"M16 X 1,5", "a comma; want a point before decimals, such as M16x1.5"}, {"M16x1,5", "a comma; want a point"}, {"M16,0", "a comma; want a point"},
		{"M16 1.5", "not a size"}, {"M16  x 1.5", "not a size"}, {"M16 x  1.5", "not a size"}, {"M  16", "not a size"}, {"M16\tx1.5", "not a size"},
		{"M1 6x1.5", "not a size"}, {"M16 x 1. 5", "not a size"}, {"M16 x", "not a size"}, {"M x 1.5", "not a size"}, {"M16 x x1.5", "not a size"},
		{"M16x1.5taper", "not a size"}, {"M16 x 1.25", "ISO 261 has no pitch 1.25 for M16; want 2, 1.5, 1"}, {"M 11", "no coarse pitch known for M11"},
		{strings.Repeat("M", 100), "longer than any"},
	} {
		if th, err := ParseThread(tt.in); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%q: %v, %v; want %q", tt.in, th, err, tt.want)
		}
	}
}

func TestThreadTextRoundTrips(t *testing.T) {
	for _, s := range []string{"M16x1.5", "M10x1 taper", "1/8 NPT", "R1/4", "G3/8", "M39x1.5", ""} {
		var th, back Thread
		if err := th.UnmarshalText([]byte(s)); err != nil {
			t.Fatal(err)
		}
		text, err := th.MarshalText()
		if err != nil || string(text) != s {
			t.Errorf("%q writes as %q, %v", s, text, err)
		}
		if err := back.UnmarshalText(text); err != nil || back != th {
			t.Errorf("%q reads back as %v", s, back)
		}
	}
	for _, same := range [][2]string{{"M10x1 keg", "M10x1 taper"}, {"M16", "M16x2"}, {"M16X1.5", "M16×1.5"}, {"1/8-27 NPT", "1/8 NPT"}, {"R 1/8", "R1/8"},
		{"M16 x 1.5", "M16x1.5"}, {"M 16x1.5", "M16x1.5"}, {"M16 X 1.5", "M16x1.5"}, {"M 16 × 1.5", "M16x1.5"}, {"M16x 1.5", "M16x1.5"}, {"M16 x1.5", "M16x1.5"},
		{" M16 x 1.5 ", "M16x1.5"}, {"M 16", "M16x2"}, {"M10 x 1 taper", "M10x1 taper"}} {
		if thread(t, same[0]) != thread(t, same[1]) {
			t.Errorf("%q and %q differ", same[0], same[1])
		}
	}
}

func FuzzParseThread(f *testing.F) {
	for _, s := range []string{"M16x1.5", "M10x1 taper", "1/8-27 NPT", "R1/8", "G1/4", "M99999999x0.1", "M 16 x 1.5", "M16 X 1,5", "M10 x 1 keg"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		th, err := ParseThread(s)
		if err != nil {
			return
		}
		if back, err := ParseThread(th.String()); err != nil || back != th {
			t.Fatalf("%q is %v, which reads back as %v, %v", s, th, back, err)
		}
		if th.Pitch().Sign() <= 0 || th.Diameter().Sign() <= 0 {
			t.Fatalf("%q has no size", s)
		}
	})
}

func ExampleParseThread() {
	th, _ := ParseThread("M16")
	fmt.Println(th)
	_, err := ParseThread("M16x1.25")
	fmt.Println(err)
	// Output:
	// M16x2
	// sealing: thread "M16x1.25": ISO 261 has no pitch 1.25 for M16; want 2, 1.5, 1
}

func exampleThread(s string) Thread {
	th, err := ParseThread(s)
	if err != nil {
		fmt.Println(err)
	}
	return th
}

func ExampleThread_System() {
	fmt.Println(exampleThread("1/8 NPT").System() == PipeTaper60)
	// Output: true
}

func ExampleThread_Diameter() {
	fmt.Println(exampleThread("M16x1.5").Diameter())
	// Output: 16 mm
}

func ExampleThread_Pitch() {
	fmt.Println(exampleThread("M16x1.5").Pitch())
	// Output: 1.5 mm
}

func ExampleThread_Taper() {
	fmt.Println(exampleThread("M10x1 taper").Taper(), exampleThread("M10x1").Taper())
	// Output: true false
}

func ExampleThread_IsZero() {
	fmt.Println(Thread{}.IsZero())
	// Output: true
}

func ExampleThread_Listed() {
	fmt.Println(exampleThread("M16x1.5").Listed(), exampleThread("M39x1.5").Listed())
	// Output: true false
}

// 16 - 1.226869 × 1.5 = 14.1596965.
func ExampleThread_Minor() {
	fmt.Println(exampleThread("M16x1.5").Minor().Text(units.Millimetre, 3))
	// Output: 14.160 mm
}

func ExampleThread_String() {
	fmt.Println(exampleThread("R 1/8"))
	// Output: R1/8
}

func ExampleThread_MarshalText() {
	text, _ := exampleThread("M16x1.5").MarshalText()
	fmt.Println(string(text))
	// Output: M16x1.5
}

func ExampleThread_UnmarshalText() {
	var th Thread
	fmt.Println(th.UnmarshalText([]byte("M18x1.5")), th)
	// Output: <nil> M18x1.5
}

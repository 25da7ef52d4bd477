package sealing

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

func TestPlugCheckReportsEveryFault(t *testing.T) {
	p := Plug{
		Thread: thread(t, "M10x1 taper"), Drive: Drive{Kind: HexSocket, Size: mm(9)}, Torque: units.NewtonMetre.Of(-3),
		Spread: units.NewtonMetre.Of(5), Turns: math.NaN(), Shoulder: mm(-1), Collar: units.Millimetre.Of(math.Inf(1)), Washer: "ring",
	}
	err := p.Check()
	if err == nil {
		t.Fatal("accepted")
	}
	for _, want := range []string{"no id", "torque is", "spread is", "turns is NaN", "shoulder is", "collar is out of range", "takes no washer", "does not go into M10x1 taper"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q is missing from %v", want, err)
		}
	}
	good := Plug{ID: "drain", Role: Drain, Thread: thread(t, "M16x1.5"), Drive: Drive{Kind: HexSocket, Size: mm(8)}, Torque: units.NewtonMetre.Of(24), Shoulder: mm(16), Collar: mm(21), Washer: "ring"}
	if err := good.Check(); err != nil {
		t.Error(err)
	}
	good.Shoulder = mm(21)
	if err := good.Check(); err == nil {
		t.Error("a shoulder as wide as the collar was accepted")
	}
	good.Shoulder, good.Drive.Size = mm(16), mm(19)
	if err := good.Check(); err == nil {
		t.Error("a 19 mm key, 21.9 mm at its corners, went into a 21 mm head")
	}
}

// Every key of the outside table of plugs goes into its own plug: the check may
// not refuse what is made (DIN 908 and DIN 906 rows are from memory).
func TestRealPlugsPassTheKeyCheck(t *testing.T) {
	n := 0
	for _, row := range published.Load(t, "plugs").Rows() {
		if row.Text("drive_type") != "hex_socket" || !row.Has("key_mm") {
			continue
		}
		th, err := ParseThread(row.Text("thread"))
		if err != nil {
			t.Errorf("%s: %v", row.Text("thread"), err)
			continue
		}
		p := Plug{ID: "p", Thread: th, Drive: Drive{Kind: HexSocket, Size: mm(row.Float("key_mm"))}}
		if row.Has("collar_dia_mm") {
			p.Collar = mm(row.Float("collar_dia_mm"))
		}
		if err := p.Check(); err != nil {
			t.Errorf("%s %s: %v", row.Text("standard"), th, err)
		}
		n++
	}
	if n < 20 {
		t.Errorf("%d plugs checked; want at least 20", n)
	}
}

func TestWasherCheck(t *testing.T) {
	if err := (Washer{ID: "ring", Inner: mm(16.2), Outer: mm(20)}).Check(); err != nil {
		t.Error(err)
	}
	for _, bad := range []Washer{{}, {ID: "r", Inner: mm(20), Outer: mm(20)}, {ID: "r", Thickness: mm(-1)}, {ID: "r", Inner: units.Millimetre.Of(math.NaN())}} {
		if bad.Check() == nil {
			t.Errorf("%+v accepted", bad)
		}
	}
}

func TestDriveTextRoundTrips(t *testing.T) {
	for _, s := range []string{"hex socket 8 mm", "hex head 17 mm", "hexalobular T45", "square socket 9.525 mm", ""} {
		var d Drive
		if err := d.UnmarshalText([]byte(s)); err != nil {
			t.Fatal(err)
		}
		if text, err := d.MarshalText(); err != nil || string(text) != s {
			t.Errorf("%q writes as %q, %v", s, text, err)
		}
	}
	for _, bad := range []string{"hex", "hex socket", "hex socket 8", "hex socket -8 mm", "hexalobular 45", "hexalobular T0", "hexalobular T101", "hex socket 8 N·m", "slot", strings.Repeat("h", 50)} {
		if d, err := ParseDrive(bad); err == nil {
			t.Errorf("%q is %v", bad, d)
		}
	}
	if got := (Drive{Kind: Hexalobular, Number: 45}).AcrossCorners(); !got.IsZero() {
		t.Errorf("a numbered drive is %v wide", got)
	}
}

func TestRoleText(t *testing.T) {
	for r := NoRole; r <= Check; r++ {
		text, _ := r.MarshalText()
		var back Role
		if err := back.UnmarshalText(text); err != nil || back != r {
			t.Errorf("%v reads back as %v, %v", r, back, err)
		}
	}
	var r Role
	if r.UnmarshalText([]byte("sump")) == nil {
		t.Error("sump is no role")
	}
}

func ExamplePlug_Check() {
	fmt.Println(Plug{ID: "drain", Thread: exampleThread("M10x1 taper"), Washer: "ring-10"}.Check())
	// Output: sealing: plug "drain": M10x1 taper seals on its taper and takes no washer; drop washer "ring-10"
}

func ExampleWasher_Check() {
	fmt.Println(Washer{ID: "ring", Inner: mm(20), Outer: mm(16)}.Check())
	// Output: sealing: washer "ring": inner diameter 20 mm is not smaller than outer diameter 16 mm
}

func ExampleParseDrive() {
	d, _ := ParseDrive("hex socket 8 mm")
	fmt.Println(d.Kind, d.Size)
	// Output: hex socket 8 mm
}

// 8 × 2/√3 = 9.2376.
func ExampleDrive_AcrossCorners() {
	fmt.Println(Drive{Kind: HexSocket, Size: mm(8)}.AcrossCorners().Text(units.Millimetre, 4))
	// Output: 9.2376 mm
}

func ExampleDrive_IsZero() {
	fmt.Println(Drive{}.IsZero())
	// Output: true
}

func ExampleDrive_String() {
	fmt.Println(Drive{Kind: Hexalobular, Number: 45})
	// Output: hexalobular T45
}

func ExampleDrive_MarshalText() {
	text, _ := Drive{Kind: HexHead, Size: mm(17)}.MarshalText()
	fmt.Println(string(text))
	// Output: hex head 17 mm
}

func ExampleDrive_UnmarshalText() {
	var d Drive
	fmt.Println(d.UnmarshalText([]byte("hex head 17 mm")), d)
	// Output: <nil> hex head 17 mm
}

func ExampleDriveKind_String() {
	fmt.Println(SquareSocket)
	// Output: square socket
}

func ExampleRole_String() {
	fmt.Println(Check)
	// Output: check
}

func ExampleRole_MarshalText() {
	text, _ := Fill.MarshalText()
	fmt.Println(string(text))
	// Output: fill
}

func ExampleRole_UnmarshalText() {
	var r Role
	fmt.Println(r.UnmarshalText([]byte("drain")), r)
	// Output: <nil> drain
}

func ExampleVerdict_String() {
	fmt.Println(Verdict(0), "/", DoesNotFit)
	// Output: cannot check / does not fit
}

func ExampleVerdict_MarshalText() {
	text, _ := Fits.MarshalText()
	fmt.Println(string(text))
	// Output: fits
}

func FuzzParseDrive(f *testing.F) {
	for _, s := range []string{"hex socket 8 mm", "hex head 19 mm", "square socket 3/8 in", "hexalobular 45", "hex socket 0 mm", "square socket 9.525 mm"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := ParseDrive(s)
		if err != nil {
			if len(err.Error()) > 400 {
				t.Fatalf("%d bytes of error", len(err.Error()))
			}
			return
		}
		if back, err := ParseDrive(d.String()); err != nil || back != d {
			t.Fatalf("%q is %v, which reads back as %v, %v", s, d, back, err)
		}
	})
}

// What ParseDrive and UnmarshalText cannot give is refused, by the plug's Check and in
// writing: it would be read back as another plug, or not at all.
func TestDrivesAndRolesThatCannotBeRead(t *testing.T) {
	for _, tt := range []struct {
		drive Drive
		want  string
	}{
		{Drive{}, ""},
		{Drive{Kind: HexSocket, Size: mm(8)}, ""},
		{Drive{Kind: HexHead, Size: mm(200)}, ""},
		{Drive{Kind: Hexalobular, Number: 1}, ""},
		{Drive{Kind: Hexalobular, Number: 100}, ""},
		{Drive{Kind: HexSocket, Number: -3}, "hex socket drive has size 0 mm and number -3; want its size across flats alone"},
		{Drive{Kind: HexSocket, Size: mm(8), Number: 1}, "size 8 mm and number 1"},
		{Drive{Kind: SquareSocket}, "square socket drive has size 0 mm; want its size"},
		{Drive{Kind: HexHead, Size: mm(200.001)}, "above zero and at most 200 mm"},
		{Drive{Kind: HexHead, Size: mm(-8)}, "hex head drive has size -8 mm"},
		{Drive{Kind: HexHead, Size: mm(math.NaN())}, "hex head drive has size out of range"},
		{Drive{Kind: Hexalobular}, "want its number alone, T1 to T100"},
		{Drive{Kind: Hexalobular, Number: 101}, "want its number alone, T1 to T100"},
		{Drive{Kind: Hexalobular, Number: 45, Size: mm(8)}, "size 8 mm and number 45; want its number alone"},
		{Drive{Number: 8}, "size 0 mm and number 8 and no kind"},
		{Drive{Size: mm(8)}, "size 8 mm and no kind"},
		{Drive{Kind: 255, Number: 3}, "drive kind 255 is not one of the package's constants"},
	} {
		_, write := tt.drive.MarshalText()
		for _, err := range []error{write, Plug{ID: "drain", Drive: tt.drive}.Check()} {
			if tt.want == "" && err != nil || tt.want != "" && (err == nil || !strings.Contains(err.Error(), tt.want)) {
				t.Errorf("%+v: %v; want %q", tt.drive, err, tt.want)
			}
		}
	}
	for role := NoRole; role <= Check+1; role++ {
		_, write := role.MarshalText()
		for _, err := range []error{write, Plug{ID: "drain", Role: role}.Check()} {
			if (err != nil) != (role > Check) {
				t.Errorf("role %d: %v", role, err)
			}
		}
	}
}

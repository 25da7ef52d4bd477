package units

import (
	"errors"
	"strings"
	"testing"
)

// Corners of the grammar of numbers, each from both sides.
func TestNumberCorners(t *testing.T) {
	l := Litre.Of
	for _, c := range []struct {
		in   string
		want Volume
	}{
		{".5 L", l(0.5)}, {"-.5 L", l(-0.5)}, {"0.000000000000000001e18 L", l(1)}, {"1e-18 L", Volume{}}, {"1,000 mL", l(1)},
		{"100,000 mL", l(100)}, {"1,234,567.5 mL", l(1234.5675)}, {"999,999,999,999.5 mL", Volume{}.outside()}, {"1e18 mL", Volume{}.outside()},
		{"0.999999999999999999 L", l(1)}, {"99999.999999999999999999e-1 L", l(9999.9999999999999)},
	} {
		got, err := ParseVolume(c.in)
		if !c.want.Valid() {
			if err == nil {
				t.Errorf("%q is read as %s; want it out of range", c.in, got)
			}
			continue
		}
		if err != nil || got != c.want {
			t.Errorf("%q is read as %s, %v; want %s", c.in, got, err, c.want)
		}
	}
	for in, want := range map[string]string{
		". L": "no digit after the decimal point", "/2 L": "does not start with a number", "1e L": "no digit in the exponent", "1e19 L": "outside -18 to 18", "1e-19 L": "outside -18 to 18", "1e001 L": "outside -18 to 18",
		"0,500 L": "ambiguous", "1234,567 L": "ambiguous", ",500 L": "", "12,34 L": "ambiguous", "1,234,567,890,123,456,789 L": "more than 18 digits", "1234567890123456789 L": "more than 18 digits", "1.1234567890123456789 L": "more than 18 digits",
		"2.5L x": "", "abcdefgh 5 L": "does not start with a number",
	} {
		if v, err := ParseVolume(in); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q is read as %s, %v; want %q", in, v, err, want)
		}
	}
}

func (q Quantity[D]) outside() Quantity[D] { return invalid[D]() }

func TestRangeCorners(t *testing.T) {
	of := func(low, high float64) Range[VolumeDim] {
		r, err := NewRange(Litre.Of(low), Litre.Of(high))
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	for in, want := range map[string]Range[VolumeDim]{
		"1-2 L": of(1, 2), "1 - 2 L": of(1, 2), "1 L-2 L": of(1, 2), "1-.5e1 L": of(1, 5), "1..2 L": of(1, 2), "1–2 L": of(1, 2), "1 to 2 L": of(1, 2), "1 L to 2 L": of(1, 2),
		"½-1½ L": {}, "1-½ L": {}, "½-¾ L": of(0.5, 0.75), "1e-1 to 2 L": of(0.1, 2), "1E-1..2 L": of(0.1, 2), "1-9 L": of(1, 9), "0-2 L": of(0, 2), "-2 to -1 L": of(-2, -1), "1 to 1 L": of(1, 1),
	} {
		got, err := ParseRange[VolumeDim](in)
		if want.IsZero() {
			if err == nil {
				t.Logf("%q is read as %s", in, got)
			}
			continue
		}
		if err != nil || got != want {
			t.Errorf("%q is read as %s, %v; want %s", in, got, err, want)
		}
	}
	for _, in := range []string{"1to 2 L", "1 to2 L", "1 to", "to 2 L", "1-+2 L", "1--2 L", "1...2 L", "2 to 1 L", "- L", "1- L"} {
		if got, err := ParseRange[VolumeDim](in); err == nil {
			t.Errorf("%q is read as %s", in, got)
		}
	}
	long := "1 to 2 L" + strings.Repeat(" ", 56)
	if got, err := ParseRange[VolumeDim](long); err != nil || got != of(1, 2) {
		t.Errorf("64 bytes: %s, %v", got, err)
	}
	if _, err := ParseRange[VolumeDim](long + " "); err == nil || !strings.Contains(err.Error(), "longer than 64 bytes") {
		t.Errorf("65 bytes: %v", err)
	}
	// A torque's unit may itself hold a hyphen.
	if r, err := ParseRange[TorqueDim]("18-22 lb-ft"); err != nil || r.Low() != PoundForceFoot.Of(18) || r.High() != PoundForceFoot.Of(22) {
		t.Errorf("%s, %v", r, err)
	}
}

// A range with one end out of range is no range.
func TestHalfARangeIsNone(t *testing.T) {
	bad := invalid[VolumeDim]()
	for _, ends := range [][2]Volume{{bad, Litre.Of(1)}, {Litre.Of(1), bad}, {bad, bad}} {
		if _, err := NewRange(ends[0], ends[1]); err == nil {
			t.Errorf("%v is taken", ends)
		}
		r := Range[VolumeDim]{ends[0], ends[1]}
		if r.Valid() || r.Mid().Valid() || r.Contains(Litre.Of(1)) {
			t.Errorf("%v is valid", ends)
		}
	}
	r, _ := NewRange(Litre.Of(0), Litre.Of(1))
	if r.IsZero() || !r.Valid() || r.Contains(bad) || !r.Contains(Litre.Of(0)) || !r.Contains(Litre.Of(1)) || r.Contains(Litre.Of(1.001)) || r.Contains(Litre.Of(-0.001)) {
		t.Error("0 to 1 L is misjudged")
	}
	r, _ = NewRange(Litre.Of(-1), Litre.Of(0))
	if r.IsZero() {
		t.Error("-1 to 0 L counts as zero")
	}
}

// An error names the word at fault, not the whole text.
func TestParseErrorNamesTheWord(t *testing.T) {
	for in, want := range map[string]string{
		"abc def 5 L": "abc", "1e99 mL x": "1e99", "2.x L": "2.x", "12,34 L": "12,34", "1234567890123456789 L": "1234567890123456789", "2 furlongs": "furlongs",
	} {
		_, err := ParseVolume(in)
		var p *ParseError
		if !errors.As(err, &p) || p.Token != want {
			t.Errorf("%q: %v; want the word %q", in, err, want)
		}
	}
	// Eighteen digits in groups are read, and found to be out of range; nineteen are not.
	for in, want := range map[string]string{"123,456,789,012,345,678 mL": "range", "1,123,456,789,012,345,678 mL": "more than 18 digits"} {
		if _, err := ParseVolume(in); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v; want %q", in, err, want)
		}
	}
	// Spaces of every accepted kind about a product and at the ends.
	for _, in := range []string{"5 lbf ft", "5 lbf · ft", "5 lbf·ft\u00a0", "5\u2009lbf\u00a0ft \u202f", "5 lbf-ft", "5 lbf - ft"} {
		if v, err := ParseTorque(in); err != nil || v != PoundForceFoot.Of(5) {
			t.Errorf("%q is read as %s, %v", in, v, err)
		}
	}
}

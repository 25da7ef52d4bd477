package sheet

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

func TestFaultForm(t *testing.T) {
	f := Fault{File: "bad.toml", Line: 19, Col: 11, Key: "plug.drain.torque", Code: "pack-unit", Problem: `unknown unit "nM"`, Do: `write "N·m" (capitals matter)`}
	if got, want := f.Error(), "bad.toml:19:11: plug.drain.torque: unknown unit \"nM\"\n    write \"N·m\" (capitals matter)"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	f.Severity, f.Key, f.Do, f.Line = Warning, "", "", 0
	if got, want := f.Error(), `bad.toml: warning: unknown unit "nM"`; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if Error.String() != "error" || Warning.String() != "warning" || Severity(7).String() != "error" {
		t.Error("severities are misnamed")
	}
}

func TestEcho(t *testing.T) {
	for text, want := range map[string]string{
		"24 N·m":                      `"24 N·m"`,
		`3/8" square`:                 "`3/8\" square`",
		"a\x1b[31m":                   `"a\x1b[31m"`,
		"\u202eabc\u200b":             `"\u202eabc\u200b"`,
		`quote " and tick ` + "`":     `"quote \" and tick ` + "`\"",
		"\"\u202e":                    `"\"\u202e"`,
		"\"\xff":                      `"\"\xff"`,
		"":                            `""`,
		strings.Repeat("\x80", 41):    `""…`, // no character begins anywhere
		strings.Repeat("x", 40):       `"` + strings.Repeat("x", 40) + `"`,
		strings.Repeat("x", 41):       `"` + strings.Repeat("x", 40) + `"…`,
		strings.Repeat("x", 39) + "ä": `"` + strings.Repeat("x", 39) + `"…`, // not half a character
	} {
		if got := Echo(text); got != want {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
	}
}

// TestNothingOfTheFileReachesTheTerminal: whatever a caller puts into a fault comes out on its two lines, printable.
func TestNothingOfTheFileReachesTheTerminal(t *testing.T) {
	hostile := "\x1ba\x1b[2J\r\n\u202eb\xff\ufffd\u200b\tc" + strings.Repeat("z", 1000)
	d := new(Doc)
	d.Add(Fault{File: hostile, Key: hostile, Problem: hostile, Do: hostile})
	message := d.Faults().Error()
	for _, r := range strings.Replace(message, "\n    ", "", 1) {
		if forbidden(r) != allowed || r == '\n' || r == '\t' {
			t.Errorf("U+%04X in %q", r, message)
		}
	}
	if len(message) > 5*lineBytes {
		t.Errorf("message of %d bytes", len(message))
	}
	if !strings.Contains(message, `\x1ba\x1b[2J\r\n\u202eb\xff\ufffd\u200b\tc`) {
		t.Errorf("%q", message)
	}
}

func TestFaultsSortAndJoin(t *testing.T) {
	d := &Doc{name: "b.toml"}
	d.Add(Fault{Line: 3, Col: 1, Code: "c"})
	d.Add(Fault{Line: 2, Col: 9, Code: "b", Severity: Warning})
	d.Add(Fault{Line: 2, Col: 9, Code: "b"})
	d.Add(Fault{Line: 2, Col: 9, Code: "a"})
	d.Add(Fault{Line: 2, Col: 1, Code: "z"})
	d.Add(Fault{File: "a.toml", Line: 9, Col: 9, Code: "other file"})
	d.Add(Fault{Line: -1, Col: 7, Code: "no place"})
	d.Add(Fault{Line: 0, Col: 7, Code: "no place yet"})
	var got []string
	joined := Join(d.Faults(), Faults{All: []Fault{{File: "a.toml", Line: 1, Code: "first"}}, More: 2}, Faults{More: 3})
	for _, f := range joined.All {
		got = append(got, fmt.Sprintf("%s:%d:%d %s", f.File, f.Line, f.Col, f.Code))
	}
	want := "a.toml:1:0 first, a.toml:9:9 other file, b.toml:1:1 no place, b.toml:1:1 no place yet, b.toml:2:1 z, b.toml:2:9 a, b.toml:2:9 b, b.toml:2:9 b, b.toml:3:1 c"
	if strings.Join(got, ", ") != want || joined.All[7].Severity != Warning || joined.More != 5 || joined.Errors() != 8 {
		t.Errorf("%s, more %d, errors %d", strings.Join(got, ", "), joined.More, joined.Errors())
	}
}

func TestFaultsAreBounded(t *testing.T) {
	d := new(Doc)
	for i := range 5000 {
		d.Add(Fault{Line: 5000 - i, Severity: Warning})
	}
	if all := d.Faults(); len(all.All) != MaxFaults || all.More != 5000-MaxFaults {
		t.Errorf("%d and %d more", len(all.All), all.More)
	} else if !strings.HasSuffix(all.Error(), "\nand 4800 more") {
		t.Errorf("%s", all.Error()[len(all.Error())-40:])
	}
	if len(d.faults) != maxStored {
		t.Errorf("%d kept", len(d.faults))
	}
	if d.Err() != nil {
		t.Error("warnings are no error")
	}
	mixed := new(Doc)
	for i := range 300 {
		mixed.Add(Fault{Line: 1 + i, Severity: Warning})
	}
	mixed.Add(Fault{Line: 400})
	if all := mixed.Faults(); all.Errors() != 1 || len(all.All) != MaxFaults || all.All[0].Line != 1 || all.All[MaxFaults-1].Line != 400 || all.More != 101 {
		t.Errorf("%d errors, %d shown, last line %d", all.Errors(), len(all.All), all.All[len(all.All)-1].Line)
	}
	d.Add(Fault{Line: 1}) // beyond what is kept, and an error all the same
	if d.Err() == nil {
		t.Error("an error beyond the kept ones is lost")
	}
}

func TestErrorsAs(t *testing.T) {
	d := new(Doc)
	d.Add(Fault{Line: 2, Code: "b"})
	d.Add(Fault{Line: 1, Code: "a"})
	err := fmt.Errorf("loading: %w", d.Err())
	var all Faults
	var one Fault
	if !errors.As(err, &all) || len(all.All) != 2 || !errors.As(err, &one) || one.Code != "a" {
		t.Errorf("%v, %v", all, one)
	}
	if errors.Is(err, ErrTooLarge) {
		t.Error("faults are not ErrTooLarge")
	}
}

func TestFaultsAreCopies(t *testing.T) {
	d := new(Doc)
	d.Add(Fault{Line: 1, Code: "a"})
	d.Faults().All[0].Code = "changed"
	if d.Faults().All[0].Code != "a" {
		t.Error("a caller can change recorded faults")
	}
}

package jobfile_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/refdata/jobfile"
	"example.com/meniscus/units"
)

func fillOf(t *testing.T, text string) []string {
	t.Helper()
	f, err := read(head + text)
	if err != nil {
		t.Fatal(err)
	}
	card, err := jobcard.Open(jobcard.Spec{
		Job: "2026-118", Capacity: units.Exactly(units.Litre.Of(10)),
		Plugs:   []sealing.Plug{{ID: "fill", Role: sealing.Fill}, {ID: "drain", Role: sealing.Drain, Washer: "ring-16"}},
		Washers: []sealing.Washer{{ID: "ring-16", Inner: units.Millimetre.Of(16.2), Outer: units.Millimetre.Of(20), Thickness: units.Millimetre.Of(1.5)}},
	})
	if err != nil {
		t.Fatal(err)
	}
	if err = f.Fill(card); err == nil {
		t.Fatal("nothing was refused")
	}
	return strings.Split(err.Error(), "\n")
}

const opened = `[entry.10]
at = "2026-11-02 08:00"
kind = "fill plug opened"
plug = "%"
[entry.20]
at = "2026-11-02 08:10"
kind = "drained"
volume = "2 L"
temperature = "20 °C"
`

// A fault that may only follow from an earlier one says so; the first one does not.
func TestFillTellsWhatMayFollow(t *testing.T) {
	lines := fillOf(t, strings.Replace(opened, "%", "filler", 1))
	if len(lines) != 4 || !strings.Contains(lines[0], `entry.10: plug "filler"`) || strings.Contains(lines[1], "follow") ||
		!strings.Contains(lines[2], "entry.20: the fill plug is not known to open") || !strings.HasSuffix(lines[3], "but first entry.10: this may only follow from it") {
		t.Errorf("%s", strings.Join(lines, "\n"))
	}
}

// The card counts its entries, the file numbers its tables: both are told. A strike goes
// by the card's count.
func TestFillNamesTheTableOfAnEntry(t *testing.T) {
	lines := fillOf(t, strings.Replace(opened, "%", "fill", 1)+`[entry.30]
at = "2026-11-02 08:20"
kind = "plug torqued"
plug = "drain"
torque = "24 N·m"
`)
	if !slices.ContainsFunc(lines, func(l string) bool { return strings.Contains(l, "opened by entry 2 ([entry.20])") }) {
		t.Errorf("%s", strings.Join(lines, "\n"))
	}
	lines = fillOf(t, strings.Replace(opened, "%", "fill", 1)+`[entry.30]
at = "2026-11-02 08:20"
kind = "struck"
entry = "20"
text = "a slip"
`)
	if len(lines) != 2 || !strings.Contains(lines[0], "entry 20 is not on the card") || !strings.Contains(lines[1], "by its place on the card, counted from 1") {
		t.Errorf("%s", strings.Join(lines, "\n"))
	}
}

// A fault the caller finds stands at its key, at its table, or at the head of the file.
func TestFaultStandsAtItsPlace(t *testing.T) {
	for key, want := range map[string]string{
		"procedure": "job.toml:3:", "plan": "job.toml:4:", "box": "job.toml:1:1: no",
	} {
		f, err := jobfile.Read("job.toml", strings.NewReader(head+"[plan]\ntarget = \"55 %\"\n"))
		if err != nil {
			t.Fatal(err)
		}
		f.Fault(key, "no good", "change it")
		if err := f.Err(); err == nil || !strings.HasPrefix(err.Error(), want) || strings.Count(err.Error(), "\n") != 1 {
			t.Errorf("%s: %v", key, err)
		}
	}
}

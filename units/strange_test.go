package units

import (
	"strings"
	"testing"
)

// Every character that hides well is named, from the first of its kind to the last,
// and its neighbours are not taken for it.
func TestStrangersAreNamed(t *testing.T) {
	for _, c := range []struct {
		first, last rune
		name        string
	}{
		{0x00, 0x1F, "control character"}, {0x7F, 0x7F, "control character"},
		{0xFF10, 0xFF19, "full-width digit"},
		{0x061C, 0x061C, "writing-direction mark"}, {0x200E, 0x200F, "writing-direction mark"},
		{0x202A, 0x202E, "writing-direction mark"}, {0x2066, 0x2069, "writing-direction mark"},
		{0x00AD, 0x00AD, "zero-width character"}, {0x200B, 0x200D, "zero-width character"},
		{0x2060, 0x2060, "zero-width character"}, {0xFEFF, 0xFEFF, "zero-width character"},
		{0x00BA, 0x00BA, "look-alike of the degree sign"}, {0x02DA, 0x02DA, "look-alike of the degree sign"},
	} {
		for r := c.first; r <= c.last; r++ {
			_, err := ParseVolume("2" + string(r) + " L")
			if err == nil || !strings.Contains(err.Error(), c.name) {
				t.Errorf("%U: %v; want it called a %s", r, err, c.name)
			}
		}
		for _, r := range []rune{c.first - 1, c.last + 1} {
			if r > 0x1F && r != 0x7F && strangeName(r) != "" && strangeName(r) == strangeName(c.first) {
				t.Errorf("%U is taken for a %s", r, c.name)
			}
		}
	}
	// In a text of 64 bytes the stranger is still looked for; past that it is too long.
	text := "2 L" + strings.Repeat(" ", 60) + "\t"
	if _, err := ParseVolume(text); err == nil || !strings.Contains(err.Error(), "control character") {
		t.Errorf("64 bytes: %v", err)
	}
	if _, err := ParseVolume(text + "\t"); err == nil || !strings.Contains(err.Error(), "longer than 64 bytes") {
		t.Errorf("65 bytes: %v", err)
	}
}

// An error repeats at most 40 bytes, cut between characters.
func TestClipCutsBetweenCharacters(t *testing.T) {
	for in, want := range map[string]string{
		strings.Repeat("x", 40):           strings.Repeat("x", 40),
		strings.Repeat("x", 41):           strings.Repeat("x", 37) + "…",
		strings.Repeat("é", 21):           strings.Repeat("é", 18) + "…",
		strings.Repeat("€", 14):           strings.Repeat("€", 12) + "…",
		strings.Repeat("\x80", 41):        "…",
		"x" + strings.Repeat("\x80", 41):  "…",
		strings.Repeat("x", 36) + "€€€€€": strings.Repeat("x", 36) + "…",
	} {
		if got := clip(in); got != want {
			t.Errorf("%q is cut to %q; want %q", in, got, want)
		}
	}
}

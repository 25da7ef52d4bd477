package sheet

import (
	"strings"
	"testing"
)

// slowDistance is the recursive definition.
func slowDistance(a, b string) int {
	if a == "" || b == "" {
		return len(a) + len(b)
	}
	cost := 1
	if a[len(a)-1] == b[len(b)-1] {
		cost = 0
	}
	n := min(slowDistance(a[:len(a)-1], b)+1, slowDistance(a, b[:len(b)-1])+1, slowDistance(a[:len(a)-1], b[:len(b)-1])+cost)
	if len(a) > 1 && len(b) > 1 && a[len(a)-1] == b[len(b)-2] && a[len(a)-2] == b[len(b)-1] {
		n = min(n, slowDistance(a[:len(a)-2], b[:len(b)-2])+1)
	}
	return n
}

func TestDistanceAgainstItsDefinition(t *testing.T) {
	var all []string
	for _, a := range "abc" {
		for _, b := range "abc" {
			for _, c := range "abc" {
				all = append(all, string([]rune{a, b, c}), string([]rune{a, c}), string(b), string([]rune{c, a, b, a}))
			}
		}
	}
	all = append(all, "")
	for _, a := range all {
		for _, b := range all {
			got, want := distance(a, b), slowDistance(a, b)
			if got != want || got != distance(b, a) {
				t.Fatalf("%q, %q: %d, want %d", a, b, got, want)
			}
		}
	}
}

func TestNearest(t *testing.T) {
	names := []string{"drain", "drive", "torque", "id", "say", strings.Repeat("x", MaxKey+1), strings.Repeat("y", MaxKey)}
	for word, want := range map[string]string{
		"drian": "drain", "drai": "drain", "torqe": "torque", "toruqee": "torque", "dr": "", "ie": "", "sax": "say", "sox": "",
		"": "", "i": "", strings.Repeat("x", MaxKey+1): "", strings.Repeat("x", MaxKey): "",
		strings.Repeat("y", MaxKey+1): "", strings.Repeat("y", MaxKey): names[6], strings.Repeat("y", MaxKey-1): names[6],
		strings.Repeat("y", MaxKey-3): "", "DRAIN": "",
		"draine": "drain", "driven": "drive", "draive": "drive",
	} {
		if got := nearest(word, names); got != want {
			t.Errorf("%q: %q, want %q", word, got, want)
		}
	}
}

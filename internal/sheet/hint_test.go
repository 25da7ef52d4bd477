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
		strings.Repeat("y", MaxKey-3): names[6], "zzz" + strings.Repeat("y", MaxKey-3): "", "DRAIN": "",
		"draine": "drain", "driven": "drive", "draive": "drive",
	} {
		if got := nearest(word, names); got != want {
			t.Errorf("%q: %q, want %q", word, got, want)
		}
	}
}

// A name that is no slip of the hand may still begin like a known one or share a word with it.
func TestNearestOfAkinNames(t *testing.T) {
	for _, tt := range []struct{ word, want string }{
		{"entries", "entry"}, {"film_each", "film_each_time"}, {"film", "film_each_time"}, {"max_cycles", "most_cycles"}, {"cycles", "most_cycles"},
		{"kept", "kept_once"}, {"time_kept_each", "kept_each_time"}, {"on_hand_now", "on_hand"}, {"s2", "s-2"}, {"s_2", "s-2"}, {"-s-2-", "s-2"},
		{"onhand", "on_hand"}, {"fi", ""}, {"enter", "entry"}, {"hand", "on_hand"}, {"ens", ""}, {"at_on_it", ""}, {"-", ""}, {"s22", "s-2"}, {"s", ""},
		{"plug opened", "fill plug opened"}, {"keptsake", ""}, {strings.Repeat("film_", 13), ""},
	} {
		names := []string{"kept_each_time", "kept_once", "film_each_time", "most_cycles", "on_hand", "entry", "s-2", "at", strings.Repeat("film_", 13), "plug torqued", "fill plug opened"}
		if got := nearest(tt.word, names); got != tt.want {
			t.Errorf("%q: %q, want %q", tt.word, got, tt.want)
		}
	}
}

func TestHint(t *testing.T) {
	if got := (Value{text: "drain"}).Hint("write one", "refilled", "drained"); got != "did you mean drained? If not, write one" {
		t.Error(got)
	}
	if got := (Value{text: "wash"}).Hint("write one", "refilled", "drained"); got != "write one" {
		t.Error(got)
	}
}

// s-1 for s-2 is no slip: of ids only the separators may be taken for one.
func TestRespelt(t *testing.T) {
	for word, want := range map[string]string{"s2": "did you mean s-2? If not, add it", "s-3": "add it", "": "add it", "s-22": "add it"} {
		if got := (Value{text: word}).Respelt("add it", "s-1", "s-2"); got != want {
			t.Errorf("%q: %q, want %q", word, got, want)
		}
	}
}

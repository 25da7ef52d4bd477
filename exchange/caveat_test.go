package exchange

import "testing"

func TestCaveatWords(t *testing.T) {
	seen := map[string]bool{}
	for c := Caveat(1); c <= SimulatedInterval; c++ {
		name, err := c.MarshalText()
		if err != nil || seen[string(name)] || string(name) == "none" || c.Sentence() == "" {
			t.Errorf("caveat %d: %q, %q, %v", c, name, c.Sentence(), err)
		}
		seen[string(name)] = true
	}
	for _, c := range []Caveat{0, SimulatedInterval + 1, 255} {
		if _, err := c.MarshalText(); err == nil || c.String() != "none" || c.Sentence() != "" {
			t.Errorf("caveat %d passes for one", c)
		}
	}
}

func TestOutcomeWords(t *testing.T) {
	want := []string{"undecided", "met whatever the mixing", "met if mixed", "not met"}
	for i, w := range want {
		text, err := Outcome(i).MarshalText()
		if err != nil || string(text) != w {
			t.Errorf("outcome %d: %q, %v; want %q", i, text, err, w)
		}
	}
	if _, err := Outcome(9).MarshalText(); err == nil || Outcome(9).String() != "undecided" {
		t.Error("outcome 9 passes for one")
	}
	if got := (Proposal{}).Advice(); got != "Nothing is planned." {
		t.Errorf("zero proposal: %q", got)
	}
	if got := outcomeCycles(1); got != "1 cycle" {
		t.Errorf("%q", got)
	}
}

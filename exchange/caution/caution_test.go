package caution

import (
	"fmt"
	"strings"
	"testing"

	"example.com/meniscus/units"
)

func ids(cs []Caution) string {
	var out []string
	for _, c := range cs {
		out = append(out, c.ID)
	}
	return strings.Join(out, " ")
}

func TestEveryCautionIsComplete(t *testing.T) {
	marks := map[string]bool{"seen": true, "seen second-hand": true, "from memory": true, "common practice": true, "judgement": true}
	seen := map[string]bool{}
	for _, c := range All() {
		if c.ID == "" || c.Hazard == "" || c.When == "" || c.Text == "" || c.DeferTo == "" || c.Source == "" {
			t.Errorf("%s: a field is empty: %+v", c.ID, c)
		}
		if !marks[c.Mark] {
			t.Errorf("%s: mark %q is not one of ours", c.ID, c.Mark)
		}
		if seen[c.ID] {
			t.Errorf("%s: twice", c.ID)
		}
		seen[c.ID] = true
		if got, ok := Lookup(c.ID); !ok || got != c {
			t.Errorf("Lookup(%q) = %v, %v", c.ID, got, ok)
		}
	}
	if len(seen) < 12 {
		t.Errorf("%d cautions; the table has lost some", len(seen))
	}
}

func TestForFollowsTheSituation(t *testing.T) {
	for _, tt := range []struct {
		name     string
		in       Situation
		has, not []string
	}{
		{"nothing going on", Situation{}, nil, []string{"hot-fluid", "raised-vehicle", "rolling"}},
		{"cold drain", Situation{Raised: true, Draining: true, Fluid: units.Celsius(15)},
			[]string{"raised-vehicle", "fill-plug-first", "eyes", "used-oil-storage"}, []string{"hot-fluid", "running-engine"}},
		{"unknown temperature counts as hot", Situation{Draining: true}, []string{"hot-fluid", "hot-metal"}, nil},
		{"out of range counts as hot", Situation{Draining: true, Fluid: units.Celsius(-400)}, []string{"hot-fluid"}, nil},
		{"just below the limit", Situation{Draining: true, Fluid: units.Celsius(48.9)}, nil, []string{"hot-fluid"}},
		{"at the limit, 120.2 °F", Situation{Draining: true, Fluid: units.Celsius(49)}, []string{"hot-fluid"}, nil},
		{"level check inside a usual window", Situation{Raised: true, EngineRunning: true, LevelCheck: true, Fluid: units.Celsius(41)},
			[]string{"running-engine", "window-is-not-touch", "hot-metal"}, []string{"hot-fluid", "fill-plug-first"}},
		{"refill", Situation{Filling: true, Fluid: units.Celsius(20)}, []string{"wrong-fluid"}, []string{"eyes"}},
		{"spill", Situation{Spilled: true}, []string{"spill"}, []string{"skin"}},
	} {
		got := " " + ids(For(tt.in)) + " "
		for _, id := range tt.has {
			if !strings.Contains(got, " "+id+" ") {
				t.Errorf("%s: %q is missing from%s", tt.name, id, got)
			}
		}
		for _, id := range tt.not {
			if strings.Contains(got, " "+id+" ") {
				t.Errorf("%s: %q does not belong in%s", tt.name, id, got)
			}
		}
	}
}

func TestAllIsTheCallersOwn(t *testing.T) {
	All()[0].ID = "changed"
	if All()[0].ID == "changed" {
		t.Error("a caller changed the table")
	}
}

func TestEveryCautionCanApply(t *testing.T) {
	everything := Situation{true, true, true, true, true, true, true, units.Celsius(60)}
	if got, want := ids(For(everything)), ids(All()); got != want {
		t.Errorf("with everything going on: %s\nwant all: %s", got, want)
	}
}

func ExampleFor() {
	for _, c := range For(Situation{Filling: true, Fluid: units.Celsius(20)}) {
		fmt.Println(c.ID)
	}
	// Output:
	// rolling
	// wrong-fluid
	// fire
}

func ExampleAll() {
	fmt.Println(All()[0].Hazard)
	// Output: vehicle falling
}

func ExampleLookup() {
	c, ok := Lookup("eyes")
	fmt.Println(ok, c.Text)
	// Output: true wear eye protection
}

func ExampleCaution_String() {
	c, _ := Lookup("eyes")
	fmt.Println(c)
	// Output: fluid in the eyes: wear eye protection (the safety data sheet)
}

func ExampleBareMetalLimit() {
	fmt.Println(BareMetalLimit().Text(units.FahrenheitScale, 0))
	// Output: 120 °F
}

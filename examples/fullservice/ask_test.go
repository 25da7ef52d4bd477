package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// asking runs the by-hand job with questions added and returns the answers.
func asking(t *testing.T, questions string) map[string]answer {
	t.Helper()
	return askingOf(t, "", "", questions)
}

// askingOf does so with one text of the job replaced.
func askingOf(t *testing.T, old, new, questions string) map[string]answer {
	t.Helper()
	b, err := os.ReadFile("testdata/by-hand.toml")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(path, []byte(strings.Replace(string(b), old, new, 1)+questions), 0o600); err != nil {
		t.Fatal(err)
	}
	code, out, stderr := call("-job", path, "-json")
	if code != 0 {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	var got struct {
		Answers []answer `json:"answers"`
	}
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		t.Fatal(err)
	}
	byName := map[string]answer{}
	for _, a := range got.Answers {
		byName[a.Asked] = a
	}
	return byName
}

// By hand, on the 12 L box with 3 L drains (r = 1/4):
// interval: L(1-r)/r = 90 000 km after, L/r = 120 000 km before, L(1/r - 1/2) = 105 000 km;
// bottles: 6 L less 0.25 and 0.3 is one full drain and one of 2.45 L: 0.75·(1 - 2.45/12) = 59.7 %;
// flush, mixed: three drains and 12 L: 27/64·e^-1 = 15.5 %;
// samples: 3 L at 100 % and 3 L at 75 %: 1 - (3 + 2.25)/12 = 56.25 %;
// markers: 100, 75, 56.25 fall by 3/4 a drain: 12 L;
// tilt: 0.4 × 0.3 m² · 0.1 m · tan 1° = 209 mL (EXCHANGE: 0.22 US qt);
// adapter: 24·250/(250+60) = 19.4 N·m.
func TestAnswersByHand(t *testing.T) {
	got := asking(t, `
[ask.interval]
every = "30000 km"
drains = "1"
[ask.bottles]
bottle = "1 L"
count = "6"
[ask.flush]
volume = "12 L"
flow = "mixed"
[ask.samples.1]
volume = "3 L"
old_share = "100 %"
[ask.samples.2]
volume = "3 L"
old_share = "75 %"
[ask.markers.1]
reading = "100"
volume = "3 L"
[ask.markers.2]
reading = "75"
volume = "3 L"
[ask.markers.3]
reading = "56.25"
volume = "3 L"
[ask.tilt]
length = "400 mm"
width = "300 mm"
hole = "100 mm"
degrees = "1"
[ask.adapter]
plug = "drain"
lever = "250 mm"
extension = "60 mm"
`)
	for asked, want := range map[string]string{
		"interval": "mean age 90000 km just after and 120000 km just before a service, 105000 km on average",
		"bottles":  "1 full drain and one of 2.45 L",
		"flush":    "leave 15.5 % old fluid",
		"samples":  "56.2 % of the fluid is old",
		"markers":  "12.00 L",
		"tilt":     "209 mL (0.22 US qt)",
		"adapter":  "19.4 N·m",
	} {
		if a, ok := got[asked]; !ok || a.Refused || !strings.Contains(a.Answer, want) {
			t.Errorf("%s: %+v; by hand %q", asked, a, want)
		}
	}
}

func TestAnAnswerThatCannotBeGivenSaysWhy(t *testing.T) {
	got := asking(t, `
[ask.infrared]
reading = "30 °C"
reflected = "15 °C"
emissivity = "0.1"
set = "0.95"
reflection_subtracted = "yes"
[ask.warm_up]
plateau_low = "80 °C"
[ask.warm_up.reading.1]
after = "0s"
temperature = "20 °C"
[ask.markers.1]
reading = "10"
volume = "3 L"
[ask.markers.2]
reading = "10"
volume = "3 L"
[ask.adapter]
plug = "side"
lever = "250 mm"
extension = "60 mm"
[ask.put_back]
temperature = "20 °C"
vessel = "bucket"
`)
	for asked, want := range map[string]string{
		"infrared": "tape", "warm_up": "reading", "markers": "", "adapter": "; want one of fill, drain, check", "put_back": "bucket",
	} {
		if a, ok := got[asked]; !ok || !a.Refused || !strings.Contains(a.Answer, want) {
			t.Errorf("%s: %+v; want it refused, with %q", asked, a, want)
		}
		for _, name := range []string{"exchange: ", "thermal: ", "jobcard: ", "measure: "} {
			if strings.Contains(got[asked].Answer, name) {
				t.Errorf("%s names a package: %s", asked, got[asked].Answer)
			}
		}
	}
}

func TestWorkingIsPrintedOnRequest(t *testing.T) {
	code, out, stderr := call("-job", "testdata/by-hand.toml", "-working")
	if code != 0 {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	for _, want := range []string{"WORKING: plan", "WORKING: what to buy", "WORKING: balance", "0.7500 × (1 - 3.000 L / 12.000 L) = 0.5625", "8900 mL - 9000 mL = -100 mL"} {
		if !strings.Contains(out, want) {
			t.Errorf("%q is missing from the working", want)
		}
	}
}

// Six drains of 3 L out of 12 L leave 0.75⁶ = 18 % in a box that mixes, and with a
// sump not known 75 % for sure: enough for a refresh to 45 %, not for a change of class.
func TestChangeOfClassIsPlannedByTheBound(t *testing.T) {
	for _, tt := range []struct{ purpose, outcome, text, fluid string }{
		{"refresh", `"outcome": "met if mixed"`, "at most 45 % old fluid.", "\nFLUID\n"},
		{"change of class", `"met": false`, "at most 45 % old fluid whatever the gears do, since the class of fluid is changed.", "\nFLUID for all 12 cycles, which do not meet what was agreed\n"},
	} {
		path := edited(t, `target = "45 %"`, `target = "45 %"`+"\npurpose = \""+tt.purpose+"\"")
		code, out, stderr := call("-job", path, "-json")
		if code != 0 || !strings.Contains(out, tt.outcome) || !strings.Contains(out, `"purpose": "`+tt.purpose+`"`) {
			t.Errorf("%s: exit %d %s; want %s", tt.purpose, code, stderr, tt.outcome)
		}
		if code, out, stderr = call("-job", path); code != 0 || !strings.Contains(out, tt.text) || !strings.Contains(out, tt.fluid) {
			t.Errorf("%s: exit %d %s\n%s", tt.purpose, code, stderr, out)
		}
	}
}

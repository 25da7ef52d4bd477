package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/refdata/jobfile"
	"example.com/meniscus/units"
)

func TestNumbersAsTheyAreSpoken(t *testing.T) {
	for x, want := range map[float64]string{0.55: "55 %", 0.527: "52.7 %", 0.0055: "0.55 %", 1: "100 %", 0.333333333: "33.3333 %"} {
		if got := agreed(x); got != want {
			t.Errorf("%v agreed is printed %q; want %q", x, got, want)
		}
	}
	for turns, want := range map[float64]string{1: "1 turn past finger tight", 2: "2 turns past finger tight", 1.5: "1.5 turns past finger tight", 21: "21 turns past finger tight"} {
		if got := pastFinger(turns); got != want {
			t.Errorf("%q; want %q", got, want)
		}
	}
	for ml, want := range map[float64]string{3.4: "3 mL (0.1 US fl oz) high", -49.5: "50 mL (1.7 US fl oz) low", 0: "not off"} {
		if got := offBy(units.Millilitre.Of(ml)); got != want {
			t.Errorf("%v mL off is printed %q; want %q", ml, got, want)
		}
	}
}

// The agreed share is printed as it was agreed, in the plan and in the record.
func TestAgreedShareIsNotRounded(t *testing.T) {
	job, err := demo.ReadFile("demo/job.toml")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(path, bytes.Replace(job, []byte(`"55 %"`), []byte(`"52.7 %"`), 1), 0o600); err != nil {
		t.Fatal(err)
	}
	code, out, stderr := call("-job", path)
	if code != 0 || strings.Count(out, "at most 52.7 % old fluid") != 2 {
		t.Errorf("exit %d, %s\n%s", code, stderr, out)
	}
}

// Columns stand under each other whatever the plugs are called; one cycle is one.
func TestColumnsAndPlurals(t *testing.T) {
	var b bytes.Buffer
	printTorque(&b, result{Torque: []setting{{Plug: "fill", Turns: 1}, {Plug: "check-cold", Torque: units.NewtonMetre.Of(13)}}})
	if got := b.String(); got != "\nPLUGS\n  fill       1 turn past finger tight\n  check-cold 13.0 N·m (9.6 lbf·ft)\n" {
		t.Errorf("%s", got)
	}
	b.Reset()
	printBuy(&b, result{Plan: planResult{Cycles: 1}})
	if got := b.String(); !strings.Contains(got, "FLUID for 1 cycle, which does not meet what was agreed") {
		t.Errorf("%s", got)
	}
}

// What hose and pump take goes on top of what is owed: once more until the card says
// that they kept something, and each time.
func TestPutBackCountsWhatTheHoseTakes(t *testing.T) {
	ml := units.Millilitre.Of
	s, err := load("", "", false)
	if err != nil {
		t.Fatal(err)
	}
	s.file.Losses = exchange.Losses{KeptOnce: ml(250), KeptEachTime: ml(50), FilmEachTime: ml(10)}
	if got := s.besides(); got != ml(60) {
		t.Errorf("after something was kept: %s besides; want 60 mL", got)
	}
	if s.card, err = jobcard.Open(s.spec()); err != nil {
		t.Fatal(err)
	}
	entries := []jobcard.Entry{jobcard.FillPlug(time.Time{}.AddDate(2026, 0, 0), "fill"), jobcard.DrainOf(time.Time{}.AddDate(2026, 0, 1), jobcard.Amount{Volume: units.Litre.Of(2.1), Temperature: units.Celsius(20)})}
	for _, e := range entries {
		if err := s.card.Append(e); err != nil {
			t.Fatal(err)
		}
	}
	s.file.Ask.PutBack = &jobfile.PutBack{Temperature: units.Celsius(20)}
	text, _, err := s.putBack()
	if want := "fill to 2.41 L (2.55 US qt) at 20 °C, of which 0.31 L (0.33 US qt) goes to hose, pump and film; at the last refill 0.30 L (0.32 US qt) more, over for the level check"; err != nil || text != want {
		t.Errorf("%q, %v; want %q", text, err, want)
	}
}

// Where the doubt is next to nothing its parts are not told.
func TestDoubtOfNextToNothingHasNoParts(t *testing.T) {
	for ml, parts := range map[float64]bool{0.4: false, 40: true} {
		var b bytes.Buffer
		printDoubt(&b, result{Balance: balanceResult{
			Sentence: "net", PlusMinus: units.Millilitre.Of(ml), Advice: "weigh", Contributors: []jobcard.Contributor{{Name: "jug-a", Share: 1}},
		}})
		if got := b.String(); strings.Contains(got, "jug-a") != parts || !strings.Contains(got, "net") {
			t.Errorf("± %v mL: %s", ml, got)
		}
	}
}

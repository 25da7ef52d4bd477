package jobcard

import (
	"fmt"
	"math"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
)

// accepts appends to a job that went so far and says whether the entry was taken.
func accepts(t *testing.T, s Spec, before []Entry, e Entry, refused string) {
	t.Helper()
	err := fill(t, s, before...).Append(e)
	if refused == "" && err != nil {
		t.Errorf("%s: %v; want it taken", e.Summary(), err)
	}
	if refused != "" && (err == nil || !strings.Contains(err.Error(), refused)) {
		t.Errorf("%s: %v; want it refused with %q", e.Summary(), err, refused)
	}
}

// The last amount that makes sense and the first that does not, in a box of 8 L.
func TestAmountLimits(t *testing.T) {
	s := Spec{Job: "limits", Capacity: volumes(8, 8), Fluid: Fluid{Expansion: 7e-4}}
	proved := []Entry{FillPlug(at(0), "")}
	drained := append(proved[:1:1], DrainOf(at(1), plain(2)))
	half := append(drained[:2:2], RefillOf(at(2), plain(1)))
	back := append(drained[:2:2], RefillOf(at(2), plain(2)))
	accepts(t, s, half, GearRuns(at(3), 1), "")
	accepts(t, s, append(drained[:2:2], RefillOf(at(2), plain(0.999))), GearRuns(at(3), 1), "short of what was drained")
	accepts(t, s, proved, KeptBack(at(3), plain(4)), "")
	accepts(t, s, proved, KeptBack(at(3), plain(4.001)), "at most half of the box, 4.000 L")
	accepts(t, s, back, Spill(at(3), plain(2), FromRefill), "")
	accepts(t, s, back, Spill(at(3), plain(2.001), FromRefill), "only")
	accepts(t, s, back, Spill(at(3), plain(9), FromBox), "spill")
	accepts(t, s, back, RefillOf(at(3), plain(0.8)), "")
	accepts(t, s, back, RefillOf(at(3), plain(0.801)), "above its level")
	accepts(t, s, back, TopUp(at(3), plain(3.2)), "")
	accepts(t, s, back, TopUp(at(3), plain(3.201)), "above its level")
}

func TestUnknownPlugIsAnsweredWithThePlugsThereAre(t *testing.T) {
	accepts(t, ternSpec(), []Entry{FillPlug(at(0), "")}, NewWasher(at(1), "side", "ring-16"), "want one of fill, drain, check")
	s := ternSpec()
	s.Plugs = nil
	accepts(t, s, []Entry{FillPlug(at(0), "")}, NewWasher(at(1), "side", "ring-16"), "want no plug name: the job lists none")
}

// A strike may take out any entry before it, itself not.
func TestStrikeLimits(t *testing.T) {
	before := []Entry{FillPlug(at(0), ""), Note(at(1), "a")}
	accepts(t, ternSpec(), before, Strike(at(2), 2, "slip"), "")
	accepts(t, ternSpec(), before, Strike(at(2), 3, "slip"), "want 1 to 2")
	accepts(t, ternSpec(), append(before[:2:2], Note(at(2), "b"), DrainOf(at(3), plain(2))), Strike(at(4), 1, "slip"), "without entry 1 the rest does not stand: jobcard: entry 4 (drained)")
	card := fill(t, ternSpec(), append(before[:2:2], Strike(at(2), 2, "slip"), Note(at(3), "c"))...)
	for n, want := range map[int]bool{-1: false, 0: false, 1: false, 2: true, 3: false, 4: false, 5: false} {
		if got := card.IsStruck(n); got != want {
			t.Errorf("entry %d struck: %v", n, got)
		}
	}
	// Numbers go on counting over what was struck.
	if f := fill(t, ternSpec(), append(before[:2:2], Strike(at(2), 2, "slip"), DrainOf(at(3), jug(1, 18)), RefillOf(at(4), jug(1, 18)))...).Findings(); len(f) != 1 || f[0].Entry != 5 {
		t.Errorf("findings %+v; want one of entry 5", f)
	}
}

// A card takes 1000 entries, by appending and by decoding.
func TestACardIsFullAt1000(t *testing.T) {
	card := fill(t, Spec{Job: "full", Capacity: volumes(8, 8)})
	for range 1000 {
		if err := card.Append(Note(at(0), "x")); err != nil {
			t.Fatal(err)
		}
	}
	if err := card.Append(Note(at(0), "x")); err == nil || !strings.Contains(err.Error(), "want at most 1000 entries") {
		t.Errorf("%v", err)
	}
	text, err := card.MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Decode(text); err != nil {
		t.Errorf("1000 entries: %v", err)
	}
	if _, err := Decode([]byte(strings.Replace(string(text), `"entries":[`, `"entries":[{"at":"2026-11-02T08:00:00Z","kind":"noted","text":"x"},`, 1))); err == nil || !strings.Contains(err.Error(), "1001 entries; want at most 1000") {
		t.Errorf("1001 entries: %v", err)
	}
	padded := append(text, []byte(strings.Repeat(" ", mostBytes-len(text)))...)
	if _, err := Decode(padded); err != nil {
		t.Errorf("4 MiB: %v", err)
	}
	if _, err := Decode(append(padded, ' ')); err == nil || !strings.Contains(err.Error(), "want at most 4194304") {
		t.Errorf("4 MiB and a byte: %v", err)
	}
}

// No card and a card nobody opened answer every question with an error or nothing.
func TestNoCardAnswers(t *testing.T) {
	for name, card := range map[string]*Card{"none": nil, "zero": {}} {
		v := reflect.ValueOf(card)
		for i := range v.NumMethod() {
			m, method := v.Method(i), v.Type().Method(i).Name
			var args []reflect.Value
			for j := range m.Type().NumIn() {
				args = append(args, reflect.Zero(m.Type().In(j)))
			}
			for j, out := range m.Call(args) {
				last := m.Type().Out(j)
				if last == reflect.TypeFor[error]() && out.IsNil() {
					t.Errorf("%s card: %s gives no error", name, method)
				}
				if last.Kind() == reflect.Slice && out.Len() != 0 && method != "Blocking" { // which says that there is no card
					t.Errorf("%s card: %s gives %v", name, method, out)
				}
			}
		}
	}
}

// Advice shows its share in whole per cent; one name stands for all its causes.
func TestAdviceShowsItsShare(t *testing.T) {
	card := fill(t, ternSpec(), FillPlug(at(0), ""), DrainOf(at(1), jug(2.1, 18)), RefillOf(at(2), Amount{Mass: units.Kilogram.Of(1.78), Scale: "scale-1"}))
	list := card.Balance().Contributors()
	names := map[string]bool{}
	for _, c := range list {
		if names[c.Name] {
			t.Errorf("%s stands twice in %+v", c.Name, list)
		}
		names[c.Name] = true
	}
	want := fmt.Sprintf("%s is %.0f %% of the doubt: ", list[0].Name, 100*list[0].Share)
	if got := card.Advice(); !strings.HasPrefix(got, want) {
		t.Errorf("%q; want %q", got, want)
	}
}

func TestObservationWithItsTime(t *testing.T) {
	spec, entries := untidy()
	seen, ok := fill(t, spec, entries...).Observation()
	if !ok || seen.First != exchange.PlugStreams || seen.Watched.Seconds() != 90 || !seen.CaughtKnown {
		t.Errorf("%+v, %v", seen, ok)
	}
	if _, ok := fill(t, ternSpec()).Observation(); ok {
		t.Error("nobody looked, and yet")
	}
}

// Before any reading the level is expected somewhere in the window, 43 °C ± 5 °C of even
// chance, which is 5/√3; after one at what was read,
// with the doubt that was stated, and the next step is no drain any more.
func TestLevelBeforeAndAfterAReading(t *testing.T) {
	s := ternSpec()
	s.Target, s.OnHand = 0.01, litres(20)
	before := ternEntries()[:12]
	card := fill(t, s, before...)
	check, err := card.LevelCheck(exchange.CameInRight)
	if err != nil || check.At.Best() != units.Celsius(43) || math.Abs(check.At.U().In(units.CelsiusDegree)-5/math.Sqrt(3)) > 1e-8 {
		t.Errorf("before: at %s ± %s, %v; want mid-window, ± half of it over √3", check.At.Best(), check.At.U(), err)
	}
	if l := card.Level(); l.Reading != 0 || !l.Temperature.IsZero() || !l.HasWindow {
		t.Errorf("before: %+v", l)
	}
	if got := card.Next().Code; got != "drain" {
		t.Errorf("before: next is %s", got)
	}
	read := ReadWindow(at(95), WindowReading{Temperature: units.Celsius(41), PlusMinus: units.CelsiusDegree.Of(3), EngineIdling: true, Level: true})
	if err := card.Append(read); err != nil {
		t.Fatal(err)
	}
	check, err = card.LevelCheck(exchange.CameInRight)
	// ± 3 °C is rectangular: 3/√3.
	if u := check.At.U().In(units.CelsiusDegree); err != nil || check.At.Best() != units.Celsius(41) || u < 1.732 || u > 1.733 {
		t.Errorf("after: at %s, u %v, %v", check.At.Best(), u, err)
	}
	if l := card.Level(); l.Reading != 13 || l.Temperature != units.Celsius(41) {
		t.Errorf("after: %+v", l)
	}
	if got := card.Next().Code; got == "drain" {
		t.Error("after the reading the next step is to drain again")
	}
}

// A sheet with a window and no check plug listed still wants the level proved.
func TestAWindowWithoutACheckPlugWantsTheLevelProved(t *testing.T) {
	s := ternSpec()
	s.Plugs = nil
	card := fill(t, s, FillPlug(at(0), ""), DrainOf(at(1), jug(2.1, 18)), RefillOf(at(2), jug(2.1, 18)), GearRuns(at(3), 4))
	found := false
	for _, b := range card.Blocking() {
		found = found || b.Code == "level-not-proved"
	}
	if !found {
		t.Errorf("blocking: %+v", card.Blocking())
	}
}

// The fullest card there can be is written and read again: 1000 entries, each with the
// longest text of characters that JSON writes at greater length.
func TestTheFullestCardIsReadAgain(t *testing.T) {
	for _, c := range []string{"\"", "<", "\n", "\u2028"} {
		card := fill(t, Spec{Job: "full", Capacity: volumes(8, 8)})
		for range mostEntries {
			if err := card.Append(Note(at(0), strings.Repeat(c, mostText/len(c)-1)+"x")); err != nil {
				t.Fatal(err)
			}
		}
		text, err := card.MarshalJSON()
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Decode(text); err != nil {
			t.Errorf("%q, %d bytes: %v", c, len(text), err)
		}
	}
}

func TestDecodeIsBoundedAtItsCap(t *testing.T) {
	for name, text := range map[string]string{
		"one long text":  `{"schema":1,"spec":{"job":"x"},"entries":[{"text":"` + strings.Repeat(`\u00e9`, 690_000) + `"}]}`,
		"many entries":   `{"schema":1,"spec":{"job":"x"},"entries":[` + strings.Repeat(`{},`, 1_390_000) + `{}]}`,
		"deep nesting":   `{"schema":1,"spec":` + strings.Repeat(`[`, 4_000_000) + `}`,
		"a long list":    `{"schema":1,"spec":{"job":"x","plugs":[` + strings.Repeat(`{},`, 1_390_000) + `{}]}}`,
		"spaces":         strings.Repeat(" ", mostBytes),
		"unknown key":    `{"schema":1,"` + strings.Repeat("k", 4_000_000) + `":1}`,
		"nothing at all": "",
	} {
		if len(text) > mostBytes {
			t.Fatalf("%s: %d bytes are past the cap", name, len(text))
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := Decode([]byte(text))
		runtime.ReadMemStats(&after)
		if err == nil || len(err.Error()) > 600 {
			t.Errorf("%s: taken, or refused at length: %.80v", name, err)
		}
		// The text itself is the test's, not Decode's.
		if got := after.TotalAlloc - before.TotalAlloc - uint64(len(text)); got > 32<<20 {
			t.Errorf("%s: %d MB allocated; want at most 32", name, got>>20)
		}
	}
}

// A look outside the window, or with the engine off, is told and not judged.
func TestALookThatProvesNothingIsNotJudged(t *testing.T) {
	for why, r := range map[string]WindowReading{
		"the fluid's temperature was above the window":                                   {Temperature: units.Celsius(55), Thermometer: "probe-1", EngineIdling: true, Level: true},
		"the fluid's temperature was below the window":                                   {Temperature: units.Celsius(30), Thermometer: "probe-1", EngineIdling: true, Level: true},
		"the fluid's temperature was too near an end of the window for that thermometer": {Temperature: units.Celsius(47.5), Thermometer: "probe-1", EngineIdling: true, Level: true},
		"the engine was not idling":                                                      {Temperature: units.Celsius(43), Thermometer: "probe-1", Level: true},
	} {
		entries := ternEntries()
		entries[12] = ReadWindow(at(95), r)
		card := fill(t, ternSpec(), entries[:14]...)
		check, err := card.LevelCheck(exchange.CameInRight)
		if err != nil {
			t.Fatal(err)
		}
		e, err := check.Expect()
		if err != nil {
			t.Fatal(err)
		}
		o, ok := card.Observation()
		if !ok || o.NoProof != why {
			t.Errorf("%q; want %q", o.NoProof, why)
		}
		f, err := e.Observe(o)
		words := strings.Join(f.Words, " ")
		if err != nil || f.Standing != exchange.StandingUnknown || f.Against != exchange.AgainstUndecided || f.Bound != exchange.BoundNone || !strings.Contains(words, "Seen at the check plug: trickle") ||
			!strings.Contains(words, "proves nothing of the level, nor of the ledger: "+why+". Look again") || strings.Contains(words, "agree") {
			t.Errorf("%s: %v, %v", why, f.Words, err)
		}
	}
}

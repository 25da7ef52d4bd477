package jobcard

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"example.com/meniscus/exchange"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

// everyKind is a card on which every kind of entry stands.
func everyKind(t *testing.T) *Card {
	t.Helper()
	s := ternSpec()
	s.Fluid = Fluid{Class: "S-2", Table: []thermal.DensityPoint{{At: units.Celsius(0), Density: 860}, {At: units.Celsius(100), Density: 800}}}
	entries := ternEntries()
	entries = append(entries[:12:12],
		append([]Entry{
			KeptBack(at(91), Amount{Volume: litres(0.1), Temperature: units.Celsius(20), PlusMinus: litres(0.05)}),
			Spill(at(92), Amount{Mass: units.Gram.Of(20), Scale: "scale-1"}, FromStock),
			Supply(at(93), litres(1)), Note(at(93), "left drip tray"), TopUp(at(94), jug(0.2, 20)),
		}, entries[12:]...)...)
	entries = append(entries, Note(at(99), "typed twice"), Strike(at(100), len(entries)+1, "typed twice"))
	last := Observe(at(101), "check", exchange.PlugDrips)
	last.Amount, last.Lasting = jug(0.3, 43), Duration(45e9)
	entries = append(entries, last, TorqueSet(at(102), "check", units.NewtonMetre.Of(11), "wrench-50"), Close(at(103)), Note(at(104), "handed over"))
	return fill(t, s, entries...)
}

func TestJSONRoundTripsByteForByte(t *testing.T) {
	for _, card := range []*Card{everyKind(t), fill(t, ternSpec()), fill(t, ternSpec(), ternEntries()...), fill(t, simple(10))} {
		first, err := card.MarshalJSON()
		if err != nil {
			t.Fatal(err)
		}
		back, err := Decode(first)
		if err != nil {
			t.Fatal(err)
		}
		second, err := back.MarshalJSON()
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first, second) {
			t.Errorf("not the same bytes:\n%s\n%s", first, second)
		}
		if back.Record() != card.Record() {
			t.Errorf("the record differs:\n%s", cmp.Diff(card.Record(), back.Record()))
		}
		if diff := cmp.Diff(card.Entries(), back.Entries(), cmpopts.EquateEmpty()); diff != "" {
			t.Error(diff)
		}
	}
}

// The fixture was written by the first version and must stay readable for ever.
func TestOldCardsStayReadable(t *testing.T) {
	const path = "testdata/card-schema-1.json"
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	card, err := Decode(bytes.TrimSpace(want))
	if err != nil {
		t.Fatal(err)
	}
	got, err := json.Marshal(card)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, bytes.TrimSpace(want)) {
		t.Errorf("the card of schema 1 no longer writes the same bytes:\n%s", got)
	}
	if !card.IsClosed() || card.Cycles() != 3 {
		t.Errorf("closed %v, %d cycles; want closed after 3", card.IsClosed(), card.Cycles())
	}
}

func TestDecodeRefuses(t *testing.T) {
	good, err := fill(t, ternSpec(), ternEntries()...).MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct{ name, in, want string }{
		{"nothing", "", "not a job card"},
		{"null", "null", "schema 0"},
		{"an array", "[]", "not a job card"},
		{"another schema", strings.Replace(string(good), `"schema":1`, `"schema":2`, 1), "reads schema 1"},
		{"an unknown key", strings.Replace(string(good), `"job":`, `"jib":`, 1), "jib"},
		{"a number for a volume", strings.Replace(string(good), `"2.1 L"`, `2.1`, 1), "not a job card"},
		{"null for a volume", strings.Replace(string(good), `"2.1 L"`, `null`, 1), "not a job card"},
		{"text after the card", string(good) + "{}", "not a job card"},
		{"an entry that cannot be", strings.Replace(string(good), `"2.1 L"`, `"21 L"`, 1), "entry 2"},
		{"a time with no zone", strings.Replace(string(good), `08:10:00Z`, `08:10:00`, 1), "not a job card"},
		{"too long", strings.Repeat(" ", mostBytes+1), "at most"},
	} {
		if _, err := Decode([]byte(tt.in)); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: error %v, want %q in it", tt.name, err, tt.want)
		}
	}
	var card Card
	if err := card.UnmarshalJSON([]byte("{}")); err == nil || card.open {
		t.Error("a refused card was taken")
	}
}

func TestAZeroCardDoesNothing(t *testing.T) {
	for _, c := range []*Card{nil, {}} {
		if err := c.Append(Note(at(0), "x")); err == nil {
			t.Error("a card nobody opened took an entry")
		}
		if _, err := c.MarshalJSON(); err == nil {
			t.Error("a card nobody opened was written")
		}
		if _, err := c.PutBack(Pour{}); err == nil {
			t.Error("a card nobody opened gave a mark")
		}
		_, _, _, _ = c.Balance(), c.OldShare(), c.Record(), c.Next()
		_, _, _, _ = c.Blocking(), c.Findings(), c.Cautions(), c.Spec()
		_, _, _, _ = c.Entries(), c.FluidLeft(), c.FluidUsed(), c.Cycles()
		if c.Len() != 0 || c.IsClosed() || c.IsStruck(1) {
			t.Error("a card nobody opened holds something")
		}
	}
}

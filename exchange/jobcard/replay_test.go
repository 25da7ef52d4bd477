package jobcard

import (
	"encoding/json"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// oneByOne opens a card and appends every entry.
func oneByOne(s Spec, entries []Entry) (*Card, error) {
	card, err := Open(s)
	if err != nil {
		return nil, err
	}
	for _, e := range entries {
		if err := card.Append(e); err != nil {
			return nil, err
		}
	}
	return card, nil
}

// Decode reckons once what several strikes follow, and still takes exactly the cards
// that Append takes entry by entry, refuses the others with the same words, and comes
// to the same record. The entries are shaken: some left out, swapped or doubled.
func TestDecodeTakesWhatAppendTakes(t *testing.T) {
	taken, refused := 0, map[string]int{}
	manyCards(t, 11, func(card *Card, rng *rand.Rand) {
		for range 12 {
			entries := card.Entries()
			for range rng.IntN(3) {
				switch i := rng.IntN(len(entries) - 1); rng.IntN(3) {
				case 0:
					entries = append(entries[:i], entries[i+1:]...)
				case 1: // in the other order, each at the other's time
					entries[i], entries[i+1] = entries[i+1], entries[i]
					entries[i].At, entries[i+1].At = entries[i+1].At, entries[i].At
				case 2:
					entries[i].Entry = max(0, entries[i].Entry-1)
				}
			}
			want, wantErr := oneByOne(card.Spec(), entries)
			text, err := json.Marshal(wire{Schema, card.Spec(), entries})
			if err != nil {
				t.Fatal(err)
			}
			got, gotErr := Decode(text)
			if wantErr != nil {
				for _, key := range []string{"(struck): without", "(struck): entry", ""} {
					if strings.Contains(wantErr.Error(), key) {
						refused[key]++
						break
					}
				}
				if gotErr == nil || gotErr.Error() != wantErr.Error() {
					t.Fatalf("Append: %v\nDecode: %v", wantErr, gotErr)
				}
				continue
			}
			taken++
			if gotErr != nil || got.Record() != want.Record() || !cmp.Equal(got.Findings(), want.Findings()) {
				t.Fatalf("Append took it; Decode: %v\n%s", gotErr, cmp.Diff(got.Record(), want.Record()))
			}
			sameVolume(t, "net", got.Balance().Net, want.Balance().Net)
		}
	})
	if taken < 100 || refused["(struck): without"] < 10 || refused["(struck): entry"] < 20 || refused[""] < 20 {
		t.Errorf("%d cards taken, refused %v; want many of each", taken, refused)
	}
}

// A strike stands only if all that was there by then stands without it: two that
// need each other are refused, in a file as by Append, though both together would do.
func TestStrikesThatNeedEachOtherAreRefusedInAFileToo(t *testing.T) {
	s := ternSpec()
	entries := []Entry{FillPlug(at(0), "fill"), DrainOf(at(1), jug(2, 20)), RefillOf(at(2), jug(2.6, 20)), Strike(at(3), 2, "slip"), Strike(at(4), 3, "slip")}
	const want = "entry 4 (struck): without entry 2 the rest does not stand: jobcard: entry 3 (refilled)"
	if _, err := oneByOne(s, entries); err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("Append: %v; want %q", err, want)
	}
	text, err := json.Marshal(wire{Schema, s, entries})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Decode(text); err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("Decode: %v; want %q", err, want)
	}
	// From the last backwards each stands.
	entries[3].Entry, entries[4].Entry = 3, 2
	text, _ = json.Marshal(wire{Schema, s, entries})
	if card, err := Decode(text); err != nil || !card.Balance().Net.Best().IsZero() {
		t.Errorf("from the last backwards: %v", err)
	}
}

// A refused strike leaves the entry it named counting.
func TestARefusedStrikeLeavesTheCardAsItWas(t *testing.T) {
	card := fill(t, ternSpec(), FillPlug(at(0), "fill"), DrainOf(at(1), jug(2, 20)))
	before := card.Record()
	if err := card.Append(Strike(at(2), 1, "slip")); err == nil || card.IsStruck(1) || card.Record() != before {
		t.Errorf("%v, struck %v", err, card.IsStruck(1))
	}
}

// A card takes 50 strikes, by appending and by decoding.
func TestACardTakes50Strikes(t *testing.T) {
	card := fill(t, simple(10))
	for range 51 {
		if err := card.Append(Note(at(0), "x")); err != nil {
			t.Fatal(err)
		}
	}
	for i := range 50 {
		if err := card.Append(Strike(at(1), i+1, "slip")); err != nil {
			t.Fatal(err)
		}
	}
	text, err := card.MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Decode(text); err != nil {
		t.Errorf("50 strikes: %v", err)
	}
	const want = "entry 102 (struck): 50 entries are struck already"
	if err := card.Append(Strike(at(1), 51, "slip")); err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("51 strikes: %v; want %q", err, want)
	}
	text, err = json.Marshal(wire{Schema, card.Spec(), append(card.Entries(), Strike(at(1), 51, "slip"))})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Decode(text); err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("51 strikes in a file: %v; want %q", err, want)
	}
}

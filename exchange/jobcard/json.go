package jobcard

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"example.com/meniscus/internal/jsonscan"
)

// Schema is the version of the card's JSON. Older versions stay readable.
const Schema = 1

// mostBytes bounds a card's file: mostEntries full entries fit well within it.
const mostBytes = 4 << 20

// wire is the card as it is written.
type wire struct {
	Schema  int     `json:"schema"`
	Spec    Spec    `json:"spec"`
	Entries []Entry `json:"entries"`
}

// MarshalJSON returns the card as JSON with "schema": 1, the spec and every
// entry. Decoding it gives an equal card, and encoding that the same bytes.
func (c *Card) MarshalJSON() ([]byte, error) {
	if c == nil || !c.open {
		return nil, errors.New("jobcard: no card to encode; want one made by Open or Decode")
	}
	entries := c.entries
	if entries == nil {
		entries = []Entry{}
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(wire{Schema, c.spec, entries}); err != nil {
		return nil, fmt.Errorf("jobcard: encode: %w", err)
	}
	return bytes.TrimRight(b.Bytes(), "\n"), nil
}

// Decode reads a card that MarshalJSON wrote. Every entry is validated again,
// as Append does; unknown keys, another schema and trailing text are errors, and
// so is input past 4 MiB, or one that holds more objects, values, nesting or longer
// texts than a card can.
func Decode(data []byte) (*Card, error) {
	if err := cardLimits().Check(data); err != nil {
		return nil, fmt.Errorf("jobcard: %w", err)
	}
	var version struct {
		Schema int `json:"schema"`
	}
	if err := json.Unmarshal(data, &version); err != nil {
		return nil, notACard(err)
	}
	if version.Schema != Schema {
		return nil, fmt.Errorf("jobcard: schema %d; this version reads schema %d", version.Schema, Schema)
	}
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	var w wire
	if err := dec.Decode(&w); err != nil {
		return nil, notACard(err)
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return nil, errors.New("jobcard: something follows the card; want one card and nothing else")
	}
	return rebuild(w)
}

// cardLimits are well above the fullest card: an entry is two objects, the rest stand
// in the spec's tables and lists, and a text may be written as \u0061 throughout.
func cardLimits() jsonscan.Limits {
	return jsonscan.Limits{Bytes: mostBytes, Objects: 8000, Depth: 12, Literal: 6 * mostText, Elements: 100_000}
}

// notACard wraps what encoding/json says, unless it repeats the input at length.
func notACard(err error) error {
	const most = 200
	if text := err.Error(); len(text) > most {
		err = errors.New(strings.ToValidUTF8(text[:40], "") + "…")
	}
	return fmt.Errorf("jobcard: not a job card: %w; want what MarshalJSON writes", err)
}

func rebuild(w wire) (*Card, error) {
	c, err := Open(w.Spec)
	if err != nil {
		return nil, err
	}
	if len(w.Entries) > mostEntries {
		return nil, fmt.Errorf("jobcard: %d entries; want at most %d", len(w.Entries), mostEntries)
	}
	lastStrike := -1
	for i := range w.Entries {
		if w.Entries[i].Kind == Struck {
			lastStrike = i
		}
	}
	for i, e := range w.Entries {
		if err := c.add(e, i < lastStrike); err != nil {
			return nil, err
		}
	}
	return c, nil
}

// UnmarshalJSON is Decode into a card; on error the card is left as it was.
func (c *Card) UnmarshalJSON(data []byte) error {
	if c == nil {
		return errNowhere
	}
	got, err := Decode(data)
	if err != nil {
		return err
	}
	*c = *got
	return nil
}

package measure

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"example.com/meniscus/internal/jsonscan"
	"example.com/meniscus/units"
)

// MarshalJSON writes the record: the value as text, the table of causes, the
// terms. A reading that is not valid is an error.
func (r Reading) MarshalJSON() ([]byte, error) { return encode(r.Record()) }

// UnmarshalJSON reads what MarshalJSON writes, to the last bit; writing it again
// gives the same bytes. Unknown fields, null, and all that FromRecord refuses are
// errors, and leave r as it was; so is text past 4 MiB, or with more in it than a
// reading can hold.
func (r *Reading) UnmarshalJSON(data []byte) error { return decode(data, r, FromRecord) }

// Record lays m out for storage, its best estimate exact and with its unit, the
// scales in the base unit, which is named. One that is not valid is an error.
func (m Measured[D]) Record() (Record, error) {
	return m.doubt.record(m.best.String(), base[D]().String())
}

// MeasuredFromRecord reads back what Measured.Record wrote; another dimension's
// record, units that need a country, and all that FromRecord refuses are errors.
func MeasuredFromRecord[D units.Dimension](rec Record) (Measured[D], error) {
	q, err := units.ParseExplicit[D](rec.Value)
	if err != nil {
		return Measured[D]{}, fmt.Errorf("measure: record: value: %w", err)
	}
	d, err := rec.doubt(base[D]().String())
	if err != nil {
		return Measured[D]{}, err
	}
	return Measured[D]{q, d}, nil
}

// MarshalJSON writes the record, as for Reading.
func (m Measured[D]) MarshalJSON() ([]byte, error) { return encode(m.Record()) }

// UnmarshalJSON reads what MarshalJSON writes, as for Reading.
func (m *Measured[D]) UnmarshalJSON(data []byte) error {
	return decode(data, m, MeasuredFromRecord[D])
}

// Record lays t out for storage, its best estimate exact and with its unit, the
// scales in kelvin. One that is not valid is an error.
func (t Temperature) Record() (Record, error) { return t.doubt.record(t.best.String(), kelvin) }

const kelvin = "K"

// TemperatureFromRecord reads back what Temperature.Record wrote; all that
// FromRecord refuses is an error.
func TemperatureFromRecord(rec Record) (Temperature, error) {
	p, err := units.ParseTemperature(rec.Value)
	if err != nil {
		return Temperature{}, fmt.Errorf("measure: record: value: %w", err)
	}
	d, err := rec.doubt(kelvin)
	if err != nil {
		return Temperature{}, err
	}
	return Temperature{p, d}, nil
}

// MarshalJSON writes the record, as for Reading.
func (t Temperature) MarshalJSON() ([]byte, error) { return encode(t.Record()) }

// UnmarshalJSON reads what MarshalJSON writes, as for Reading.
func (t *Temperature) UnmarshalJSON(data []byte) error {
	return decode(data, t, TemperatureFromRecord)
}

var errNowhere = errors.New("measure: nowhere to read into; want a pointer that is not nil")

func encode(rec Record, err error) ([]byte, error) {
	if err != nil {
		return nil, err
	}
	text, err := json.Marshal(rec)
	if err == nil {
		err = recordLimits().Check(text) // what could not be read back is not written
	}
	if err != nil {
		return nil, fmt.Errorf("measure: record: %w", err)
	}
	return text, nil
}

// decode is strict: a field it does not know is doubt it would lose.
func decode[T any](data []byte, into *T, read func(Record) (T, error)) error {
	if into == nil {
		return errNowhere
	}
	rec, err := decodeStrict[Record](data)
	if err != nil {
		return fmt.Errorf("measure: record: %w; want an object as MarshalJSON writes it", err)
	}
	v, err := read(rec)
	if err == nil {
		*into = v
	}
	return err
}

func decodeStrict[T any](data []byte) (T, error) {
	var rec T
	if err := recordLimits().Check(data); err != nil {
		return rec, err
	}
	if bytes.Equal(bytes.TrimSpace(data), []byte("null")) {
		return rec, errors.New("null; want an object")
	}
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&rec); err != nil {
		return rec, clipped(err)
	}
	if _, err := dec.Token(); err != io.EOF {
		return rec, errors.New("text after its end; want one object")
	}
	return rec, nil
}

// recordLimits are well above any reading's: 4096 causes and as many terms, or a few
// causes with a table each.
func recordLimits() jsonscan.Limits {
	return jsonscan.Limits{Bytes: 4 << 20, Objects: 2*mostTerms + 1, Depth: 4, Literal: 6 * longestLabel, Elements: 100_000}
}

// clipped keeps a decoder's error that repeats an endless field name from
// flooding the message.
func clipped(err error) error {
	const most = 100
	text := err.Error()
	if len(text) <= most {
		return err
	}
	return errors.New(strings.ToValidUTF8(text[:most], "") + "…")
}

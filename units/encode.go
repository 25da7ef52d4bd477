package units

import (
	"database/sql/driver"
	"encoding/json"
	"fmt"
	"strings"
)

// cannotWrite is what every encoder answers for an out-of-range value.
func cannotWrite(kind string) error {
	return fmt.Errorf("units: cannot write a %s that is %w; want a valid one", kind, ErrOutOfRange)
}

// fromJSON reads the text in a JSON string; null and numbers are refused,
// because a number without its unit is what these types are here to prevent.
func fromJSON(data []byte, kind, example string) (string, error) {
	if len(data) == 0 || data[0] != '"' {
		return "", fmt.Errorf("units: %s in JSON is not a %s; want a string with the unit, such as %q", clip(strings.ToValidUTF8(bounded(data), "\ufffd")), kind, example)
	}
	var s string
	if err := json.Unmarshal(data, &s); err != nil {
		return "", fmt.Errorf("units: a %s in JSON: %w; want a string with the unit, such as %q", kind, err, example)
	}
	return s, nil
}

// fromSQL reads the text of a database value.
func fromSQL(src any, kind, example string) (string, error) {
	switch v := src.(type) {
	case string:
		return v, nil
	case []byte:
		if len(v) > mostBytes {
			v = v[:mostBytes+1] // still too long, and so refused, at no cost
		}
		return string(v), nil
	}
	return "", fmt.Errorf("units: a %s from a database is %T; want text with the unit, such as %q (sql.Null holds NULL)", kind, src, example)
}

// newText has room for most texts, so that writing one allocates once.
func newText() []byte { return make([]byte, 0, textBytes) }

// nilReceiver answers a call through a nil pointer.
func nilReceiver(kind string) error {
	return fmt.Errorf("units: cannot read a %s into a nil pointer; want the address of one", kind)
}

// AppendText appends the exact text, such as "2.365882365 L", to b.
func (q Quantity[D]) AppendText(b []byte) ([]byte, error) {
	if !q.Valid() {
		return b, cannotWrite(specOf[D]().kind)
	}
	return q.appendExact(b), nil
}

// MarshalText returns the exact text; an out-of-range quantity is an error.
func (q Quantity[D]) MarshalText() ([]byte, error) { return q.AppendText(newText()) }

// UnmarshalText reads what Parse reads. On an error q is unchanged.
func (q *Quantity[D]) UnmarshalText(text []byte) error {
	if q == nil {
		return nilReceiver(specOf[D]().kind)
	}
	r, err := Parse[D](bounded(text))
	if err == nil {
		*q = r
	}
	return err
}

// bounded is the text as a string, with no more of it than makes it too long.
func bounded(text []byte) string { return string(text[:min(len(text), mostBytes+1)]) }

// UnmarshalJSON reads a JSON string by the rules of Parse; null is refused.
func (q *Quantity[D]) UnmarshalJSON(data []byte) error {
	s := specOf[D]()
	text, err := fromJSON(data, s.kind, s.example)
	if err != nil {
		return err
	}
	return q.UnmarshalText([]byte(text))
}

// Value returns the exact text for a database.
func (q Quantity[D]) Value() (driver.Value, error) { return textValue(q.MarshalText()) }

func textValue(text []byte, err error) (driver.Value, error) {
	if err != nil {
		return nil, err
	}
	return string(text), nil
}

// Scan reads text from a database by the rules of Parse; NULL is refused.
func (q *Quantity[D]) Scan(src any) error {
	s := specOf[D]()
	text, err := fromSQL(src, s.kind, s.example)
	if err != nil {
		return err
	}
	return q.UnmarshalText([]byte(text))
}

// GoString returns the quantity as %#v prints it: units.Volume("2.5 L").
func (q Quantity[D]) GoString() string {
	return fmt.Sprintf("units.%s(%q)", specOf[D]().goName, q.String())
}

// AppendText appends the exact text, such as "36.5 °C", to b.
func (t Temperature) AppendText(b []byte) ([]byte, error) {
	if !t.Valid() {
		return b, cannotWrite("temperature")
	}
	return t.appendExact(b), nil
}

// MarshalText returns the exact text; an out-of-range temperature is an error.
func (t Temperature) MarshalText() ([]byte, error) { return t.AppendText(newText()) }

// UnmarshalText reads what ParseTemperature reads. On an error t is unchanged.
func (t *Temperature) UnmarshalText(text []byte) error {
	if t == nil {
		return nilReceiver("temperature")
	}
	u, err := ParseTemperature(bounded(text))
	if err == nil {
		*t = u
	}
	return err
}

const exampleTemperature = "36.5 °C"

// UnmarshalJSON reads a JSON string by the rules of ParseTemperature; null is refused.
func (t *Temperature) UnmarshalJSON(data []byte) error {
	text, err := fromJSON(data, "temperature", exampleTemperature)
	if err != nil {
		return err
	}
	return t.UnmarshalText([]byte(text))
}

// Value returns the exact text for a database.
func (t Temperature) Value() (driver.Value, error) { return textValue(t.MarshalText()) }

// Scan reads text from a database by the rules of ParseTemperature; NULL is refused.
func (t *Temperature) Scan(src any) error {
	text, err := fromSQL(src, "temperature", exampleTemperature)
	if err != nil {
		return err
	}
	return t.UnmarshalText([]byte(text))
}

// GoString returns the temperature as %#v prints it: units.Temperature("36.5 °C").
func (t Temperature) GoString() string { return fmt.Sprintf("units.Temperature(%q)", t.String()) }

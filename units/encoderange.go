package units

import (
	"database/sql/driver"
	"fmt"
	"strconv"
)

// AppendText appends the exact ends, such as "9.6 L to 10.4 L", to b; one
// quantity alone where they are equal.
func (r Range[D]) AppendText(b []byte) ([]byte, error) {
	if !r.Valid() {
		return b, cannotWrite(specOf[D]().kind + " range")
	}
	b = r.low.appendExact(b)
	if r.low == r.high {
		return b, nil
	}
	return r.high.appendExact(append(b, " to "...)), nil
}

// MarshalText returns the exact ends; an out-of-range end is an error.
func (r Range[D]) MarshalText() ([]byte, error) { return r.AppendText(newText()) }

// UnmarshalText reads what ParseRange reads. On an error r is unchanged.
func (r *Range[D]) UnmarshalText(text []byte) error {
	if r == nil {
		return nilReceiver(specOf[D]().kind + " range")
	}
	s, err := ParseRange[D](bounded(text))
	if err == nil {
		*r = s
	}
	return err
}

// UnmarshalJSON reads a JSON string by the rules of ParseRange; null is refused.
func (r *Range[D]) UnmarshalJSON(data []byte) error {
	s := specOf[D]()
	text, err := fromJSON(data, s.kind+" range", s.example)
	if err != nil {
		return err
	}
	return r.UnmarshalText([]byte(text))
}

// Value returns the exact ends as text for a database.
func (r Range[D]) Value() (driver.Value, error) { return textValue(r.MarshalText()) }

// Scan reads text from a database by the rules of ParseRange; NULL is refused.
func (r *Range[D]) Scan(src any) error {
	s := specOf[D]()
	text, err := fromSQL(src, s.kind+" range", s.example)
	if err != nil {
		return err
	}
	return r.UnmarshalText([]byte(text))
}

// GoString returns the range as %#v prints it: units.Range[units.VolumeDim]("9.6 L to 10.4 L").
func (r Range[D]) GoString() string {
	return fmt.Sprintf("units.Range[units.%sDim](%q)", specOf[D]().goName, r.String())
}

const exampleDensity = "867.5 kg/m³"

// AppendText appends the density in kg/m³ to b, with the fewest digits that
// read back to the same float64.
func (d Density) AppendText(b []byte) ([]byte, error) {
	if !d.Valid() {
		return b, cannotWrite("density")
	}
	format := byte('f')
	if d < 0.1 {
		format = 'e' // within the 18 decimals that ParseDensity reads
	}
	b = strconv.AppendFloat(b, float64(d), format, -1, 64)
	return append(b, " kg/m³"...), nil
}

// MarshalText returns the density in kg/m³; one that is not valid, such as the
// zero value, is an error.
func (d Density) MarshalText() ([]byte, error) { return d.AppendText(newText()) }

// UnmarshalText reads what ParseDensity reads. On an error d is unchanged.
func (d *Density) UnmarshalText(text []byte) error {
	if d == nil {
		return nilReceiver("density")
	}
	e, err := ParseDensity(bounded(text))
	if err == nil {
		*d = e
	}
	return err
}

// UnmarshalJSON reads a JSON string by the rules of ParseDensity; null is refused.
func (d *Density) UnmarshalJSON(data []byte) error {
	text, err := fromJSON(data, "density", exampleDensity)
	if err != nil {
		return err
	}
	return d.UnmarshalText([]byte(text))
}

// Value returns the text in kg/m³ for a database.
func (d Density) Value() (driver.Value, error) { return textValue(d.MarshalText()) }

// Scan reads text from a database by the rules of ParseDensity; NULL is refused.
func (d *Density) Scan(src any) error {
	text, err := fromSQL(src, "density", exampleDensity)
	if err != nil {
		return err
	}
	return d.UnmarshalText([]byte(text))
}

// GoString returns the density as %#v prints it: units.Density(867.5).
func (d Density) GoString() string {
	return "units.Density(" + strconv.FormatFloat(float64(d), 'g', -1, 64) + ")"
}

package measure

import (
	"errors"
	"fmt"
	"strconv"
)

// Record is a reading laid out for storage: numbers as text, the causes in a
// table of their own, each term naming its cause by id. It is what MarshalJSON
// writes, and has plain fields so that other formats can carry it too.
type Record struct {
	Value  string        `json:"value" toml:"value"`                      // a number, or a quantity with its unit
	Unit   string        `json:"unit,omitzero" toml:"unit,omitempty"`     // unit of the scales; none for a bare reading
	Causes []CauseRecord `json:"causes,omitzero" toml:"causes,omitempty"` // sorted by id
	Terms  []TermRecord  `json:"terms,omitzero" toml:"terms,omitempty"`   // sorted by cause
}

// CauseRecord is a cause laid out for storage.
type CauseRecord struct {
	ID        string   `json:"id" toml:"id"`
	Label     string   `json:"label,omitzero" toml:"label,omitempty"`
	Shape     Shape    `json:"shape" toml:"shape"`
	DoF       string   `json:"dof,omitzero" toml:"dof,omitempty"`             // degrees of freedom; none means infinite
	Quantiles []string `json:"quantiles,omitzero" toml:"quantiles,omitempty"` // of a tabled shape, standardised
}

// TermRecord is a term laid out for storage.
type TermRecord struct {
	Cause string `json:"cause" toml:"cause"` // id of a cause in the table
	Scale string `json:"scale" toml:"scale"` // signed, in the record's unit
}

// ErrUnknownCause is wrapped where a term names a cause the record does not hold.
var ErrUnknownCause = errors.New("unknown cause")

// Record lays the reading out for storage. One that is not valid is an error.
func (r Reading) Record() (Record, error) {
	return r.doubt.record(number(r.value), "")
}

// FromRecord reads back what Reading.Record wrote: the same value, terms and
// causes to the last bit. Numbers that are not finite, an unknown cause id, a cause
// or term given twice, and a cause in no term are errors.
func FromRecord(rec Record) (Reading, error) {
	x, err := parseNumber(rec.Value)
	if err != nil {
		return Reading{}, fmt.Errorf("measure: record: value: %w", err)
	}
	d, err := rec.doubt("")
	if err != nil {
		return Reading{}, err
	}
	return Reading{x, d}, nil
}

func (d doubt) record(value, unit string) (Record, error) {
	if d.fault != nil {
		return Record{}, d.fault
	}
	rec := Record{Value: value, Unit: unit}
	for _, t := range d.terms {
		rec.Causes = append(rec.Causes, t.Cause.record())
		rec.Terms = append(rec.Terms, TermRecord{t.Cause.id, number(t.Scale)})
	}
	return rec, nil
}

func (c *Cause) record() CauseRecord {
	rec := CauseRecord{ID: c.id, Label: c.label, Shape: c.shape}
	if c.dof != 0 {
		rec.DoF = number(c.dof)
	}
	for _, q := range c.table {
		rec.Quantiles = append(rec.Quantiles, number(q))
	}
	return rec
}

// doubt rebuilds the terms; unit is what this kind of record must carry.
func (rec Record) doubt(unit string) (doubt, error) {
	if rec.Unit != unit {
		return doubt{}, fmt.Errorf("measure: record: unit %s; want %q", quote(rec.Unit), unit)
	}
	if len(rec.Causes) > mostTerms || len(rec.Terms) > mostTerms {
		return doubt{}, fmt.Errorf("measure: record of %d causes and %d terms; want at most %d", len(rec.Causes), len(rec.Terms), mostTerms)
	}
	causes, err := readCauses(rec.Causes)
	if err != nil {
		return doubt{}, fmt.Errorf("measure: record: %w", err)
	}
	terms, err := readTerms(rec.Terms, causes)
	if err != nil {
		return doubt{}, fmt.Errorf("measure: record: %w", err)
	}
	return newDoubt(terms)
}

func readCauses(records []CauseRecord) (map[string]*Cause, error) {
	causes := make(map[string]*Cause, len(records))
	var faults []error
	for i, rec := range records {
		c, err := rec.cause()
		switch {
		case err != nil:
			faults = append(faults, fmt.Errorf("causes[%d]: %w", i, err))
		case causes[c.id] != nil:
			faults = append(faults, fmt.Errorf("causes[%d]: %s is given twice; want each id once", i, quote(c.id)))
		default:
			causes[c.id] = c
		}
	}
	return causes, errors.Join(faults...)
}

func (rec CauseRecord) cause() (*Cause, error) {
	c := Cause{id: rec.ID, label: rec.Label, shape: rec.Shape}
	var err error
	if rec.DoF != "" {
		if c.dof, err = parseNumber(rec.DoF); err != nil {
			return nil, fmt.Errorf("dof: %w", err)
		}
	}
	if c.table, err = readTable(rec); err != nil {
		return nil, err
	}
	return newCause(c)
}

func readTable(rec CauseRecord) ([]float64, error) {
	if rec.Shape != Tabled {
		if rec.Quantiles != nil {
			return nil, fmt.Errorf("a %v cause with quantiles; want them with a tabled one only", rec.Shape)
		}
		return nil, nil
	}
	if len(rec.Quantiles) > mostQuantiles {
		return nil, fmt.Errorf("%d quantiles; want 2 to %d", len(rec.Quantiles), mostQuantiles)
	}
	table := make([]float64, len(rec.Quantiles))
	for i, q := range rec.Quantiles {
		x, err := parseNumber(q)
		if err != nil {
			return nil, fmt.Errorf("quantiles[%d]: %w", i, err)
		}
		table[i] = x
	}
	return table, checkStandard(table)
}

func readTerms(records []TermRecord, causes map[string]*Cause) ([]Term, error) {
	var faults []error
	used := make(map[string]bool, len(records))
	terms := make([]Term, 0, len(records))
	for i, rec := range records {
		c, scale, err := rec.read(causes)
		if err == nil && used[c.id] {
			err = fmt.Errorf("cause %s is used twice; want one term for each", quote(c.id))
		}
		if err != nil {
			faults = append(faults, fmt.Errorf("terms[%d]: %w", i, err))
			continue
		}
		used[c.id] = true
		terms = append(terms, Term{c, scale})
	}
	if len(faults) == 0 && len(used) < len(causes) {
		faults = append(faults, fmt.Errorf("%d causes and %d terms; want every cause in a term", len(causes), len(used)))
	}
	return terms, errors.Join(faults...)
}

func (rec TermRecord) read(causes map[string]*Cause) (*Cause, float64, error) {
	c := causes[rec.Cause]
	if c == nil {
		return nil, 0, fmt.Errorf("cause %s: %w; want an id from the causes of the same record", quote(rec.Cause), ErrUnknownCause)
	}
	x, err := parseNumber(rec.Scale)
	if err != nil {
		return nil, 0, fmt.Errorf("scale: %w", err)
	}
	if x == 0 {
		return nil, 0, errors.New("scale of 0; want no term at all")
	}
	return c, x, nil
}

// number writes the shortest decimal that reads back to the same bits; zero has
// no sign.
func number(x float64) string { return strconv.FormatFloat(x+0, 'g', -1, 64) }

// parseNumber takes plain decimals only: ParseFloat also reads hexadecimal, inf and nan.
func parseNumber(s string) (float64, error) {
	if len(s) > 32 || !plain(s) {
		return 0, fmt.Errorf("%s is not a number; want a decimal such as 0.0125 or 1e-05", quote(s))
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil || !finite(x) {
		return 0, fmt.Errorf("%s is not a number; want a finite decimal such as 0.0125 or 1e-05", quote(s))
	}
	return x, nil
}

func plain(s string) bool {
	for i := range len(s) {
		switch b := s[i]; {
		case '0' <= b && b <= '9', b == '.', b == '-', b == '+', b == 'e':
		default:
			return false
		}
	}
	return s != ""
}

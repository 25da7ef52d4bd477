package published

import (
	"math"
	"strconv"
	"strings"
)

// Row is one row of a table.
type Row struct {
	t *Table
	i int
}

func (r Row) record() (record, bool) {
	if r.t == nil || r.i < 0 || r.i >= len(r.t.rows) {
		return record{}, false
	}
	return r.t.rows[r.i], true
}

// Line is the line of the file the row stands on.
func (r Row) Line() int {
	rec, _ := r.record()
	return rec.line
}

// Text gives a cell as it stands, "" when it is blank. A column the table does
// not have is a fault.
func (r Row) Text(column string) string {
	rec, ok := r.record()
	if !ok {
		return ""
	}
	at := r.t.column(column)
	if at < 0 {
		r.t.fault(rec.line, "no column %q; it has %s", clip(column), strings.Join(r.t.columns, ", "))
		return ""
	}
	return rec.cells[at]
}

// Has reports whether the cell holds anything.
func (r Row) Has(column string) bool { return r.Text(column) != "" }

// Float gives a cell as a number. A blank cell, text, NaN or infinity is a
// fault.
func (r Row) Float(column string) float64 { return r.number(column, r.Text(column)) }

func (r Row) number(column, text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		if rec, ok := r.record(); ok {
			r.t.fault(rec.line, "%s: %q is not a number", column, clip(text))
		}
		return 0
	}
	return v
}

// Int gives a cell as a whole number.
func (r Row) Int(column string) int {
	text := r.Text(column)
	v, err := strconv.Atoi(text)
	if err != nil {
		if rec, ok := r.record(); ok {
			r.t.fault(rec.line, "%s: %q is not a whole number", column, clip(text))
		}
		return 0
	}
	return v
}

// Bool gives a cell that says True, yes, False, no or NO.
func (r Row) Bool(column string) bool {
	switch text := r.Text(column); text {
	case "True", "yes":
		return true
	case "False", "no", "NO":
		return false
	default:
		if rec, ok := r.record(); ok {
			r.t.fault(rec.line, "%s: %q is neither yes nor no", column, clip(text))
		}
		return false
	}
}

// List gives the parts of a cell such as "946;4730".
func (r Row) List(column string) []string {
	text := r.Text(column)
	if text == "" {
		return nil
	}
	return strings.Split(text, ";")
}

// Input gives the number named in a cell such as "C=50;d=5;n=4".
func (r Row) Input(column, name string) float64 {
	for _, part := range r.List(column) {
		key, value, ok := strings.Cut(part, "=")
		if ok && key == name {
			return r.number(column, value)
		}
	}
	if rec, ok := r.record(); ok {
		r.t.fault(rec.line, "%s: no input %q in %q", column, clip(name), clip(r.Text(column)))
	}
	return 0
}

// Source names where the row came from.
func (r Row) Source() string {
	rec, ok := r.record()
	if !ok {
		return ""
	}
	return r.t.sourceOf(rec)
}

// Mark says how the row was obtained: where its parts differ, the weakest.
func (r Row) Mark() Mark { return weakest(r.Marks()) }

// Marks lists how the parts of the row were obtained.
func (r Row) Marks() []Mark {
	rec, _ := r.record()
	return append([]Mark(nil), rec.marks...)
}

// SourceOf names where one cell came from: its own source if the header gives
// its column a pedigree, otherwise the row's.
func (r Row) SourceOf(column string) string {
	if p, ok := r.pedigree(column); ok {
		return r.Text(p.source)
	}
	return r.Source()
}

// MarkOf says how one cell was obtained; see SourceOf. A blank cell has no mark.
func (r Row) MarkOf(column string) Mark {
	if !r.Has(column) {
		return 0
	}
	p, ok := r.pedigree(column)
	if !ok {
		return r.Mark()
	}
	marks, err := parseMarks(r.Text(p.mark), " + ")
	if err != nil {
		return 0
	}
	return weakest(marks)
}

func (r Row) pedigree(column string) (pedigree, bool) {
	if r.t == nil {
		return pedigree{}, false
	}
	return r.t.header.pedigreeOf(column)
}

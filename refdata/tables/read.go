package tables

import (
	"embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"example.com/meniscus/units"
)

//go:embed data/*.csv
var data embed.FS

// Pedigree is where a figure comes from and how it was obtained: seen, seen
// second-hand, from memory, computed, common practice or judgement.
type Pedigree struct {
	Source string
	Mark   string
}

// Seen reports whether the figure was read in the text of its source, so that
// it may do more than warn.
func (p Pedigree) Seen() bool { return p.Mark == "seen" }

// file is one table as it stands in data.
type file struct {
	name    string
	columns map[string]int
	header  map[string]string
	rows    [][]string
	err     error
}

func open(name string) *file {
	f := &file{name: name, columns: map[string]int{}, header: map[string]string{}}
	text, err := data.ReadFile("data/" + name + ".csv")
	if err != nil {
		f.err = err
		return f
	}
	for line := range strings.SplitSeq(string(text), "\n") {
		key, value, ok := strings.Cut(strings.TrimPrefix(line, "# "), ": ")
		if !strings.HasPrefix(line, "# ") || !ok {
			break
		}
		f.header[key] = value
	}
	r := csv.NewReader(strings.NewReader(string(text)))
	r.Comment = '#'
	records, err := r.ReadAll()
	if err != nil || len(records) < 2 {
		f.err = fmt.Errorf("tables: %s: %d records: %w", name, len(records), err)
		return f
	}
	for i, column := range records[0] {
		f.columns[column] = i
	}
	f.rows = records[1:]
	return f
}

func (f *file) text(row []string, column string) string {
	i, ok := f.columns[column]
	if !ok {
		if v, ok := f.header[column]; ok {
			return v
		}
		f.fail(column, "no such column")
		return ""
	}
	return row[i]
}

// number reads a cell; an empty one is 0 and ok is false.
func (f *file) number(row []string, column string) (x float64, ok bool) {
	text := f.text(row, column)
	if text == "" {
		return 0, false
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		f.fail(column, err.Error())
		return 0, false
	}
	return x, true
}

func (f *file) length(row []string, column string) units.Length {
	x, _ := f.number(row, column)
	return units.Millimetre.Of(x)
}

func (f *file) torque(row []string, column string) units.Torque {
	x, _ := f.number(row, column)
	return units.NewtonMetre.Of(x)
}

func (f *file) pedigree(row []string) Pedigree {
	return Pedigree{Source: f.text(row, "source"), Mark: f.text(row, "mark")}
}

func (f *file) fail(column, reason string) {
	if f.err == nil {
		f.err = fmt.Errorf("tables: %s: column %s: %s", f.name, column, reason)
	}
}

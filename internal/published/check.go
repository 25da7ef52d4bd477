package published

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
)

// check makes sure that no figure is without a source and a mark.
func (t *Table) check() error {
	if err := t.checkHeaderColumns(); err != nil {
		return err
	}
	var faults []error
	used := map[Mark]bool{}
	for i := range t.rows {
		if err := t.checkRow(&t.rows[i], used); err != nil {
			faults = append(faults, fmt.Errorf("line %d: %w", t.rows[i].line, err))
		}
	}
	if len(faults) == 0 {
		faults = append(faults, t.checkCensus(used))
	}
	return errors.Join(faults...)
}

func (t *Table) checkHeaderColumns() error {
	named := t.sourceColumns()
	if t.header.one("source") != "" && len(named) > 0 {
		return errors.New("a source for the whole table and a source column: want one of the two")
	}
	if t.header.one("source") == "" && len(named) == 0 {
		return errors.New("no source: want a column \"source\", or a header line \"# source: …\" or \"# source from: …\"")
	}
	hasMark := t.column("mark") >= 0
	if hasMark == (t.header.one("mark") != "") {
		return errors.New("want either a column \"mark\" or a header line \"# mark: …\"")
	}
	for _, p := range t.header.pedigrees {
		named = append(named, p.source, p.mark)
		named = append(named, p.columns...)
	}
	return t.has(named)
}

// sourceColumns lists the columns that together name a row's source.
func (t *Table) sourceColumns() []string {
	if from := t.header.one("source from"); from != "" {
		return strings.Split(from, "; ")
	}
	if t.column("source") >= 0 {
		return []string{"source"}
	}
	return nil
}

func (t *Table) sourceOf(rec record) string {
	if whole := t.header.one("source"); whole != "" {
		return whole
	}
	var parts []string
	for _, c := range t.sourceColumns() {
		if cell := rec.cells[t.column(c)]; cell != "" {
			parts = append(parts, cell)
		}
	}
	return strings.Join(parts, ", ")
}

func (t *Table) checkRow(rec *record, used map[Mark]bool) error {
	for i, cell := range rec.cells {
		if strings.TrimSpace(cell) != cell || strings.Contains(cell, "\n") {
			return fmt.Errorf("%s: %q has blanks around it or spans lines", t.columns[i], clip(cell))
		}
	}
	if t.sourceOf(*rec) == "" {
		return errors.New("no source")
	}
	text := t.header.one("mark")
	if at := t.column("mark"); at >= 0 {
		text = rec.cells[at]
	}
	marks, err := parseMarks(text, " + ")
	if err != nil {
		return err
	}
	rec.marks = marks
	note(used, marks)
	return t.checkPedigrees(*rec, used)
}

func (t *Table) checkPedigrees(rec record, used map[Mark]bool) error {
	cell := func(column string) string { return rec.cells[t.column(column)] }
	for _, p := range t.header.pedigrees {
		filled := slices.ContainsFunc(p.columns, func(c string) bool { return cell(c) != "" })
		if !filled {
			continue
		}
		if cell(p.source) == "" {
			return fmt.Errorf("%s: no %s", strings.Join(p.columns, ", "), p.source)
		}
		marks, err := parseMarks(cell(p.mark), " + ")
		if err != nil {
			return fmt.Errorf("%s: %w", p.mark, err)
		}
		note(used, marks)
	}
	return nil
}

func note(used map[Mark]bool, marks []Mark) {
	for _, m := range marks {
		used[m] = true
	}
}

// checkCensus compares the marks a reader is promised with the marks there are.
func (t *Table) checkCensus(used map[Mark]bool) error {
	for _, m := range Marks() {
		promised := slices.Contains(t.header.marks, m)
		if promised && !used[m] {
			return fmt.Errorf("the header promises the mark %q; no row has it", m)
		}
		if used[m] && !promised {
			return fmt.Errorf("a row has the mark %q; the header's marks leave it out", m)
		}
	}
	return nil
}

// Check walks a file system of tables: every file must be a table that opens,
// and there must be one at least.
func Check(fsys fs.FS) error {
	var faults []error
	count := 0
	err := fs.WalkDir(fsys, ".", func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		count++
		if path.Ext(file) != ".csv" {
			faults = append(faults, fmt.Errorf("published: %s: stray file; want only *.csv", file))
			return nil
		}
		if _, err := Open(fsys, file); err != nil {
			faults = append(faults, err)
		}
		return nil
	})
	if count == 0 && err == nil {
		err = errors.New("published: no table at all")
	}
	return errors.Join(append(faults, err)...)
}

package published

import (
	"embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

//go:embed testdata/published/*.csv
var tables embed.FS

const folder = "testdata/published"

// Names lists the tables, in order of name.
func Names() []string {
	found, err := fs.Glob(tables, folder+"/*.csv")
	if err != nil {
		return nil // cannot be: the pattern is a constant that parses
	}
	for i, f := range found {
		found[i] = strings.TrimSuffix(path.Base(f), ".csv")
	}
	return found
}

// Load opens a table by its name, such as "exchange_vectors". Any fault, now or
// when a cell is read, stops the test.
func Load(tb testing.TB, name string) *Table {
	tb.Helper()
	t, err := Open(tables, folder+"/"+name+".csv")
	if err != nil {
		tb.Fatalf("%v\nthe tables are: %s", err, strings.Join(Names(), ", "))
	}
	t.tb = tb
	return t
}

// Open reads and checks one table. It reports every fault at once.
func Open(fsys fs.FS, file string) (*Table, error) {
	raw, err := fs.ReadFile(fsys, file)
	if err != nil {
		return nil, fmt.Errorf("published: %w", err)
	}
	t := &Table{name: strings.TrimSuffix(path.Base(file), ".csv")}
	if err := t.parse(raw); err != nil {
		return nil, fmt.Errorf("published: %s: %w", path.Base(file), err)
	}
	return t, nil
}

func (t *Table) parse(raw []byte) error {
	text := string(raw)
	if !utf8.ValidString(text) || strings.ContainsAny(text, "\r\x00\uFEFF") {
		return errors.New("want UTF-8 with bare line feeds, no byte-order mark")
	}
	var lines []string
	for strings.HasPrefix(text, "#") {
		line, rest, _ := strings.Cut(text, "\n")
		lines, text = append(lines, line), rest
	}
	h, err := parseHeader(lines)
	if err != nil {
		return err
	}
	t.header = h
	if err := t.parseBody(text, len(lines)); err != nil {
		return err
	}
	return t.check()
}

func (t *Table) parseBody(text string, skipped int) error {
	r := csv.NewReader(strings.NewReader(text))
	all, err := r.ReadAll() // every row must have as many cells as the first
	if err != nil {
		var pe *csv.ParseError
		if errors.As(err, &pe) {
			return fmt.Errorf("line %d: %w", pe.Line+skipped, pe.Err)
		}
		return err
	}
	if len(all) < 2 {
		return errors.New("no rows")
	}
	t.columns = all[0]
	if err := checkColumns(t.columns); err != nil {
		return err
	}
	// A cell never holds a line feed here, so rows and lines march together.
	for i, cells := range all[1:] {
		t.rows = append(t.rows, record{line: skipped + i + 2, cells: cells})
	}
	return nil
}

func checkColumns(columns []string) error {
	for i, c := range columns {
		if strings.TrimSpace(c) != c || c == "" {
			return fmt.Errorf("column %d: name %q is blank or has blanks around it", i+1, clip(c))
		}
		if slices.Index(columns, c) != i {
			return fmt.Errorf("column %q stands twice", clip(c))
		}
	}
	return nil
}

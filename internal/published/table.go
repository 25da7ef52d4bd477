package published

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
)

// Table is one file of outside values.
type Table struct {
	name    string
	header  header
	columns []string
	rows    []record
	tb      testing.TB // nil when opened without a test
	err     error
}

type record struct {
	line  int
	cells []string
	marks []Mark
}

// Name is the file's name without its ending.
func (t *Table) Name() string { return t.name }

// Title says what the table holds.
func (t *Table) Title() string { return t.header.one("title") }

// Header gives the value of a header key such as "edition" or "tolerance", or
// "" when the table has no such line.
func (t *Table) Header(key string) string { return t.header.one(key) }

// Columns lists the columns in file order.
func (t *Table) Columns() []string { return slices.Clone(t.columns) }

// Rows lists the rows in file order.
func (t *Table) Rows() []Row {
	rows := make([]Row, len(t.rows))
	for i := range t.rows {
		rows[i] = Row{t, i}
	}
	return rows
}

// Where lists the rows whose column holds exactly text. None at all is a fault:
// a loop over nothing would be a test that cannot fail.
func (t *Table) Where(column, text string) []Row {
	var found []Row
	for _, r := range t.Rows() {
		if r.Text(column) == text {
			found = append(found, r)
		}
	}
	if len(found) == 0 {
		t.fault(0, "no row whose %s is %q", column, clip(text))
	}
	return found
}

// Find gives the one row whose column holds exactly text. None, or more than
// one, is a fault.
func (t *Table) Find(column, text string) Row {
	found := t.Where(column, text)
	if len(found) > 1 {
		t.fault(0, "%d rows whose %s is %q; want one", len(found), column, clip(text))
	}
	if len(found) == 0 {
		return Row{t, -1}
	}
	return found[0]
}

// Err gives every fault met while reading cells of a table opened with Open.
// A table opened with Load has none: its faults stop the test.
func (t *Table) Err() error { return t.err }

func (t *Table) fault(line int, format string, args ...any) {
	where := t.name + ".csv"
	if line > 0 {
		where = fmt.Sprintf("%s:%d", where, line)
	}
	err := fmt.Errorf("published: %s: "+format, append([]any{where}, args...)...)
	if t.tb != nil {
		t.tb.Helper()
		t.tb.Fatal(err)
	}
	t.err = errors.Join(t.err, err)
}

func (t *Table) column(name string) int { return slices.Index(t.columns, name) }

// has reports whether every one of the names is a column; it names the first
// that is not.
func (t *Table) has(names []string) error {
	for _, n := range names {
		if t.column(n) < 0 {
			return fmt.Errorf("no column %q; it has %s", clip(n), strings.Join(t.columns, ", "))
		}
	}
	return nil
}

package tables

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

var update = flag.Bool("update", false, "write comparisons.md")

// law is one comparison: a law of the library and the table it is held against.
type law struct {
	name, table string
	compare     func(t *testing.T, table *published.Table, c *comparison)
}

// comparison counts what a law was compared with.
type comparison struct {
	t       *testing.T
	rows    map[int]published.Mark // by line
	figures int
	refused int     // published errors, which must not be met
	off     float64 // worst deviation, relative
	spent   float64 // worst deviation over what is allowed
}

// see compares one figure of a row: the tolerance is the row's, or that of the
// digits it was computed to.
func (c *comparison) see(row published.Row, got, want, tolerance float64) {
	c.t.Helper()
	c.rows[row.Line()] = row.Mark()
	c.figures++
	d := math.Abs(got - want)
	if !(d <= tolerance) {
		c.t.Errorf("line %d: %.15g; want %.15g ± %g (%s)", row.Line(), got, want, tolerance, row.Source())
	}
	if want != 0 {
		c.off = max(c.off, d/math.Abs(want))
	}
	if tolerance > 0 {
		c.spent = max(c.spent, d/tolerance)
	}
}

// row compares with the published figure, or with ours where nothing is printed.
func (c *comparison) row(row published.Row, got float64) {
	c.t.Helper()
	if !row.Has("published") {
		c.see(row, got, row.Float("computed"), 1e-9*math.Abs(row.Float("computed")))
		return
	}
	c.see(row, got, row.Float("published"), row.Float("tolerance"))
}

// wrong notes a published error: the library must not meet it.
func (c *comparison) wrong(row published.Row, got, not, tolerance float64) {
	c.t.Helper()
	c.refused++
	if math.Abs(got-not) <= tolerance {
		c.t.Errorf("line %d: %v meets a published error", row.Line(), got)
	}
}

// marks are the columns of the table: how the figures were obtained.
func marks() []published.Mark {
	return []published.Mark{published.Seen, published.SeenSecondHand, published.FromMemory, published.Computed}
}

func header() string {
	return "| law | table | figures | rows seen | second-hand | from memory | computed | errors not met | worst deviation | of what is allowed |\n" +
		"|---|---|--:|--:|--:|--:|--:|--:|--:|--:|\n"
}

func (c *comparison) markdown(l law) string {
	line := fmt.Sprintf("| %s | %s | %d |", l.name, l.table, c.figures)
	count := map[published.Mark]int{}
	for _, m := range c.rows {
		count[m]++
	}
	for _, m := range marks() {
		line += fmt.Sprintf(" %d |", count[m])
		delete(count, m)
	}
	if len(count) > 0 {
		c.t.Errorf("%s: rows with marks that have no column: %v", l.name, count)
	}
	return line + fmt.Sprintf(" %d | %.0e | %.0f %% |\n", c.refused, c.off, math.Ceil(100*c.spent))
}

func TestComparisons(t *testing.T) {
	out := header()
	for _, l := range laws() {
		t.Run(l.name, func(t *testing.T) {
			c := &comparison{t: t, rows: map[int]published.Mark{}}
			l.compare(t, published.Load(t, l.table), c)
			if c.figures == 0 {
				t.Error("nothing was compared")
			}
			out += c.markdown(l)
		})
	}
	t.Log("\n" + out)
	if t.Failed() {
		return
	}
	const file = "comparisons.md"
	if *update {
		if err := os.WriteFile(file, []byte(out), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	stored, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if string(stored) != out {
		t.Errorf("%s is not what comes out; look at the difference, then: go test . -update", file)
	}
}

// The comparison itself must be able to fail.
func TestComparisonSeesFaults(t *testing.T) {
	row := published.Load(t, "exchange_vectors").Rows()[0]
	for _, k := range []struct {
		got    float64
		failed bool
	}{{row.Float("published"), false}, {row.Float("published") + 2*row.Float("tolerance"), true}, {math.NaN(), true}} {
		quiet := &testing.T{}
		c := &comparison{t: quiet, rows: map[int]published.Mark{}}
		c.row(row, k.got)
		if quiet.Failed() != k.failed {
			t.Errorf("%v: failed %v", k.got, quiet.Failed())
		}
	}
}

func litres(x float64) units.Volume { return units.Litre.Of(x) }

func must[T any](t *testing.T) func(T, error) T {
	return func(x T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
}

// lead is the number that a cell such as "97.46 mL" starts with.
func lead(t *testing.T, cell string) float64 {
	t.Helper()
	word, _, _ := strings.Cut(strings.TrimSpace(cell), " ")
	return number(t, strings.TrimRight(word, "CFKLm"))
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	var x float64
	if n, err := fmt.Sscan(s, &x); n != 1 || err != nil {
		t.Fatalf("%q is no number", s)
	}
	return x
}

// part is a number in a cell such as "rho15=850;t=0C", its unit aside.
func part(t *testing.T, row published.Row, name string) float64 {
	t.Helper()
	for _, p := range row.List("inputs") {
		if text, ok := strings.CutPrefix(strings.TrimSpace(p), name+"="); ok {
			return lead(t, text)
		}
	}
	t.Fatalf("line %d: no %s", row.Line(), name)
	return 0
}

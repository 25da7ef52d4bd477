package published

import (
	"fmt"
	"runtime"
	"slices"
	"strings"
	"testing"
)

func demo(t *testing.T) *Table {
	t.Helper()
	table, err := Open(oneFile(good), "demo.csv")
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func TestReadingCells(t *testing.T) {
	table := demo(t)
	r := table.Find("name", "a")
	if r.Line() != 8 || r.Text("name") != "a" || r.Float("value") != 1.5 || !r.Bool("flag") ||
		r.Input("inputs", "d") != 5 || !slices.Equal(r.List("sizes"), []string{"4", "20"}) ||
		r.Source() != "a book" || r.Mark() != Seen {
		t.Errorf("row a read wrong: line %d", r.Line())
	}
	b := table.Find("name", "b")
	if b.Has("value") || b.Bool("flag") || b.List("sizes") != nil {
		t.Error("row b read wrong")
	}
	if table.Err() != nil {
		t.Error(table.Err())
	}
	if table.Name() != "demo" || table.Title() != "Demo" || table.Header("edition") != "first" || len(table.Columns()) != 7 {
		t.Error("head read wrong")
	}
}

// Every wrong reading must be a fault: a zero that nobody asked for would make
// a check that cannot fail.
func TestWrongReadingsAreFaults(t *testing.T) {
	cases := []struct {
		name string
		read func(*Table)
		want string
	}{
		{"stray column", func(t *Table) { t.Rows()[0].Text("colour") }, `:8: no column "colour"`},
		{"blank number", func(t *Table) { t.Rows()[1].Float("value") }, `:9: value: "" is not a number`},
		{"text as number", func(t *Table) { t.Rows()[0].Float("name") }, "not a number"},
		{"fraction as whole number", func(t *Table) { t.Rows()[0].Int("value") }, "not a whole number"},
		{"text as yes or no", func(t *Table) { t.Rows()[0].Bool("name") }, "neither yes nor no"},
		{"stray input", func(t *Table) { t.Rows()[0].Input("inputs", "q") }, `no input "q"`},
		{"none found", func(t *Table) { t.Find("name", "c") }, "no row whose name"},
		{"two found", func(t *Table) { t.Find("source", "a book") }, "2 rows whose source"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			table := demo(t)
			c.read(table)
			if table.Err() == nil || !strings.Contains(table.Err().Error(), c.want) {
				t.Errorf("got %v; want %q in it", table.Err(), c.want)
			}
		})
	}
}

// A row that was not found answers nothing, and its fault names no line.
func TestMissingRowIsHarmless(t *testing.T) {
	table := demo(t)
	r := table.Find("name", "c")
	if r.Text("name") != "" || r.Line() != 0 || r.Mark() != 0 {
		t.Error("the missing row is not empty")
	}
	if got := table.Err().Error(); !strings.HasPrefix(got, "published: demo.csv: no row") {
		t.Errorf("fault %q", got)
	}
	if beyond := (Row{table, 2}); beyond.Text("name") != "" || beyond.Line() != 0 {
		t.Error("a row past the end is not empty")
	}
}

func TestNotANumberIsRefused(t *testing.T) {
	for _, text := range []string{"NaN", "Inf", "-Inf", "1e999"} {
		table, err := Open(oneFile(strings.Replace(good, "1.5", text, 1)), "demo.csv")
		if err != nil {
			t.Fatal(err)
		}
		if got := table.Rows()[0].Float("value"); got != 0 || table.Err() == nil {
			t.Errorf("%s read as %g, fault %v", text, got, table.Err())
		}
	}
}

func TestZeroRowIsHarmless(t *testing.T) {
	var r Row
	if r.Text("x") != "" || r.Float("x") != 0 || r.Int("x") != 0 || r.Bool("x") || r.List("x") != nil ||
		r.Input("x", "y") != 0 || r.Line() != 0 || r.Source() != "" || r.Mark() != 0 ||
		r.SourceOf("x") != "" || r.MarkOf("x") != 0 {
		t.Error("the zero row is not empty")
	}
}

// stopped is a test that stops its goroutine as a real one does.
type stopped struct {
	testing.TB
	said string
}

func (s *stopped) Helper()                   {}
func (s *stopped) Fatal(args ...any)         { s.said = fmt.Sprint(args...); runtime.Goexit() }
func (s *stopped) Fatalf(f string, a ...any) { s.Fatal(fmt.Sprintf(f, a...)) }

func stop(f func(testing.TB)) string {
	s := &stopped{}
	done := make(chan bool)
	go func() { defer close(done); f(s) }()
	<-done
	return s.said
}

func TestLoadStopsTheTest(t *testing.T) {
	said := stop(func(tb testing.TB) { Load(tb, "no_such_table") })
	if !strings.Contains(said, "no_such_table") || !strings.Contains(said, "exchange_vectors") {
		t.Errorf("a missing table: %q", said)
	}
	said = stop(func(tb testing.TB) { Load(tb, "exchange_interval").Rows()[0].Float("colour") })
	if !strings.Contains(said, `exchange_interval.csv:`) || !strings.Contains(said, "colour") {
		t.Errorf("a stray column: %q", said)
	}
}

func TestMarkSpellings(t *testing.T) {
	for _, m := range Marks() {
		back, err := parseMark(m.String())
		if err != nil || back != m {
			t.Errorf("%v came back as %v, %v", m, back, err)
		}
	}
	if Mark(0).String() != "no mark" || Mark(99).String() != "no mark" {
		t.Error("a mark that is none has a name")
	}
	if weakest([]Mark{Seen, FromMemory, Computed}) != FromMemory || weakest(nil) != 0 {
		t.Error("weakest is wrong")
	}
	forty := strings.Repeat("x", 40)
	if clip(forty) != forty || clip(forty+"x") != forty+"…" {
		t.Errorf("clip makes %q", clip(forty+"x"))
	}
}

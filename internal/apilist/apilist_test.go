package apilist

import (
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/meniscus/internal/source"
)

var rewrite = flag.Bool("update", false, "write .ci/api.txt anew")

const header = "# What other projects can reach. Written by: go test ./internal/apilist -update\n"

func TestAPI(t *testing.T) {
	root, err := source.Root(".")
	if err != nil {
		t.Fatal(err)
	}
	m, err := source.Load(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range m.Packages {
		if p.Library() && p.Broken != nil {
			t.Fatalf("%s does not compile:\n%v", p.Path, p.Broken)
		}
	}
	file := filepath.Join(root, ".ci", "api.txt")
	now := Lines(m)
	if *rewrite {
		if err := os.WriteFile(file, []byte(header+strings.Join(now, "\n")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	was := strings.Split(strings.TrimSpace(strings.TrimPrefix(string(text), header)), "\n")
	gone, added := difference(was, now)
	for _, line := range gone {
		t.Errorf("- %s", line)
	}
	for _, line := range added {
		t.Errorf("+ %s", line)
	}
	if t.Failed() {
		t.Log("if the change is meant, and CHANGELOG.md says so: go test ./internal/apilist -update")
	}
}

// difference gives what only one of two sorted lists has.
func difference(was, now []string) (gone, added []string) {
	for _, line := range was {
		if _, ok := slices.BinarySearch(now, line); !ok {
			gone = append(gone, line)
		}
	}
	for _, line := range now {
		if !slices.Contains(was, line) {
			added = append(added, line)
		}
	}
	return gone, added
}

func load(t *testing.T, text string) *source.Module {
	t.Helper()
	root := t.TempDir()
	if err := os.MkdirAll(filepath.Join(root, "p"), 0o755); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"go.mod": "module example.com/demo\n\ngo 1.25\n", "p/p.go": text} {
		if err := os.WriteFile(filepath.Join(root, filepath.FromSlash(name)), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	m, err := source.Load(root)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

const demo = `package p

import "errors"

const Half, hidden = 0.5, 1

type Unit uint8

const Litre Unit = 2

var ErrBad = errors.New("bad")

type Dim interface {
	~uint8
	dim()
}

type Q[D Dim] struct {
	_ [0]D
	n int64
}

func (q Q[D]) Add(r Q[D]) Q[D] { return q }

func (q *Q[D]) Set(text string) error { return nil }

type Plain interface{ Do(int) error }

type base struct{ Name string }

func (base) String() string { return "" }

type Record struct {
	base
	Amount []Unit ` + "`json:\"amount,omitzero\"`" + `
	note   string
}

type Alias = Q[VolumeDim]

type VolumeDim uint8

func (VolumeDim) dim() {}

func Parse[D Dim](text string) (Q[D], error) { return Q[D]{}, nil }

func quiet() {}
`

func TestLines(t *testing.T) {
	want := []string{
		"p: const Half untyped float = 1/2",
		"p: const Litre Unit = 2",
		"p: func (*Q) Set(text string) error",
		"p: func (Q) Add(r Q[D]) Q[D]",
		"p: func (Record) String() string",
		"p: func Parse[D Dim](text string) (Q[D], error)",
		"p: type Alias = Q[VolumeDim]",
		"p: type Dim admits ~uint8",
		"p: type Dim closed: it has a method nobody else can write",
		"p: type Dim interface",
		"p: type Plain interface",
		"p: type Plain method Do(int) error",
		"p: type Q[D Dim] struct, comparable",
		"p: type Record field Amount []Unit `json:\"amount,omitzero\"`",
		"p: type Record struct",
		"p: type Unit uint8",
		"p: type VolumeDim uint8",
		"p: var ErrBad error",
	}
	if got := Lines(load(t, demo)); !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// Each of these breaks somebody's build, so each must change the list.
func TestBreaksChangeTheList(t *testing.T) {
	before := Lines(load(t, demo))
	breaks := map[string][2]string{
		"removed field":     {"\tAmount []Unit `json:\"amount,omitzero\"`\n", ""},
		"renamed field":     {"Amount []Unit", "Amounts []Unit"},
		"other tag":         {"omitzero", "omitempty"},
		"other value":       {"Half, hidden = 0.5", "Half, hidden = 0.25"},
		"removed func":      {"func Parse[D Dim]", "func parse[D Dim]"},
		"other parameter":   {"func (q Q[D]) Add(r Q[D])", "func (q Q[D]) Add(r *Q[D])"},
		"pointer receiver":  {"func (q Q[D]) Add", "func (q *Q[D]) Add"},
		"method on demand":  {"Do(int) error", "Do(int) error; Undo()"},
		"opened interface":  {"\tdim()\n", ""},
		"not comparable":    {"\tn int64\n", "\tn []int64\n"},
		"promoted is gone":  {"func (base) String", "func (base) string"},
		"other sentinel":    {"ErrBad = errors.New(\"bad\")", "ErrBad *int"},
		"other alias":       {"type Alias = Q[VolumeDim]", "type Alias = VolumeDim"},
		"other constraint":  {"~uint8", "~uint8 | ~uint16"},
		"other result type": {"(Q[D], error) { return Q[D]{}, nil }", "Q[D] { return Q[D]{} }"},
	}
	for name, b := range breaks {
		t.Run(name, func(t *testing.T) {
			after := strings.Replace(demo, b[0], b[1], 1)
			if after == demo {
				t.Fatal("the case changes nothing")
			}
			gone, added := difference(before, Lines(load(t, after)))
			if len(gone)+len(added) == 0 {
				t.Error("the list is the same")
			}
		})
	}
}

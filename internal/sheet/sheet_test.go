package sheet_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/meniscus/internal/sheet"
)

const tern = `#:schema ./procedure-1.schema.json
format   = 1
id       = "tern-6"
title    = "Tern six-speed (invented)"

[source.sheet]
title = "Saltmarsh workshop sheet 12, issue 3"
kind  = "manual"              # manual, standard, measured

[capacity]
from  = "sheet p.2"
total = "9.6..10.4 L"
[capacity.drain]
value = "2.1 L"
note  = """
One cold drain,
30 min."""

[plug.drain]
torque   = "24 N·m"
cautions = [
  "hot fluid",      # 60 °C and more
  'raised vehicle',
]

[step.100]
say = "last"
[step.20]
say = "second"
[step.3]
say = "first"
`

func parse(t *testing.T, text string) *sheet.Doc {
	t.Helper()
	doc, err := sheet.Parse("bad.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func TestReadsASheet(t *testing.T) {
	doc := parse(t, tern)
	root := doc.Root()
	if n, ok := root.Integer("format"); n != 1 || !ok {
		t.Errorf("format = %d, %v", n, ok)
	}
	if id := root.Need("id"); id.String() != "tern-6" || id.At() != (sheet.Pos{Offset: 59, Line: 3, Col: 12}) {
		t.Errorf("id = %q at %+v", id, id.At())
	}
	root.Need("title")
	for _, source := range root.Sub("source").Subs() {
		source.Need("title")
		if kind, ok := source.Need("kind").Choice("manual", "standard"); kind != "manual" || !ok {
			t.Errorf("kind = %q, %v", kind, ok)
		}
	}
	capacity := root.Sub("capacity")
	capacity.String("from")
	capacity.String("total")
	drain := capacity.Sub("drain")
	drain.Need("value")
	if note := drain.Text("note"); note.String() != "One cold drain,\n30 min." {
		t.Errorf("note = %q", note)
	}
	plug := root.Sub("plug").Sub("drain")
	if torque := plug.Need("torque"); torque.String() != "24 N·m" || torque.Path() != "plug.drain.torque" {
		t.Errorf("torque = %q, path %s", torque, torque.Path())
	}
	cautions, ok := plug.NeedList("cautions")
	if !ok || len(cautions) != 2 || cautions[1].String() != "raised vehicle" || cautions[1].At().Line != 23 || cautions[1].At().Col != 3 {
		t.Errorf("cautions = %v, %v", cautions, ok)
	}
	var said []string
	for _, step := range root.Sub("step").Numbered() {
		said = append(said, step.Need("say").String())
	}
	if got := strings.Join(said, " "); got != "first second last" {
		t.Errorf("steps %s", got)
	}
	if err := doc.Finish(); err != nil {
		t.Error(err)
	}
}

func TestFaultsAreErrors(t *testing.T) {
	doc := parse(t, "id = 2.1\nname = true\n")
	err := doc.Finish()
	var all sheet.Faults
	if !errors.As(err, &all) || len(all.All) != 2 {
		t.Fatalf("faults: %v", err)
	}
	var one sheet.Fault
	if !errors.As(err, &one) || one.Code != "sheet-float" {
		t.Fatalf("first fault: %v", one)
	}
	want := `bad.toml:1:6: id: 2.1 is a bare number
    write it in quotes with its unit, such as "2.1 L" or "24 N·m"
bad.toml:2:8: name: true without quotes
    write "yes" or "no" in quotes`
	if err.Error() != want {
		t.Errorf("got\n%s\nwant\n%s", err, want)
	}
}

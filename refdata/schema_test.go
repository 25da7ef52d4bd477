package refdata

import (
	"bytes"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/meniscus/internal/sheet"
)

// full writes a file of the kind with every key of the layout, each with its
// example.
func full(kind string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "format = 1\nkind = %q\n", kind)
	for _, sec := range layout(kind) {
		if sec.path != "" {
			name := strings.Replace(sec.path, "*", "drain", 1)
			fmt.Fprintf(&b, "[%s]\n", name)
			if !sec.bare {
				b.WriteString("from = \"sheet\"\n")
			}
		}
		for _, k := range sec.keys {
			example := k.form.example
			if strings.HasPrefix(k.form.name, "list") {
				fmt.Fprintf(&b, "%s = [%q]\n", k.name, example)
				continue
			}
			fmt.Fprintf(&b, "%s = %q\n", k.name, example)
		}
	}
	b.WriteString("[source.sheet]\ntitle = \"a sheet\"\nkind = \"manual\"\n")
	return b.String()
}

// TestLayoutIsWhatTheLoaderAsksFor holds the layout, and with it schema and
// template, equal to the reader's own questions.
func TestLayoutIsWhatTheLoaderAsksFor(t *testing.T) {
	for _, kind := range Kinds() {
		doc, err := sheet.Parse(kind+".toml", []byte(full(kind)))
		if err != nil {
			t.Fatal(err)
		}
		b := newBuilder(checks{})
		b.read(0, doc)
		if len(b.all) != 1 {
			t.Fatal(doc.Faults())
		}
		var asked, known []string
		v := open([]*file{b.all[0]})
		v.asked = &asked
		r := &reader{checks: emptyChecks(t)}
		switch kind {
		case "procedure":
			r.procedure(v)
		case "fluid":
			r.fluid(v)
		case "shop":
			r.shop(v)
		}
		v.str("revision") // asked for every kind by build
		_ = doc.Finish()
		for _, f := range doc.Faults().All {
			if strings.HasPrefix(f.Code, "sheet-") {
				t.Errorf("%s: %v", kind, f)
			}
		}
		for _, sec := range layout(kind) {
			for _, k := range sec.keys {
				known = append(known, strings.TrimPrefix(sec.path+"."+k.name, "."))
			}
		}
		if kind != "shop" && len(known) < 10 {
			t.Errorf("%s: only %d keys", kind, len(known))
		}
		if got, want := questions(asked), sorted(known); !slices.Equal(got, want) {
			t.Errorf("%s: asked for\n%v\nthe layout has\n%v", kind, got, want)
		}
	}
}

// questions drops tables and puts * for names of the writer's own.
func questions(asked []string) []string {
	var list []string
	for _, path := range asked {
		parts := strings.Split(path, ".")
		if len(parts) == 3 {
			parts[1] = "*"
		}
		path = strings.Join(parts, ".")
		isTable := slices.ContainsFunc(asked, func(other string) bool { return strings.HasPrefix(other, path+".") })
		if !isTable && !strings.HasSuffix(path, "*") && !(len(parts) == 2 && parts[1] == "drain" && parts[0] != "capacity") {
			list = append(list, path)
		}
	}
	return sorted(list)
}

func sorted(list []string) []string {
	slices.Sort(list)
	return slices.Compact(list)
}

func emptyChecks(t *testing.T) checks {
	t.Helper()
	c, err := allChecks()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestSchemasAreCurrent(t *testing.T) {
	for _, kind := range Kinds() {
		now, err := Schema(kind)
		if err != nil {
			t.Fatal(err)
		}
		name := fmt.Sprintf("schema/%s-%d.schema.json", kind, currentFormat)
		if *update {
			if err := os.WriteFile(name, now, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		kept, err := os.ReadFile(name)
		if err != nil || !bytes.Equal(now, kept) {
			t.Errorf("%s is not what Schema gives; run the test with -update (%v)", name, err)
		}
	}
	if _, err := Schema("job"); err == nil {
		t.Error("a schema for a kind that is none")
	}
}

// without leaves a table, or one key of it, out of full(kind).
func without(kind, table, key string) string {
	var kept []string
	in := ""
	for line := range strings.SplitSeq(full(kind), "\n") {
		if strings.HasPrefix(line, "[") {
			in = strings.Trim(line, "[]")
		}
		name, _, _ := strings.Cut(line, " = ")
		if in == table && (key == "" && table != "" || name == key && key != "") {
			continue
		}
		kept = append(kept, line)
	}
	return strings.Join(kept, "\n")
}

// TestWhatTheLayoutNeedsTheLoaderNeeds leaves out one thing after the other:
// what the layout calls needed is missed, and nothing else is.
func TestWhatTheLayoutNeedsTheLoaderNeeds(t *testing.T) {
	for _, kind := range Kinds() {
		for _, sec := range layout(kind) {
			table := strings.Replace(sec.path, "*", "drain", 1)
			if sec.path != "" && !strings.HasSuffix(sec.path, "*") && sec.path != "price" {
				miss(t, kind, table, "", sec.need)
			}
			for _, k := range sec.keys {
				miss(t, kind, table, k.name, k.need)
			}
		}
	}
}

func miss(t *testing.T, kind, table, key string, need bool) {
	t.Helper()
	found, err := Check(fstest.MapFS{"a.toml": {Data: []byte(without(kind, table, key))}}, ".")
	if err != nil {
		t.Fatal(err)
	}
	path := strings.Trim(table+"."+key, ".")
	missed := slices.ContainsFunc(found, func(f Finding) bool { return f.Code == "sheet-missing" && f.Key == path })
	if missed != need {
		t.Errorf("%s without %s: missed %v, needed %v", kind, path, missed, need)
	}
}

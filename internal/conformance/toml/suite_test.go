package toml

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"example.com/meniscus/internal/sheet"
	tomltest "github.com/toml-lang/toml-test/v2"
)

// Source of documents and numbers: github.com/toml-lang/toml-test v2.2.0, list files-toml-1.0.0.
const (
	list     = "files-toml-1.0.0"
	invalid  = 474
	valid    = 205
	accepted = 46 // of the valid ones
)

// documents gives the names of the TOML files of one folder of the suite.
func documents(t *testing.T, suite fs.FS, folder string) []string {
	t.Helper()
	index, err := suite.Open(list)
	if err != nil {
		t.Fatal(err)
	}
	defer index.Close()
	var names []string
	for lines := bufio.NewScanner(index); lines.Scan(); {
		if name := lines.Text(); strings.HasPrefix(name, folder+"/") && strings.HasSuffix(name, ".toml") {
			names = append(names, name)
		}
	}
	return names
}

// read gives the document, or nil if the reader refused it in any way.
func read(t *testing.T, suite fs.FS, name string) *sheet.Doc {
	t.Helper()
	data, err := fs.ReadFile(suite, name)
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if r := recover(); r != nil {
			t.Errorf("%s: panic: %v", name, r)
		}
	}()
	doc, err := sheet.Parse(name, data)
	if err != nil || doc.Err() != nil {
		return nil
	}
	return doc
}

func TestInvalidDocumentsAreRefused(t *testing.T) {
	suite := tomltest.TestCases()
	names := documents(t, suite, "invalid")
	if len(names) != invalid {
		t.Fatalf("the suite has %d invalid documents, want %d", len(names), invalid)
	}
	for _, name := range names {
		if read(t, suite, name) != nil {
			t.Errorf("%s: accepted", name)
		}
	}
}

func TestValidDocumentsMeanWhatTheSuiteSays(t *testing.T) {
	suite := tomltest.TestCases()
	names := documents(t, suite, "valid")
	if len(names) != valid {
		t.Fatalf("the suite has %d valid documents, want %d", len(names), valid)
	}
	n := 0
	for _, name := range names {
		doc := read(t, suite, name)
		if doc == nil {
			continue
		}
		n++
		data, err := fs.ReadFile(suite, strings.TrimSuffix(name, ".toml")+".json")
		if err != nil {
			t.Fatal(err)
		}
		var want any
		if err := json.Unmarshal(data, &want); err != nil {
			t.Fatal(err)
		}
		if diff := compare(doc.Root(), want); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
	if n != accepted {
		t.Errorf("accepted %d of the valid documents, want %d", n, accepted)
	}
}

// compare holds a table against the suite's tagged JSON, both ways; it gives the first difference.
func compare(t *sheet.Table, want any) string {
	tree, ok := want.(map[string]any)
	if !ok || len(tree) != len(t.Names()) {
		return fmt.Sprintf("%q: has %v, want %v", t.Path(), t.Names(), want)
	}
	for name, value := range tree {
		switch t.Kind(name) {
		case sheet.Group:
			if diff := compare(t.Sub(name), value); diff != "" {
				return diff
			}
		case sheet.List:
			items, _ := t.List(name)
			list, ok := value.([]any)
			if !ok || len(list) != len(items) {
				return fmt.Sprintf("%s: list of %d, want %v", name, len(items), value)
			}
			for i := range items {
				if items[i].String() != word(list[i]) {
					return fmt.Sprintf("%s: %q, want %v", items[i].Path(), items[i], list[i])
				}
			}
		default:
			if got := t.Text(name); !got.OK() || got.String() != word(value) {
				return fmt.Sprintf("%s: %q, want %v", got.Path(), got, value)
			}
		}
	}
	return ""
}

// word gives the value of a tagged string.
func word(tagged any) string {
	m, ok := tagged.(map[string]any)
	if !ok || m["type"] != "string" {
		return "\x00 not a string"
	}
	s, _ := m["value"].(string)
	return s
}

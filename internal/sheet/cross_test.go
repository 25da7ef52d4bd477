package sheet_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/meniscus/internal/sheet"
	"github.com/BurntSushi/toml"
)

// TestPlacesAgreeWithTheLibrary holds our index of places against the library's, where the library is right: the line and
// offset of values in keyed tables, and the line of headers. Columns are then counted anew from the offset.
func TestPlacesAgreeWithTheLibrary(t *testing.T) {
	files, err := filepath.Glob("testdata/valid/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		doc := parse(t, string(data))
		var tree map[string]toml.Primitive
		meta, err := toml.Decode(string(data), &tree)
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		checked += crossCheck(t, file, string(data), doc.Root(), meta, tree)
	}
	if checked < 60 {
		t.Errorf("checked %d places", checked)
	}
}

func crossCheck(t *testing.T, file, src string, table *sheet.Table, meta toml.MetaData, tree map[string]toml.Primitive) int {
	t.Helper()
	n := 0
	for name, value := range tree {
		at, err := libraryPlace(meta, value)
		if err != nil {
			t.Fatalf("%s: %s: %v", file, name, err)
		}
		n++
		if table.Kind(name) == sheet.Group {
			sub := table.Sub(name)
			// The library's line of a table only implied by [a.b] is 0.
			if at.Line != 0 && sub.At().Line != at.Line {
				t.Errorf("%s: [%s]: line %d, library %d", file, sub.Path(), sub.At().Line, at.Line)
			}
			var inner map[string]toml.Primitive
			if err := meta.PrimitiveDecode(value, &inner); err != nil {
				t.Fatal(err)
			}
			n += crossCheck(t, file, src, sub, meta, inner)
			continue
		}
		checkValue(t, file, src, table, name, at)
	}
	return n
}

func checkValue(t *testing.T, file, src string, table *sheet.Table, name string, at toml.Position) {
	t.Helper()
	if table.Kind(name) == sheet.List { // the library points at the end of a list
		if line := lineOf(table, name); line > at.Line {
			t.Errorf("%s: %s: begins on line %d, ends on line %d", file, name, line, at.Line)
		}
		return
	}
	v := everything(table, name)[0]
	quote := src[v.At().Offset]
	start := v.At().Offset
	for (quote == '"' || quote == '\'') && start < len(src) && src[start] == quote && start < v.At().Offset+3 {
		start++ // the library points behind the opening quotes
	}
	if at.Start != start && at.Start != v.At().Offset+1 {
		t.Errorf("%s: %s: value at offset %d, library %d", file, v.Path(), start, at.Start)
	}
	if line := 1 + strings.Count(src[:v.At().Offset], "\n"); line != v.At().Line {
		t.Errorf("%s: %s: line %d, counted %d", file, v.Path(), v.At().Line, line)
	}
	head := src[:v.At().Offset]
	if col := 1 + utf8.RuneCountInString(head[strings.LastIndexByte(head, '\n')+1:]); col != v.At().Col {
		t.Errorf("%s: %s: column %d, counted %d", file, v.Path(), v.At().Col, col)
	}
	if key := strings.TrimLeft(src[v.KeyAt().Offset:], `"'`); !strings.HasPrefix(key, name) {
		t.Errorf("%s: %s: key not at %+v", file, name, v.KeyAt())
	}
}

// lineOf gives the line of a name in its table, 0 if it holds nothing.
func lineOf(table *sheet.Table, name string) int {
	for _, v := range everything(table, name) {
		return v.KeyAt().Line
	}
	return 0
}

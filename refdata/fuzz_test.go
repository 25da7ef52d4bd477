package refdata

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/meniscus/internal/sheet"
)

// FuzzLoad lays any bytes over testdata/base: never a panic; a pack or an error,
// not both; every finding with a place; and what loads is written back so that
// it loads again and means the same.
func FuzzLoad(f *testing.F) {
	for _, glob := range []string{"builtin/*.toml", "testdata/valid/*/*.toml", "testdata/invalid/*/*.toml", "testdata/v0/*.toml"} {
		names, err := filepath.Glob(glob)
		if err != nil || len(names) == 0 {
			f.Fatal(glob, err)
		}
		for _, name := range names {
			data, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	base := Layer{FS: os.DirFS("testdata"), Dir: "base"}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 16<<10 {
			return
		}
		layers := []Layer{base, {FS: fstest.MapFS{"case.toml": {Data: data}}}}
		pack, err := LoadLayers(layers...)
		if (pack == nil) == (err == nil) {
			t.Fatal(pack, err)
		}
		found, checkErr := CheckLayers(layers...)
		if checkErr != nil {
			t.Fatal(checkErr)
		}
		errors := 0
		for _, x := range found {
			if x.Line < 1 || x.Col < 1 || x.File == "" || x.Code == "" || x.Reason == "" {
				t.Errorf("%+v", x)
			}
			if x.Severity == "error" {
				errors++
			}
		}
		if (errors > 0) != (err != nil) {
			t.Errorf("%d errors, but %v", errors, err)
		}
		if pack == nil {
			return
		}
		for _, id := range pack.IDs() {
			p, _ := pack.Procedure(id)
			written, err := p.TOML()
			if err != nil {
				t.Fatalf("%s: %v", id, err)
			}
			fluid := fstest.MapFS{"p.toml": {Data: written}, "fluid.toml": {Data: []byte(fluidFor(p.Fluid))}}
			again, err := Load(fluid, ".")
			if err != nil {
				t.Fatalf("%s: %v\n%s", id, err, written)
			}
			back, _ := again.Procedure(id)
			if d := Diff(p, back); len(d) > 0 {
				t.Fatalf("%s: %v\n%s", id, d, written)
			}
			if !strings.Contains(Explain(p), id) {
				t.Error("not explained")
			}
		}
	})
}

// FuzzOverlays lays two files over the built-in pack, each in a layer of its own:
// a pack or an error, what was under them still there, and the same pack however
// often it is loaded.
func FuzzOverlays(f *testing.F) {
	names, err := filepath.Glob("testdata/valid/overlay/*.toml")
	if err != nil || len(names) == 0 {
		f.Fatal(names, err)
	}
	coach, err := builtin.ReadFile("builtin/tern-6-coach.toml")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(coach, []byte(strings.ReplaceAll(string(coach), "tern-6-coach", "tern-6-night")))
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data, coach)
	}
	below, err := BuiltIn()
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, first, second []byte) {
		if len(first)+len(second) > 16<<10 {
			return
		}
		layers := []Layer{BuiltInLayer(), {FS: fstest.MapFS{"a.toml": {Data: first}}}, {FS: fstest.MapFS{"a.toml": {Data: second}}}}
		pack, err := LoadLayers(layers...)
		if (pack == nil) == (err == nil) {
			t.Fatal(pack, err)
		}
		if pack == nil {
			return
		}
		for _, id := range below.IDs() {
			if !pack.Has(id) {
				t.Errorf("%s is gone", id)
			}
		}
		again, err := LoadLayers(layers...)
		if err != nil || again.Hash() != pack.Hash() || pack.Hash() == below.Hash() {
			t.Fatal(err, again.Hash(), pack.Hash())
		}
		for _, id := range pack.IDs() {
			p, _ := pack.Procedure(id)
			q, _ := again.Procedure(id)
			if d := Diff(p, q); len(d) > 0 || Explain(p) != Explain(q) {
				t.Fatalf("%s: %v", id, d)
			}
		}
	})
}

// TestLoaderRefusesWhatTheSheetReaderRefuses: the loader reads through package
// sheet and through nothing else, so that the documents of the public TOML suite,
// which the conformance module holds that package against, are refused here as
// well. Each case folder's faults of the form itself prove it.
func TestLoaderRefusesWhatTheSheetReaderRefuses(t *testing.T) {
	names, err := filepath.Glob("testdata/invalid/*/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		doc, err := sheet.Parse(name, data)
		if err != nil {
			t.Fatal(err)
		}
		if doc.Err() == nil {
			continue
		}
		n++
		if _, err := Load(fstest.MapFS{"a.toml": {Data: data}}, "."); err == nil {
			t.Errorf("%s: the reader of sheets refuses it, the loader does not", name)
		}
	}
	if n < 30 {
		t.Errorf("%d documents with a fault of form", n)
	}
}

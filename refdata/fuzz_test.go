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

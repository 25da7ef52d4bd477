package toml

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/meniscus/refdata"
	tomltest "github.com/toml-lang/toml-test/v2"
)

// loaded gives what the loader of packs says of a folder with that document alone.
func loaded(t *testing.T, suite fs.FS, name string) (found []refdata.Finding, err error) {
	t.Helper()
	data, err := fs.ReadFile(suite, name)
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if r := recover(); r != nil {
			found, err = nil, fmt.Errorf("panic: %v", r)
			t.Errorf("%s: %v", name, err)
		}
	}()
	files := fstest.MapFS{"a.toml": {Data: data}}
	pack, err := refdata.Load(files, ".")
	if (pack == nil) == (err == nil) {
		t.Errorf("%s: pack %v with error %v", name, pack != nil, err)
	}
	found, checkErr := refdata.Check(files, ".")
	if checkErr != nil {
		t.Errorf("%s: %v", name, checkErr)
	}
	return found, err
}

// form reports whether a finding is about the writing, not about what a procedure has to say.
func form(f refdata.Finding) bool {
	switch f.Code {
	case "sheet-missing", "sheet-unknown", "sheet-misplaced", "sheet-choice":
		return false
	}
	return f.Severity == "error" && strings.HasPrefix(f.Code, "sheet-")
}

// TestTheLoaderRefusesInvalidDocuments: none loads, and the reason is the writing: every document of the suite would be
// refused as a procedure as well, for want of an id.
func TestTheLoaderRefusesInvalidDocuments(t *testing.T) {
	suite := tomltest.TestCases()
	names := documents(t, suite, "invalid")
	if len(names) != invalid {
		t.Fatalf("the suite has %d invalid documents, want %d", len(names), invalid)
	}
	for _, name := range names {
		found, err := loaded(t, suite, name)
		if err == nil {
			t.Errorf("%s: loaded", name)
			continue
		}
		refused := false
		for _, f := range found {
			refused = refused || form(f)
		}
		if !refused {
			t.Errorf("%s: refused, but not for its form: %v", name, err)
		}
	}
}

// TestTheLoaderHandlesValidDocuments: each comes to an end without a panic, and each that the reader of sheets accepts is
// refused for what it says only.
func TestTheLoaderHandlesValidDocuments(t *testing.T) {
	suite := tomltest.TestCases()
	names := documents(t, suite, "valid")
	if len(names) != valid {
		t.Fatalf("the suite has %d valid documents, want %d", len(names), valid)
	}
	n := 0
	for _, name := range names {
		found, err := loaded(t, suite, name)
		if err == nil {
			t.Errorf("%s: loaded as a pack", name)
		}
		if read(t, suite, name) == nil {
			continue
		}
		n++
		for _, f := range found {
			if form(f) && !strings.HasPrefix(f.Code, "sheet-not-") { // a list, say, where a word is wanted
				t.Errorf("%s: %v", name, f)
			}
		}
	}
	if n != accepted {
		t.Errorf("accepted %d of the valid documents, want %d", n, accepted)
	}
}

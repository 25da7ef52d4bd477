package refdata

import (
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
)

var update = flag.Bool("update", false, "write the expected findings of the cases anew; read them before you keep them")

// leastInvalid is how many refused files the folder must hold, so that losing
// some of them shows.
const leastInvalid = 120

// TestCases reads every file of testdata/valid and testdata/invalid, laid over
// testdata/base. Beside each stands a .want with every finding, word for word.
// A valid file may have warnings, an invalid one has an error. A file that is
// neither a case nor a want is a fault of the folder.
func TestCases(t *testing.T) {
	for _, folder := range []struct {
		name  string
		least int
	}{{"valid", 20}, {"invalid", leastInvalid}} {
		names := caseNames(t, folder.name)
		if len(names) < folder.least {
			t.Errorf("%s: %d cases; want at least %d", folder.name, len(names), folder.least)
		}
		for _, name := range names {
			t.Run(name, func(t *testing.T) { checkCase(t, name, folder.name == "invalid") })
		}
	}
}

// caseNames lists the cases of a folder and faults strangers in it.
func caseNames(t *testing.T, folder string) []string {
	t.Helper()
	form := regexp.MustCompile(`^(valid|invalid)/[a-z]+/[a-z0-9-]+-[0-9][0-9]\.(toml|want)$`)
	disk := os.DirFS("testdata")
	var names []string
	err := fs.WalkDir(disk, folder, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		other := strings.TrimSuffix(name, path.Ext(name)) + ".want"
		if path.Ext(name) == ".want" {
			other = strings.TrimSuffix(name, ".want") + ".toml"
		}
		if !form.MatchString(name) {
			t.Errorf("%s: a stray file; want <area>/<what>-NN.toml with a .want beside it", name)
			return nil
		}
		if _, err := fs.Stat(disk, other); err != nil && !*update {
			t.Errorf("%s stands alone; %v", name, err)
		}
		if path.Ext(name) == ".toml" {
			names = append(names, name)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

func checkCase(t *testing.T, name string, invalid bool) {
	data, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	found, err := CheckLayers(Layer{FS: os.DirFS("testdata"), Dir: "base"}, Layer{FS: fstest.MapFS{"case.toml": {Data: data}}})
	if err != nil {
		t.Fatal(err)
	}
	errors := 0
	var b strings.Builder
	for _, f := range found {
		if f.Severity == "error" {
			errors++
		}
		fmt.Fprintf(&b, "%s %s\n", f.Code, f)
		if f.Value != "" && len(f.Value) < 60 {
			fmt.Fprintf(&b, "    value %q\n", f.Value)
		}
		if f.Source != "" {
			fmt.Fprintf(&b, "    against %s\n", f.Source)
		}
	}
	if invalid != (errors > 0) {
		t.Errorf("%d errors:\n%s", errors, &b)
	}
	file := "testdata/" + strings.TrimSuffix(name, ".toml") + ".want"
	if *update {
		if err := os.WriteFile(file, []byte(b.String()), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil || string(want) != b.String() {
		t.Errorf("found\n%s\nwant\n%s(%v)", &b, want, err)
	}
}

package archtest

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/meniscus/internal/source"
)

const planted = "testdata/planted"

// plantedDirs lists the directories under dir that hold Go files.
func plantedDirs(t *testing.T, dir string) []string {
	t.Helper()
	var dirs []string
	err := fs.WalkDir(os.DirFS("."), dir, func(name string, d fs.DirEntry, err error) error {
		if err == nil && path.Ext(name) == ".go" {
			dirs = append(dirs, path.Dir(name))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(dirs)
	return slices.Compact(dirs)
}

// load reads a planted package as if it stood where its first line says.
func load(t *testing.T, dir string) *source.Package {
	t.Helper()
	files, err := fs.Glob(os.DirFS(dir), "*.go")
	if err != nil || len(files) == 0 {
		t.Fatal(dir, err)
	}
	text, err := os.ReadFile(path.Join(dir, files[0]))
	if err != nil {
		t.Fatal(err)
	}
	first, _, _ := strings.Cut(string(text), "\n")
	at, ok := strings.CutPrefix(first, "// path: ")
	if !ok {
		t.Fatalf("%s: the first line does not say \"// path: …\"", dir)
	}
	p, err := source.LoadDir(".", dir, "example.com/meniscus", at)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// wanted lists "file:line" of every line that says want.
func wanted(p *source.Package) []string {
	var lines []string
	for _, file := range slices.Concat(p.Files, p.Tests) {
		for i, line := range bytes.Split(file.Text, []byte("\n")) {
			if bytes.HasSuffix(line, []byte("// want")) || bytes.Contains(line, []byte("/* want */")) {
				lines = append(lines, fmt.Sprintf("%s:%d", file.Name, i+1))
			}
		}
	}
	slices.Sort(lines)
	return lines
}

func found(findings []Finding) []string {
	var lines []string
	for _, f := range findings {
		lines = append(lines, fmt.Sprintf("%s:%d", f.File, f.Line))
	}
	slices.Sort(lines)
	return slices.Compact(lines)
}

// Every planted fault must be found, and nothing else.
func TestPlantedFaultsAreFound(t *testing.T) {
	for _, rule := range Rules() {
		if rule.Name == "size" {
			continue // planted in TestSize
		}
		t.Run(rule.Name, func(t *testing.T) {
			faults := 0
			for _, dir := range plantedDirs(t, path.Join(planted, rule.Name)) {
				p := load(t, dir)
				findings := rule.Check(p)
				want, got := wanted(p), found(findings)
				faults += len(want)
				if !slices.Equal(got, want) {
					t.Errorf("%s:\nfound  %v\nwanted %v", dir, got, want)
				}
				for _, f := range findings {
					if f.What == "" {
						t.Errorf("%v says nothing", f)
					}
				}
			}
			if faults == 0 {
				t.Error("no fault is planted for this rule")
			}
		})
	}
}

func TestCleanCodeStaysGreen(t *testing.T) {
	p := load(t, path.Join(planted, "clean"))
	if p.Broken != nil {
		t.Fatal(p.Broken)
	}
	for _, rule := range Rules() {
		for _, f := range rule.Check(p) {
			t.Errorf("%s: %v", rule.Name, f)
		}
	}
}

// The planted packages must compile where the rule leans on types, or the rule
// would be blind there.
func TestPlantedPackagesCompile(t *testing.T) {
	for _, rule := range []string{"state", "surroundings", "goroutines", "panics", "maths", "fused", "order", "docs", "examples", "embedding"} {
		for _, dir := range plantedDirs(t, path.Join(planted, rule)) {
			if p := load(t, dir); p.Broken != nil {
				t.Errorf("%s: %v", dir, p.Broken)
			}
		}
	}
}

// Programs and gates are freer, and only where the rules say so.
func TestFreerPlaces(t *testing.T) {
	dir := path.Join(planted, "surroundings")
	for _, at := range []string{"examples/fullservice", "internal/archtest"} {
		p, err := source.LoadDir(".", dir, "example.com/meniscus", at)
		if err != nil {
			t.Fatal(err)
		}
		if got := Surroundings(p); len(got) != 0 {
			t.Errorf("at %s: %v", at, got)
		}
	}
	for _, at := range []string{"internal/elementary", "internal/sheet", "internal/whatever", "refdata/jobfile"} {
		p, err := source.LoadDir(".", dir, "example.com/meniscus", at)
		if err != nil {
			t.Fatal(err)
		}
		if got := Surroundings(p); len(got) == 0 {
			t.Errorf("at %s nothing was found", at)
		}
	}
}

func TestSize(t *testing.T) {
	body := func(lines int) string {
		return "// Package p is long.\npackage p\n\nfunc Long() {\n" + strings.Repeat("\t_ = 1\n", lines-2) + "}\n"
	}
	cases := []struct {
		name string
		text string
		want string
	}{
		{"function of 60 lines", body(60), ""},
		{"function of 61 lines", body(61), "61 lines in a function"},
		{"file of 300 lines", "// Package p is long.\npackage p\n" + strings.Repeat("\n", 297) + "var _ = 1\n", ""},
		{"file of 301 lines", "// Package p is long.\npackage p\n" + strings.Repeat("\n", 298) + "var _ = 1\n", "301 lines in a file"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			root := t.TempDir()
			if err := os.WriteFile(path.Join(root, "p.go"), []byte(c.text), 0o644); err != nil {
				t.Fatal(err)
			}
			p, err := source.LoadDir(root, ".", "example.com/meniscus", "exchange")
			if err != nil {
				t.Fatal(err)
			}
			got := Size(p)
			if c.want == "" && len(got) != 0 || c.want != "" && (len(got) != 1 || !strings.Contains(got[0].String(), c.want)) {
				t.Errorf("got %v; want %q", got, c.want)
			}
		})
	}
}

func TestTexts(t *testing.T) {
	clean := fstest.MapFS{
		"README.md":  {Data: []byte("Everything is done.\n")},
		".gitignore": {Data: []byte("*.test\n/coverage*\n")},
		"x.test":     {Data: []byte("/wo" + "rk/x\n")},
		"coverage/a": {Data: []byte("/ro" + "ot/x\n")},
		".git/HEAD":  {Data: []byte("/wo" + "rk/x\n")},
		"data.csv":   {Data: []byte("a TO" + "DO list of somebody else\n")},
		"pic.png":    {Data: []byte("\x00/wo" + "rk/x\n")},
		"go.sum":     {Data: []byte("sum.go" + "lang.org\n")},
		"internal/archtest/testdata/planted/x.go": {Data: []byte("// FIX" + "ME\n")},
	}
	if got, err := Texts(clean); err != nil || len(got) != 0 {
		t.Errorf("clean: %v, %v", got, err)
	}
	faults := map[string]string{
		"a.go":       "// TO" + "DO: later\n",
		"b.md":       "This is not imple" + "mented.\n",
		"c.go":       "// see /wo" + "rk/x\n",
		"d.csv":      "a,/ro" + "ot/x\n",
		"e.txt":      "/tm" + "p/x\n",
		"f.toml":     "x = \"/ho" + "me/me\"\n",
		".ci/run":    "curl https://proxy.go" + "lang.org\n",
		"g/h.svg":    "registry.np" + "mjs.org\n",
		"docs/i.txt": "http://deb.deb" + "ian.org\n",
	}
	for name, text := range faults {
		got, err := Texts(fstest.MapFS{name: {Data: []byte("fine\n" + text)}})
		if err != nil || len(got) != 1 || got[0].File != name || got[0].Line != 2 {
			t.Errorf("%s: %v, %v", name, got, err)
		}
	}
}

func TestLayout(t *testing.T) {
	tree := fstest.MapFS{
		".ci/run": {}, "units/a.go": {}, "README.md": {}, "x.test": {},
		".gitignore": {Data: []byte("*.test\n")},
	}
	if got, err := Layout(tree); err != nil || len(got) != 0 {
		t.Errorf("clean: %v, %v", got, err)
	}
	tree["notes/a.md"], tree["main.go"] = &fstest.MapFile{}, &fstest.MapFile{}
	got, err := Layout(tree)
	if err != nil || len(got) != 2 || got[0].File != "main.go" || got[1].File != "notes" {
		t.Errorf("two strangers: %v, %v", got, err)
	}
}

func TestModfile(t *testing.T) {
	const good = "module x\n\ngo 1.25\n\nrequire (\n\tgithub.com/BurntSushi/toml v1.6.0\n\tgithub.com/google/go-cmp v0.7.0\n\tgithub.com/shopspring/decimal v1.6.0\n\tgolang.org/x/text v0.31.0 // indirect\n)\n"
	cases := []struct{ name, text, want string }{
		{"good", good, ""},
		{"a fourth", strings.Replace(good, " // indirect", "", 1), "golang.org/x/text"},
		{"one less", strings.Replace(good, "\tgithub.com/google/go-cmp v0.7.0\n", "", 1), "direct dependencies"},
		{"a replacement", good + "\nreplace golang.org/x/text => ../text\n", "1 replace"},
		{"an exclusion", good + "\nexclude golang.org/x/text v0.1.0\n", "1 replace, exclude"},
		{"a tool", good + "\ntool golang.org/x/tools/cmd/stringer\n", "or tool lines"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			file := path.Join(t.TempDir(), "go.mod")
			if err := os.WriteFile(file, []byte(c.text), 0o644); err != nil {
				t.Fatal(err)
			}
			got, err := Modfile(file)
			if err != nil {
				t.Fatal(err)
			}
			if c.want == "" && len(got) != 0 || c.want != "" && (len(got) != 1 || !strings.Contains(got[0].What, c.want)) {
				t.Errorf("got %v; want %q", got, c.want)
			}
		})
	}
}

package source

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// write lays out a small module.
func write(t *testing.T, files map[string]string) string {
	t.Helper()
	root := t.TempDir()
	for name, text := range files {
		file := filepath.Join(root, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return root
}

func TestLoad(t *testing.T) {
	root := write(t, map[string]string{
		"go.mod":             "module example.com/demo\n\ngo 1.25\n",
		"a/a.go":             "package a\n\nimport \"math\"\n\nfunc F(x float64) float64 { return math.Sqrt(x) }\n",
		"a/a_test.go":        "package a_test\n",
		"a/b/b.go":           "package b\n\nimport \"example.com/demo/a\"\n\nvar X = a.F(2)\n",
		"bad/bad.go":         "package bad\n\nvar X int = \"text\"\n",
		"a/testdata/x.go":    "not Go",
		"nested/go.mod":      "module other\n",
		"nested/n.go":        "not Go",
		".hidden/h.go":       "not Go",
		"internal/k/k.go":    "package k\n",
		"examples/e/main.go": "package main\n\nfunc main() {}\n",
	})
	m, err := Load(root)
	if err != nil {
		t.Fatal(err)
	}
	var paths []string
	byPath := map[string]*Package{}
	for _, p := range m.Packages {
		paths = append(paths, p.Path)
		byPath[p.Path] = p
	}
	if got := strings.Join(paths, " "); got != "a a/b bad examples/e internal/k" {
		t.Fatalf("packages %q", got)
	}
	a, b, bad := byPath["a"], byPath["a/b"], byPath["bad"]
	if len(a.Files) != 1 || len(a.Tests) != 1 || a.Broken != nil || b.Broken != nil {
		t.Errorf("a: %d files, %d tests, %v; b: %v", len(a.Files), len(a.Tests), a.Broken, b.Broken)
	}
	if bad.Broken == nil {
		t.Error("a package that does not compile passed")
	}
	if got := b.Types.Scope().Lookup("X").Type().String(); got != "float64" {
		t.Errorf("the type that crosses packages is %s", got)
	}
	if !a.Library() || byPath["internal/k"].Library() || byPath["examples/e"].Library() || !b.Under("a") || bad.Under("b") {
		t.Error("packages are placed wrong")
	}
	if found, err := Root(filepath.Join(root, "a", "b")); err != nil || !same(t, found, root) {
		t.Errorf("root %q, %v", found, err)
	}
}

func TestLoadDir(t *testing.T) {
	root := write(t, map[string]string{
		"fault/f.go":      "package f\n\nimport (\n\t\"math\"\n\n\t\"example.com/demo/a\"\n)\n\nvar X = math.Abs(a.F())\n",
		"fault/f_test.go": "package f\n",
		"plain/p.go":      "package p\n\nconst X = 1\n",
		"std/s.go":        "package s\n\nimport \"math\"\n\nvar X = math.Abs(1)\n",
		"std/notes.txt":   "not Go",
		"std/sub/sub.go":  "not Go",
	})
	load := func(dir string) *Package {
		p, err := LoadDir(root, dir, "example.com/demo", "thermal")
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	if p := load("fault"); p.Broken == nil || !strings.Contains(p.Broken.Error(), "example.com/demo/a") || len(p.Files) != 1 || len(p.Tests) != 1 {
		t.Errorf("an import that cannot be had: %v", p.Broken)
	}
	if p := load("plain"); p.Broken != nil {
		t.Errorf("no import: %v", p.Broken)
	}
	std := load("std")
	if std.Broken != nil || len(std.Files) != 1 || std.Path != "thermal" || std.Types.Path() != "example.com/demo/thermal" {
		t.Errorf("standard library: %v", std.Broken)
	}
	if !std.Under("thermal") || std.Under("the") || std.Under("thermal/x") || (&Package{Path: "thermals"}).Under("thermal") {
		t.Error("Under is wrong")
	}
	if _, err := LoadDir(root, "none", "example.com/demo", "thermal"); err == nil {
		t.Error("a directory that is not there loaded")
	}
}

func same(t *testing.T, a, b string) bool {
	t.Helper()
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	return errX == nil && errY == nil && os.SameFile(x, y)
}

func TestLoadRefuses(t *testing.T) {
	if _, err := Load(t.TempDir()); err == nil {
		t.Error("a directory without go.mod loaded")
	}
	if _, err := Load(write(t, map[string]string{"go.mod": "go 1.25\n"})); err == nil {
		t.Error("a go.mod without a module line loaded")
	}
	root := write(t, map[string]string{"go.mod": "module x\n", "a.go": "not Go"})
	if _, err := Load(root); err == nil {
		t.Error("a file that is no Go loaded")
	}
}

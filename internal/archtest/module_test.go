package archtest

import (
	"os"
	"path/filepath"
	"testing"

	"example.com/meniscus/internal/source"
)

func root(t *testing.T) string {
	t.Helper()
	dir, err := source.Root(".")
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

func TestPackages(t *testing.T) {
	m, err := source.Load(root(t))
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, p := range m.Packages {
		seen[p.Path] = true
		if p.Broken != nil {
			t.Errorf("%s does not compile:\n%v", p.Path, p.Broken)
		}
	}
	// A walk that found nothing would pass every rule.
	for _, path := range []string{"units", "internal/elementary", "internal/archtest"} {
		if !seen[path] {
			t.Errorf("package %s was not found", path)
		}
	}
	for _, rule := range Rules() {
		t.Run(rule.Name, func(t *testing.T) {
			for _, p := range m.Packages {
				for _, f := range rule.Check(p) {
					t.Error(f)
				}
			}
		})
	}
}

func TestTree(t *testing.T) {
	dir := root(t)
	tree := os.DirFS(dir)
	texts, err := Texts(tree)
	if err != nil {
		t.Fatal(err)
	}
	layout, err := Layout(tree)
	if err != nil {
		t.Fatal(err)
	}
	modfile, err := Modfile(filepath.Join(dir, "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	for name, findings := range map[string][]Finding{"texts": texts, "layout": layout, "modfile": modfile} {
		t.Run(name, func(t *testing.T) {
			for _, f := range findings {
				t.Error(f)
			}
		})
	}
}

//go:build linux

package main

import (
	"bytes"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// What the README says to move the tree to another path leaves the old path nowhere,
// the README's own program among them, and no file to be formatted.
func TestReadmeMovesTheTree(t *testing.T) {
	script := moveScript(t)
	_, change, _ := strings.Cut(script, "s#")
	parts := strings.SplitN(change, "#", 3)
	if len(parts) != 3 {
		t.Fatalf("no s#old#new# in %q", script)
	}
	old, moved := parts[0], parts[1]
	if old == moved {
		t.Skip("this tree has been moved")
	}
	for _, tool := range []string{"sh", "grep", "xargs", "sed", "gofmt"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skip(err)
		}
	}
	dir := t.TempDir()
	copyTree(t, "../..", dir)
	before := holding(t, dir, old)
	run := exec.Command("sh", "-c", script)
	run.Dir = dir
	if out, err := run.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if left := holding(t, dir, old); len(left) > 0 {
		t.Errorf("%s is still in %q", old, left)
	}
	if after := holding(t, dir, moved); len(before) < 300 || len(after) != len(before) {
		t.Errorf("%d files held the old path, %d hold the new one", len(before), len(after))
	}
	if out, err := exec.Command("gofmt", "-l", dir).CombinedOutput(); err != nil || len(out) > 0 {
		t.Errorf("to be formatted: %s%v", out, err)
	}
}

// moveScript is the block of the README that moves the tree.
func moveScript(t *testing.T) string {
	t.Helper()
	b, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range strings.Split(string(b), "```sh\n")[1:] {
		if script, _, _ := strings.Cut(part, "```"); strings.Contains(script, "sed -i") {
			return script
		}
	}
	t.Fatal("the README does not say how to move the tree")
	return ""
}

// copyTree copies the files of text.
func copyTree(t *testing.T, from, to string) {
	t.Helper()
	each(t, from, func(name string, text []byte) {
		path := filepath.Join(to, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, text, 0o600); err != nil {
			t.Fatal(err)
		}
	})
}

// holding lists the files that hold the text.
func holding(t *testing.T, dir, text string) []string {
	t.Helper()
	var names []string
	each(t, dir, func(name string, b []byte) {
		if bytes.Contains(b, []byte(text)) {
			names = append(names, name)
		}
	})
	return names
}

// each hands over every file of text but those of the history.
func each(t *testing.T, root string, do func(name string, text []byte)) {
	t.Helper()
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && d.IsDir() && d.Name() == ".git" {
			return fs.SkipDir
		}
		if err != nil || !d.Type().IsRegular() {
			return err
		}
		b, err := os.ReadFile(filepath.Join(root, name))
		if err == nil && !bytes.Contains(b, []byte{0}) { // a built program holds the path for good
			do(name, b)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

//go:build !js && !wasip1

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// It starts the go command, which a browser has not got.
func TestReadmeProgramPrintsWhatItSays(t *testing.T) {
	program := block(t, "go")
	_, want, _ := strings.Cut(program, "// ")
	want, _, _ = strings.Cut(want, "\n")
	path := filepath.Join(t.TempDir(), "main.go")
	if err := os.WriteFile(path, []byte(program), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("go", "run", path).CombinedOutput()
	if err != nil || strings.TrimSpace(string(out)) != want {
		t.Errorf("prints %q, %v; the README says %q", out, err, want)
	}
}

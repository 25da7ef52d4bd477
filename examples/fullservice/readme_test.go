package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/meniscus/exchange/jobcard"
)

// block returns the first fenced block of that language in the README.
func block(t *testing.T, language string) string {
	t.Helper()
	b, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, ok := strings.Cut(string(b), "```"+language+"\n")
	text, _, closed := strings.Cut(rest, "```")
	if !ok || !closed {
		t.Fatalf("no %s block in the README", language)
	}
	return text
}

func TestReadmeJobWorks(t *testing.T) {
	path := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(path, []byte(block(t, "toml")), 0o600); err != nil {
		t.Fatal(err)
	}
	code, out, stderr := call("-job", path)
	if code != 0 || !strings.Contains(out, "drained 2.100 L") {
		t.Errorf("exit %d: %s%s", code, stderr, out)
	}
}

func TestReadmeNamesEveryKindOfEntry(t *testing.T) {
	b, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for k := jobcard.FillPlugOpened; k <= jobcard.Closed; k++ {
		if !strings.Contains(string(b), "`"+k.String()+"`") {
			t.Errorf("kind %q is not in the README", k)
		}
	}
}

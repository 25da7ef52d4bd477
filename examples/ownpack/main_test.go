package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func call(args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = run(args, &out, &err)
	return code, out.String(), err.String()
}

// TestFromTemplateToDiff walks the way of the package comment.
func TestFromTemplateToDiff(t *testing.T) {
	dir := t.TempDir()
	code, template, stderr := call("template", "tern-7")
	if code != 0 || stderr != "" {
		t.Fatal(code, stderr)
	}
	write := func(name, text string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("tern-7.toml", template)
	code, out, _ := call("-pack", dir, "-over", "check")
	if code != 1 || !strings.Contains(out, "tern-7.toml:8:9: error: title: is not filled in yet") {
		t.Fatal(code, out)
	}
	if code, _, stderr := call("-pack", dir, "-over", "explain", "tern-7"); code != 2 || !strings.Contains(stderr, "not filled in yet") {
		t.Fatal(code, stderr)
	}
	filled := strings.NewReplacer(
		`title = "?"`, `title = "Tern seven-speed (invented)"`, `revision = "?"`, `revision = "1"`, `kind = "?"`, `kind = "manual"`,
		`total = "?"`, `total = "9.9 L"`, `class = "?"`, `class = "s-2"`, `low = "?"`, `low = "36 °C"`, `high = "?"`, `high = "47 °C"`,
		`thread = "?"`, "thread = \"M16x1.5\"\ntorque = \"26 N·m\"",
	).Replace(template)
	write("tern-7.toml", filled)
	code, out, stderr = call("-pack", dir, "-over", "check")
	if code != 0 || out != "0 errors, 0 warnings\n" || stderr != "" {
		t.Fatal(code, out, stderr)
	}
	code, out, _ = call("-pack", dir, "-over", "explain", "tern-7")
	if code != 0 || !strings.Contains(out, "capacity.total = 9.9 L\n    from Tern seven-speed (invented), p.1 (manual), trust high, "+dir+"/tern-7.toml:") {
		t.Fatal(code, out)
	}
	code, out, _ = call("-pack", dir, "-over", "diff", "tern-6", "tern-7")
	if code != 0 || !strings.Contains(out, "plug.drain.torque: 24 N·m -> 26 N·m\n") || !strings.Contains(out, "capacity.total: 9.6..10.4 L -> 9.9 L\n") {
		t.Fatal(code, out)
	}
	code, out, _ = call("-pack", dir, "-over", "write", "tern-7")
	if code != 0 || !strings.Contains(out, `thread   = "M16x1.5"`) {
		t.Fatal(code, out)
	}
	write("tern-7.toml", out)
	if code, out, _ := call("-pack", dir, "-over", "check"); code != 0 {
		t.Fatal(code, out)
	}
	if code, out, _ := call("-pack", dir, "-over", "list"); code != 0 || !strings.Contains(out, "tern-6\n") || !strings.Contains(out, "tern-7\n") {
		t.Fatal(code, out)
	}
}

func TestWhatCannotBeDone(t *testing.T) {
	empty := t.TempDir()
	for _, c := range []struct {
		args []string
		want string
	}{
		{nil, "no command"},
		{[]string{"guess"}, "no command"},
		{[]string{"template"}, "wants 1 ids"},
		{[]string{"template", "Tern"}, "no id"},
		{[]string{"-kind", "job", "template", "tern-7"}, "no kind"},
		{[]string{"-kind", "job", "schema"}, "no kind"},
		{[]string{"explain", "heron-9"}, "the pack has"},
		{[]string{"diff", "tern-6"}, "wants 2 ids"},
		{[]string{"-pack", filepath.Join(empty, "none"), "check"}, "none"},
		{[]string{"-pack", empty, "check"}, "no .toml file"},
		{[]string{"-unknown"}, "not defined"},
	} {
		code, out, stderr := call(c.args...)
		if code != 2 || out != "" || !strings.Contains(stderr, c.want) {
			t.Errorf("%v: %d %q %q; want %q", c.args, code, out, stderr, c.want)
		}
	}
}

func TestALinkOutOfTheFolderIsNotFollowed(t *testing.T) {
	dir, outside := t.TempDir(), t.TempDir()
	secret := filepath.Join(outside, "secret.toml")
	if err := os.WriteFile(secret, []byte("format = 1\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(secret, filepath.Join(dir, "a.toml")); err != nil {
		t.Skip(err)
	}
	if code, out, stderr := call("-pack", dir, "check"); code != 2 || out != "" || !strings.Contains(stderr, "not a plain file") {
		t.Errorf("%d %q %q", code, out, stderr)
	}
}

func TestBuiltInPackIsClean(t *testing.T) {
	if code, out, stderr := call("check"); code != 0 || !strings.HasPrefix(out, "0 errors, ") {
		t.Errorf("%d %q %q", code, out, stderr)
	}
	for _, kind := range []string{"procedure", "fluid", "shop"} {
		if code, out, _ := call("-kind", kind, "schema"); code != 0 || !strings.Contains(out, "draft-07") {
			t.Errorf("%s: %d", kind, code)
		}
	}
}

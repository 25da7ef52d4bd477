package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func call(args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = run(args, &out, &err)
	return code, out.String(), err.String()
}

func TestDemoPrintsTheGoldenService(t *testing.T) {
	for name, args := range map[string][]string{"demo.txt": nil, "demo.json": {"-json"}} {
		code, got, stderr := call(args...)
		if code != 0 || stderr != "" {
			t.Fatalf("exit %d: %s", code, stderr)
		}
		path := filepath.Join("testdata", name)
		if *update {
			if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got); diff != "" {
			t.Errorf("%s (-update rewrites it):\n%s", name, diff)
		}
	}
}

// By hand: each drain leaves 1 - 3/12 = 3/4. Three of them leave (3/4)³ =
// 27/64 = 0.421875, two leave 0.5625, so 45 % takes three. Fluid: 3 × 3 L, 0.25 L
// in the hand pump and 0.3 L over for the check, the sheet's figures: 9.55 L;
// least money for it is two cans of 4 L and two bottles of 1 L: 82.40 + 22.80.
// The last refill was 0.1 L short: 8.8 L are old·(3/4)² left of 9 L, so
// 9·0.5625 = 5.0625 L old in 11.9 L = 0.425420. 50 °C ± 1 is above 38 to 48 °C.
// 3 drains of 3 from 12: 0.421875 is the textbook value as well.
func TestFiguresAgreeWithAHandCalculation(t *testing.T) {
	code, out, stderr := call("-job", "testdata/by-hand.toml", "-json")
	if code != 0 {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	var got map[string]any
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]any{
		"plan.cycles": 3.0, "plan.oldShare": 27.0 / 64, "plan.fluidNeeded": "9.55 L", "plan.fluidToBuy": "9.55 L", "plan.cost": "105.2",
		"balance.net": "-0.1 L", "balance.referenceTemperature": "15 °C", "balance.verdict": "short",
		"oldShare": 5.0625 / 11.9, "window.verdict": "above", "window.proof": false,
	} {
		value := at(got, path)
		if x, ok := want.(float64); ok {
			if y, ok := value.(float64); !ok || math.Abs(x-y) > 1e-12 {
				t.Errorf("%s = %v, by hand %v", path, value, want)
			}
		} else if value != want {
			t.Errorf("%s = %v, by hand %v", path, value, want)
		}
	}
	for _, list := range []string{"blocking", "cautions"} {
		if items, ok := got[list].([]any); !ok || len(items) == 0 {
			t.Errorf("%s = %v; want a list with something in it", list, got[list])
		}
	}
}

// at follows a dotted path.
func at(m map[string]any, path string) any {
	var v any = m
	for _, key := range strings.Split(path, ".") {
		next, ok := v.(map[string]any)
		if !ok {
			return nil
		}
		v = next[key]
	}
	return v
}

func TestEveryDocumentedKeyIsThere(t *testing.T) {
	source, err := os.ReadFile("main.go")
	if err != nil {
		t.Fatal(err)
	}
	_, out, _ := call("-json")
	var got map[string]any
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		t.Fatal(err)
	}
	_, keys, _ := strings.Cut(string(source), "from 0 to 1.\n//\n")
	keys, _, _ = strings.Cut(keys, "\npackage main")
	n := 0
	for _, line := range strings.Split(keys, "\n") {
		name, _, _ := strings.Cut(strings.TrimPrefix(line, "//\t"), "  ")
		parent := ""
		for _, key := range strings.Split(name, ", ") {
			if i := strings.LastIndex(key, "."); i >= 0 {
				parent = key[:i+1]
			} else {
				key = parent + key
			}
			if at(got, strings.TrimSpace(key)) == nil {
				t.Errorf("documented key %q is not in the output", key)
			}
			n++
		}
	}
	if n < 30 {
		t.Errorf("%d keys found in the package comment; want all of them", n)
	}
}

// edited writes the by-hand job with one text replaced.
func edited(t *testing.T, old, new string) string {
	t.Helper()
	b, err := os.ReadFile("testdata/by-hand.toml")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(b), old) {
		t.Fatalf("%q is not in the job", old)
	}
	path := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(path, []byte(strings.Replace(string(b), old, new, 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestBadInputIsRefusedWhole(t *testing.T) {
	windowPack := t.TempDir()
	writePack(t, windowPack, `low           = "38 °C"`, `low           = "58 °C"`)
	large := filepath.Join(t.TempDir(), "large.toml")
	if f, err := os.Create(large); err != nil || f.Truncate(2<<30) != nil || f.Close() != nil {
		t.Fatal("no large file", err)
	}
	for _, tt := range []struct {
		name string
		args []string
		want []string
	}{
		{"missing file", []string{"-job", "no-such.toml"}, []string{"no-such.toml"}},
		{"a folder for a job", []string{"-job", "testdata"}, []string{"no plain file"}},
		{"missing pack", []string{"-pack", "no-such"}, []string{"no-such"}},
		{"a file for a pack", []string{"-pack", "main.go"}, []string{"no folder"}},
		{"an empty pack", []string{"-pack", t.TempDir()}, []string{"no .toml file"}},
		{"unknown flag", []string{"-jib"}, []string{"-jib"}},
		{"stray argument", []string{"job.toml"}, []string{"unexpected argument", "flags only"}},
		{"unknown key", []string{"-job", edited(t, `vehicle   =`, `vehikel   =`)}, []string{"job.toml:5:1", "vehikel", `did you mean vehicle`}},
		{"negative volume", []string{"-job", edited(t, `"3 L"
temperature`, `"-3 L"
temperature`)}, []string{"entry.20.volume", "-3 L", "more than zero"}},
		{"refill with no unit", []string{"-job", edited(t, `"2.9 L"`, `"2.9"`)}, []string{"entry.90.volume", "no unit", "US qt"}},
		{"bare quarts", []string{"-job", edited(t, `"2.9 L"`, `"3 qt"`)}, []string{"entry.90.volume", "US qt", "imp qt"}},
		{"number without quotes", []string{"-job", edited(t, `"2.9 L"`, `2.9`)}, []string{"entry.90.volume", "quotes"}},
		{"drain before the fill plug", []string{"-job", edited(t, `"fill plug opened"`, `"noted"
text = "late start"`)}, []string{"entry.20", "fill plug is not known to open"}},
		{"window upside down", []string{"-pack", windowPack}, []string{"tern-6.toml", "window", "is not below high end"}},
		{"unknown procedure", []string{"-job", edited(t, `"tern-6"`, `"tern-7"`)}, []string{"procedure", "tern-7", "plover-5"}},
		{"no target", []string{"-job", edited(t, `target = "45 %"`, ``)}, []string{"no target", `target = "55 %"`}},
		{"drain over capacity", []string{"-job", edited(t, `"12 L"`, `"2 L"`)}, []string{"plan", "2 L"}},
		{"two gigabytes", []string{"-job", large}, []string{"large.toml", "262144"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			code, stdout, stderr := call(tt.args...)
			if code != 2 || stdout != "" {
				t.Errorf("exit %d, %d bytes on stdout; want exit 2 and nothing", code, len(stdout))
			}
			for _, want := range tt.want {
				if !strings.Contains(stderr, want) {
					t.Errorf("%q is missing from %s", want, stderr)
				}
			}
		})
	}
}

func TestEveryFaultIsReportedAtOnce(t *testing.T) {
	path := edited(t, `"2.9 L"`, `"2.9"`)
	b, _ := os.ReadFile(path)
	text := strings.Replace(string(b), `runs = "4"`, `runs = "four"`, 1)
	text = strings.Replace(text, `"50 °C"`, `"50 degrees"`, 1)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	_, _, stderr := call("-job", path)
	for _, want := range []string{"entry.40.runs", "entry.90.volume", "entry.100.temperature"} {
		if !strings.Contains(stderr, want) {
			t.Errorf("%q is missing from %s", want, stderr)
		}
	}
}

// writePack copies the built-in pack with one text replaced.
func writePack(t *testing.T, dir, old, new string) {
	t.Helper()
	const from = "../../refdata/builtin"
	names, err := os.ReadDir(from)
	if err != nil {
		t.Fatal(err)
	}
	changed := false
	for _, name := range names {
		if name.IsDir() {
			continue
		}
		b, err := os.ReadFile(filepath.Join(from, name.Name()))
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Replace(string(b), old, new, 1)
		changed = changed || text != string(b)
		if err := os.WriteFile(filepath.Join(dir, name.Name()), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if !changed {
		t.Fatalf("%q is in no file of the pack", old)
	}
}

func TestOwnPackGivesTheSameService(t *testing.T) {
	dir := t.TempDir()
	writePack(t, dir, "None of these figures", "Not one of these figures")
	code, got, stderr := call("-pack", dir)
	_, want, _ := call()
	if code != 0 {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	drop := func(s string) string { // the edition differs, since a comment does
		lines := strings.Split(s, "\n")
		out := lines[:0]
		for _, l := range lines {
			if !strings.Contains(l, "procedure      tern-6") {
				out = append(out, l)
			}
		}
		return strings.Join(out, "\n")
	}
	if drop(got) != drop(want) {
		t.Error(cmp.Diff(drop(want), drop(got)))
	}
}

func TestOwnFolderLaidOverTheBuiltInPack(t *testing.T) {
	dir := t.TempDir()
	const gearbox = `format = 1
kind = "procedure"
id = "heron-4"
title = "Heron four-speed (invented)"
revision = "1"
[source.sheet]
title = "Saltmarsh sheet 30"
kind = "manual"
[capacity]
from = "sheet p.1"
total = "12 L"
drain = "3 L"
[fluid]
from = "sheet p.1"
class = "s-2"
`
	if err := os.WriteFile(filepath.Join(dir, "heron-4.toml"), []byte(gearbox), 0o600); err != nil {
		t.Fatal(err)
	}
	job := edited(t, `"tern-6"`, `"heron-4"`)
	if code, _, stderr := call("-job", job, "-pack", dir); code != 2 || !strings.Contains(stderr, "no file of the pack describes fluid") {
		t.Errorf("by itself: exit %d: %s", code, stderr)
	}
	// The box has no window, so the reading is refused; without it the job computes.
	b, err := os.ReadFile(job)
	if err != nil {
		t.Fatal(err)
	}
	text, _, _ := strings.Cut(string(b), "[entry.100]")
	if err := os.WriteFile(job, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	code, out, stderr := call("-job", job, "-pack", dir, "-over")
	if code != 0 || !strings.Contains(out, "Heron four-speed (invented)") {
		t.Errorf("over the built-in pack: exit %d: %s", code, stderr)
	}
}

func TestAJobWithoutAVehicleIsNamedByItsGearbox(t *testing.T) {
	code, out, stderr := call("-job", edited(t, `vehicle   = "co-operative bus 2"`, ``))
	if code != 0 || !strings.HasPrefix(out, "PLAN for Tern six-speed (invented), by-hand\n") {
		t.Errorf("exit %d %s\n%.80s", code, stderr, out)
	}
}

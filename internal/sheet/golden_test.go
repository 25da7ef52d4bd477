package sheet_test

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path"
	"strings"
	"testing"

	"example.com/meniscus/internal/sheet"
)

var update = flag.Bool("update", false, "write the .want files anew; read them before you keep them")

// walk runs check for every .toml of a folder and compares what it says with the .want beside it. A file of any other
// name, a .toml without .want or the reverse fails, and so does a folder with fewer files than least.
func walk(t *testing.T, folder string, least int, check func(name string, data []byte) string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, entry := range entries {
		name := path.Join(folder, entry.Name())
		stem, isSheet := strings.CutSuffix(name, ".toml")
		if !isSheet {
			stem, isWant := strings.CutSuffix(name, ".want")
			if _, err := os.Stat(stem + ".toml"); !isWant || err != nil {
				t.Errorf("%s: stray file", name)
			}
			continue
		}
		seen++
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		got := check(entry.Name(), data)
		if *update {
			if err := os.WriteFile(stem+".want", []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(stem + ".want")
		if err != nil {
			t.Errorf("%s: %v", name, err)
		} else if got != string(want) {
			t.Errorf("%s:\n%s\nwant\n%s", name, got, want)
		}
	}
	if seen < least {
		t.Errorf("%s: %d sheets, want at least %d", folder, seen, least)
	}
}

// render shows faults with their codes.
func render(all sheet.Faults) string {
	var b strings.Builder
	for _, f := range all.All {
		b.WriteString("(" + f.Code + ") " + f.Error() + "\n")
	}
	if all.More > 0 {
		lines := strings.Split(all.Error(), "\n")
		b.WriteString(lines[len(lines)-1] + "\n")
	}
	return b.String()
}

func TestInvalidSheets(t *testing.T) {
	walk(t, "testdata/invalid", 45, func(name string, data []byte) string {
		doc, err := sheet.Parse(name, data)
		if err != nil {
			t.Fatal(err)
		}
		if doc.Err() == nil {
			t.Errorf("%s: accepted", name)
		}
		return render(doc.Faults())
	})
}

func TestValidSheets(t *testing.T) {
	walk(t, "testdata/valid", 9, func(name string, data []byte) string {
		doc, err := sheet.Parse(name, data)
		if err != nil {
			t.Fatal(err)
		}
		return render(doc.Faults()) + show(doc)
	})
}

// show lists the outline of a sheet with places, and what every key says.
func show(doc *sheet.Doc) string {
	var b strings.Builder
	for _, line := range doc.Outline() {
		b.WriteString(place(line.At) + " " + line.Path)
		if line.Header {
			b.WriteString("\n")
			continue
		}
		names := strings.Split(line.Path, ".")
		table := doc.Root()
		for _, name := range names[:len(names)-1] {
			table = table.Sub(name)
		}
		b.WriteString(" under " + place(line.UnderAt) + ":")
		for _, v := range everything(table, names[len(names)-1]) {
			b.WriteString(" " + place(v.At()) + " " + sheet.Echo(v.String()))
		}
		b.WriteString("\n")
	}
	return b.String()
}

// everything gives the values under a name, of whatever kind.
func everything(table *sheet.Table, name string) []sheet.Value {
	if table.Kind(name) == sheet.List {
		items, _ := table.List(name)
		return items
	}
	for _, v := range table.Values() {
		if v.Name() == name {
			return []sheet.Value{v}
		}
	}
	return nil
}

func place(p sheet.Pos) string { return fmt.Sprintf("%d:%d", p.Line, p.Col) }

// procedure reads a sheet the way a loader does.
func procedure(doc *sheet.Doc) {
	root := doc.Root()
	root.Integer("format")
	root.Need("id")
	root.Need("title")
	root.String("kind").Choice("manual", "standard", "measured")
	root.String("sealed").YesNo()
	root.List("cautions")
	if note := root.Text("note"); note.OK() {
		note.Warn("test-note", "a note of "+sheet.Echo(note.String()), "read it")
	}
	for _, name := range []string{"drain", "fill"} {
		plug := root.NeedSub("plug").NeedSub(name)
		plug.String("drive")
		root.Sub("plug").String("maker-note")
		sheet.Take(plug.Need("torque"), "test-torque", `write it like "24 N·m"`, func(text string) (string, error) {
			if !strings.HasSuffix(text, " N·m") {
				return "", errors.New(sheet.Echo(text) + " has no unit")
			}
			return text, nil
		})
		plug.Sub("washer").String("size")
	}
	for _, step := range root.Sub("step").Numbered() {
		step.Need("say")
		step.String("times").Count(1, 20)
	}
}

func TestReadingSheets(t *testing.T) {
	walk(t, "testdata/reading", 9, func(name string, data []byte) string {
		doc, err := sheet.Parse(name, data)
		if err != nil {
			t.Fatal(err)
		}
		procedure(doc)
		first, again := doc.Finish(), doc.Finish()
		if (first == nil) != (again == nil) || first != nil && first.Error() != again.Error() {
			t.Errorf("%s: Finish twice differs", name)
		}
		return render(doc.Faults())
	})
}

// TestEveryCodeIsShown wants a sheet that shows each code, so that no message goes unread.
func TestEveryCodeIsShown(t *testing.T) {
	var shown strings.Builder
	err := fs.WalkDir(os.DirFS("testdata"), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(name, ".want") {
			return err
		}
		data, err := os.ReadFile("testdata/" + name)
		shown.Write(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	source, err := os.ReadFile("codes.go")
	if err != nil {
		t.Fatal(err)
	}
	codes := 0
	for _, line := range strings.Split(string(source), "\n") {
		_, rest, ok := strings.Cut(line, `"`)
		code, _, closed := strings.Cut(rest, `"`)
		if !ok || !closed {
			continue
		}
		codes++
		// Library and disagree mean that scanner and library differ; TestTheLibraryHasTheLastWord makes them do so.
		if !strings.Contains(shown.String(), "("+code+") ") && code != "sheet-library" && code != "sheet-disagree" {
			t.Errorf("no sheet shows %s", code)
		}
	}
	if codes < 50 {
		t.Errorf("found %d codes", codes)
	}
}

package sheet_test

import (
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"example.com/meniscus/internal/sheet"
)

// examine checks what must hold for any bytes whatever.
func examine(t *testing.T, data []byte) {
	t.Helper()
	doc, err := sheet.Parse("any.toml", data)
	if err != nil {
		if len(data) <= sheet.MaxBytes || !errors.Is(err, sheet.ErrTooLarge) {
			t.Fatalf("%d bytes: %v", len(data), err)
		}
		return
	}
	all := doc.Faults()
	examineFaults(t, data, all)
	if again, _ := sheet.Parse("any.toml", data); again.Faults().Error() != all.Error() {
		t.Errorf("%q: read twice:\n%v\n%v", data, all, again.Faults())
	}
	for _, f := range all.All {
		if f.Code == "sheet-library" || f.Code == "sheet-disagree" {
			t.Errorf("%q: scanner and library differ: %v", data, f)
		}
	}
	tree, err := decode(string(data))
	if doc.Err() == nil {
		if err != nil {
			t.Fatalf("%q: accepted, but the library: %v", data, err)
		}
		examineTable(t, data, doc.Root(), tree, true)
		examineOutline(t, data, doc)
	} else if err == nil { // what is left of a refused sheet is nevertheless what it says
		examineTable(t, data, doc.Root(), tree, false)
	}
	_ = doc.Finish()
	examineFaults(t, data, doc.Faults())
}

func examineFaults(t *testing.T, data []byte, all sheet.Faults) {
	t.Helper()
	lines := strings.Split(strings.TrimPrefix(string(data), "\ufeff"), "\n")
	last := sheet.Fault{Line: 1, Col: 1}
	for _, f := range all.All {
		if f.Line < 1 || f.Line > len(lines) || f.Col < 1 || f.Col > utf8.RuneCountInString(lines[f.Line-1])+1 {
			t.Errorf("%q: outside the file: %v", data, f)
		}
		if f.Line < last.Line || f.Line == last.Line && f.Col < last.Col {
			t.Errorf("%q: out of order: %v after %v", data, f, last)
		}
		last = f
		if f.Code == "" || f.Problem == "" || f.Do == "" || f.File != "any.toml" {
			t.Errorf("%q: half a fault: %#v", data, f)
		}
		for _, r := range strings.Replace(f.Error(), "\n    ", "", 1) {
			if unicode.In(r, unicode.Cc, unicode.Cf, unicode.Co, unicode.Zl, unicode.Zp) {
				t.Errorf("%q: U+%04X in %q", data, r, f.Error())
			}
		}
	}
	if len(all.All) > sheet.MaxFaults {
		t.Errorf("%d faults", len(all.All))
	}
}

// examineTable holds a table against what the library made of the same text; of an accepted one nothing may be left out.
func examineTable(t *testing.T, data []byte, table *sheet.Table, tree map[string]any, whole bool) {
	t.Helper()
	if names := table.Names(); whole && len(names) != len(tree) {
		t.Errorf("%q: [%s] has %v, library %v", data, table.Path(), names, tree)
	}
	for _, name := range table.Names() {
		if strings.Trim(name, "abcdefghijklmnopqrstuvwxyz0123456789_-") != "" || name == "" || len(name) > sheet.MaxKey {
			t.Errorf("%q: key %q", data, name)
		}
		if table.Kind(name) == sheet.Group {
			inner, ok := tree[name].(map[string]any)
			if !ok {
				t.Errorf("%q: [%s] is no table to the library", data, name)
				continue
			}
			examineTable(t, data, table.Sub(name), inner, whole)
			continue
		}
		var theirs []any
		switch v := tree[name].(type) {
		case []any:
			theirs = v
		default:
			theirs = []any{v}
		}
		ours := everything(table, name)
		if len(ours) != len(theirs) {
			t.Errorf("%q: %s: %d values, library %d", data, name, len(ours), len(theirs))
			continue
		}
		for i, v := range ours {
			if text, ok := theirs[i].(string); ok && strings.ReplaceAll(text, "\r\n", "\n") != v.String() || !ok && v.String() == "" {
				t.Errorf("%q: %s: %q, library %v", data, v.Path(), v, theirs[i])
			}
			if hidden := strings.IndexFunc(v.String(), func(r rune) bool { return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Co) && r != '\t' && r != '\n' }); hidden >= 0 {
				t.Errorf("%q: %s: hidden character in %q", data, v.Path(), v)
			}
		}
	}
}

func examineOutline(t *testing.T, data []byte, doc *sheet.Doc) {
	t.Helper()
	last := -1
	for _, line := range doc.Outline() {
		name := line.Path[strings.LastIndexByte(line.Path, '.')+1:]
		rest := strings.TrimLeft(string(data[line.At.Offset:]), `"'`)
		if line.At.Offset <= last || !line.Header && !strings.HasPrefix(rest, name) || line.Header && rest[0] != '[' {
			t.Errorf("%q: outline %+v", data, line)
		}
		last = line.At.Offset
	}
}

// seeds are the golden sheets and the laxities of the library.
func seeds(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob("testdata/*/*.toml")
	if err != nil || len(files) < 50 {
		t.Fatalf("%d seeds, %v", len(files), err)
	}
	var texts []string
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if len(data) < 8192 { // a long one only slows the search down
			texts = append(texts, string(data))
		}
	}
	for _, text := range laxities {
		texts = append(texts, text)
	}
	slices.Sort(texts)
	return texts
}

func FuzzParse(f *testing.F) {
	for _, text := range seeds(f) {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 16<<10 || costly(data) {
			return // the library alone, which these checks call too, would take seconds
		}
		examine(t, data)
	})
}

// costly reports what makes the library slow: long runs of names and brackets.
func costly(data []byte) bool {
	text := string(data)
	return strings.Count(text, ".") > 200 || strings.Count(text, "{") > 50 || strings.Count(text, "[") > 500
}

// TestMixtures puts pieces of TOML, good and bad, together at random. Seeded: the same mixtures on every run.
func TestMixtures(t *testing.T) {
	pieces := []string{"a", "b", "drain", "Drain", "format", "x.y", "=", " = ", "=", "\n", "\n", "\n", "\r\n", "\r", " ", "\t", "#", "# c\n",
		`"x"`, `"24 N·m"`, `'x'`, `"""`, `'''`, `"`, `'`, "\\", `\"`, `\u0041`, `\u200b`, `\n`, "[", "]", "[a]\n", "[a.b]\n", "[b]\n", "[[", "]]", "{", "}",
		",", ".", "1", "2.1", "true", "2024-03-01", "\ufeff", "\u200b", "\u00a0", "\xff", "\x00", "é", "a = \"x\"\n", "b = [\"x\", \"y\"]\n", "c = [\n\"x\",\n"}
	random := rand.New(rand.NewPCG(1, 2))
	n := 20_000
	if testing.Short() {
		n = 2_000
	}
	for range n {
		var b strings.Builder
		for range 1 + random.IntN(14) {
			b.WriteString(pieces[random.IntN(len(pieces))])
		}
		examine(t, []byte(b.String()))
		if t.Failed() {
			return
		}
	}
}

// TestCuts cuts the golden sheets at every byte, and drops every byte once.
func TestCuts(t *testing.T) {
	for _, text := range seeds(t) {
		step := 1 + len(text)/200
		for i := 0; i < len(text); i += step {
			if costly([]byte(text)) {
				break
			}
			examine(t, []byte(text[:i]))
			examine(t, []byte(text[:i]+text[i+1:]))
			if t.Failed() {
				return
			}
		}
	}
}

// TestLineEndingsChangeNothing: the golden sheets with CR LF give the same faults at the same places, and the same values.
func TestLineEndingsChangeNothing(t *testing.T) {
	compared := 0
	for _, text := range seeds(t) {
		if strings.Contains(text, "\r") || strings.Contains(text, "\x00") {
			continue
		}
		compared++
		lf, crlf := parse(t, text), parse(t, strings.ReplaceAll(text, "\n", "\r\n"))
		if got, want := render(crlf.Faults())+show(crlf), render(lf.Faults())+show(lf); got != want {
			t.Errorf("%q: with CR LF\n%s\nwant\n%s", text, got, want)
		}
	}
	if compared < 50 {
		t.Errorf("compared %d sheets", compared)
	}
}

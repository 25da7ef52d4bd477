package sheet_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/meniscus/internal/sheet"
)

// A writer writes a sheet at random and notes what a reader must find: for each key its path, place and words.
type writer struct {
	random *rand.Rand
	text   strings.Builder
	want   []string
}

func (w *writer) pick(list ...string) string { return list[w.random.IntN(len(list))] }

// here gives the place of what is written next, counted from the text itself.
func (w *writer) here() string {
	text := w.text.String()
	line := text[strings.LastIndexByte(text, '\n')+1:]
	return fmt.Sprintf("%d:%d", 1+strings.Count(text, "\n"), 1+utf8.RuneCountInString(line))
}

func (w *writer) space() { w.text.WriteString(w.pick("", " ", "  ", "\t")) }

func (w *writer) newline() {
	w.space()
	w.text.WriteString(w.pick("", "", "# 60 °C and more", "#", `# "x" = [`))
	w.text.WriteString(w.pick("\n", "\r\n", "\n\n", "\n \t\n# [no.header]\n"))
}

// word gives a value as written in one of the two plain forms.
func (w *writer) word() (written, meant string) {
	meant = w.pick("24 N·m", "2.1 L", "9.6..10.4 L", "it's", "#1 [a] = {b}", "60 °C", "a, b", "−3 mm", "24\u00a0N·m", "\t.", `C:\x`, `3/8" square`)
	literal := "'" + meant + "'"
	basic := strconv.Quote(meant)
	basic = strings.NewReplacer(`\u00a0`, "\u00a0").Replace(basic)
	if strings.Contains(meant, "'") || w.random.IntN(2) == 0 {
		return basic, meant
	}
	return literal, meant
}

func (w *writer) value(path string, keyAt string) {
	note := func(at, meant string) {
		w.want = append(w.want, fmt.Sprintf("%s %s %s %q", path, keyAt, at, meant))
	}
	switch w.random.IntN(4) {
	case 0:
		at := w.here()
		first, _ := w.word()
		first = strings.Trim(first, `"'\	`) // as a line of a long text: without what means something there
		first = strings.NewReplacer(`\`, "/", `"`, "", "'", "").Replace(first)
		if w.random.IntN(2) == 0 {
			w.text.WriteString(`"""` + "\n" + first + " \\\n   second\nthird\"\"\"")
			note(at, first+" second\nthird")
			return
		}
		w.text.WriteString("'''" + first + "\n \\''x'''")
		note(at, first+"\n \\''x")
	case 1:
		w.text.WriteString("[")
		n := w.random.IntN(4)
		for i := range n {
			w.text.WriteString(w.pick("", " ", "\n", "# why\n\t"))
			at := w.here()
			written, meant := w.word()
			w.text.WriteString(written)
			note(at, meant)
			w.text.WriteString(w.pick("", " ", "\n"))
			if i < n-1 || w.random.IntN(2) == 0 {
				w.text.WriteString(",")
			}
		}
		w.text.WriteString(w.pick("", "\n", " # end\n") + "]")
	default:
		at := w.here()
		written, meant := w.word()
		w.text.WriteString(written)
		note(at, meant)
	}
}

func (w *writer) keys(under string) {
	names := []string{"drain", "fill-plug", "no_1", "10", "x", strings.Repeat("k", sheet.MaxKey)}
	w.random.Shuffle(len(names), func(i, j int) { names[i], names[j] = names[j], names[i] })
	for _, name := range names[:w.random.IntN(len(names))] {
		w.space()
		at := w.here()
		w.text.WriteString(w.pick(name, name, `"`+name+`"`, "'"+name+"'"))
		w.space()
		w.text.WriteString("=")
		w.space()
		w.value(strings.TrimPrefix(under+"."+name, "."), at)
		w.newline()
	}
}

// TestWrittenSheetsAreReadBack: what was written at random is found again, every word and every place.
func TestWrittenSheetsAreReadBack(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 500 {
		w := &writer{random: random}
		w.keys("")
		for i := range random.IntN(6) {
			name := fmt.Sprintf("table%d", i)
			for range random.IntN(4) {
				name += w.pick(".a", ".b-c", ".7")
			}
			w.space()
			w.text.WriteString("[" + strings.ReplaceAll(name, ".", w.pick(".", " . ", "\t.")) + w.pick("", " ") + "]")
			w.newline()
			w.keys(name)
		}
		doc := parse(t, w.text.String())
		if err := doc.Err(); err != nil {
			t.Fatalf("%s\n%v", w.text.String(), err)
		}
		got := found(doc.Root())
		slices.Sort(got)
		slices.Sort(w.want)
		if !slices.Equal(got, w.want) {
			t.Fatalf("%s\ngot  %s\nwant %s", w.text.String(), strings.Join(got, "\n     "), strings.Join(w.want, "\n     "))
		}
		examine(t, []byte(w.text.String()))
		if err := doc.Finish(); err != nil {
			t.Fatal(err)
		}
	}
}

// found lists what a sheet says, the way the writer notes it, and marks all of it as used.
func found(table *sheet.Table) []string {
	var got []string
	for _, name := range table.Names() {
		if table.Kind(name) == sheet.Group {
			continue
		}
		for _, v := range everything(table, name) {
			path, _, _ := strings.Cut(v.Path(), "[")
			got = append(got, fmt.Sprintf("%s %s %s %q", path, place(v.KeyAt()), place(v.At()), v.String()))
		}
	}
	for _, sub := range table.Subs() {
		got = append(got, found(sub)...)
	}
	return got
}

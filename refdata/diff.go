package refdata

import "strings"

// Difference is one value that two procedures do not share.
type Difference struct {
	Key           string // dotted path
	Before, After string // as written; empty: not stated
	From, To      string // where each comes from; empty where no figure says
}

// String returns "key: before -> after", and what changed of the source where
// the words are the same.
func (d Difference) String() string {
	name := func(s string) string {
		if s == "" {
			return "(not stated)"
		}
		return strings.Join(strings.Fields(s), " ")
	}
	if d.Before == d.After {
		return d.Key + ": " + name(d.Before) + ", now from " + name(d.To) + ", not " + name(d.From)
	}
	return d.Key + ": " + name(d.Before) + " -> " + name(d.After)
}

// Diff returns what differs between two procedures, in the order of a file:
// values by their meaning, so that 1 L and 1000 mL are alike, and the sources of
// values that are alike.
func Diff(before, after Procedure) []Difference {
	a, b := before.all(), after.all()
	inA, inB := indexed(a), indexed(b)
	was, is := indexFigures(before.Figures), indexFigures(after.Figures)
	var list []Difference
	for _, x := range a {
		var y line
		if i, known := inB[x.path()]; known {
			y = b[i]
		}
		list = compare(list, x, y, was, is)
	}
	for _, y := range b {
		if _, known := inA[y.path()]; !known {
			list = compare(list, line{table: y.table, key: y.key}, y, was, is)
		}
	}
	return list
}

// indexed finds lines by their path; of two alike, the first.
func indexed(lines []line) map[string]int {
	index := make(map[string]int, len(lines))
	for i, l := range lines {
		if _, known := index[l.path()]; !known {
			index[l.path()] = i
		}
	}
	return index
}

// all is lines with the words at the top of the file.
func (p Procedure) all() []line {
	return append([]line{
		bareWords("", "id", p.ID), bareWords("", "title", p.Title), bareWords("", "revision", p.Revision),
		bareWords("", "cautions", strings.Join(p.Cautions, ", ")), bareWords("", "notes", strings.Join(p.Notes, " / ")),
	}, p.lines()...)
}

func compare(list []Difference, x, y line, before, after figureIndex) []Difference {
	f, _ := before.find(x.path())
	g, _ := after.find(x.path())
	d := Difference{Key: strings.TrimPrefix(x.path(), "."), Before: wordsOf(x, f), After: wordsOf(y, g), From: from(f), To: from(g)}
	switch {
	case x.text == y.text && (x.text == "" || x.bare || d.From == d.To):
		return list
	case x.text == y.text:
		d.After = d.Before
	}
	return append(list, d)
}

// wordsOf prefers the words of the sheet, where they still mean the value.
func wordsOf(l line, f Figure) string {
	if l.text != "" && f.Text != "" && l.same(f.Text) {
		return f.Text
	}
	return l.text
}

func from(f Figure) string {
	return strings.TrimSpace(f.Source.Title + " " + f.Place)
}

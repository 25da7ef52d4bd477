package refdata

import (
	"strconv"
	"strings"
)

// Explain returns, line by line, where every figure of the procedure comes from:
// the words as written, the source with its place, kind and date, how far it is
// trusted, file and line, its note, and what it shadows in the files below.
func Explain(p Procedure) string {
	var b strings.Builder
	tell(&b, p.ID, ": ", p.Title, ", revision ", p.Revision, "\n")
	for i := range p.Figures {
		f := &p.Figures[i]
		tell(&b, f.Key, " = ", f.Text, "\n    ")
		f.pedigree(&b)
		b.WriteByte('\n')
		if note := f.why(); note != "" {
			tell(&b, "    note: ", note, "\n")
		}
		for j := range f.Shadows {
			s := &f.Shadows[j]
			tell(&b, "    in place of ", s.Text, ": ")
			s.pedigree(&b)
			b.WriteByte('\n')
		}
	}
	return b.String()
}

func tell(b *strings.Builder, words ...string) {
	for _, w := range words {
		b.WriteString(w)
	}
}

// pedigree writes where a figure comes from and stands, in one line.
func (f *Figure) pedigree(b *strings.Builder) {
	tell(b, "from ", f.Source.Title)
	if f.Place != "" {
		tell(b, ", ", f.Place)
	}
	tell(b, " (", f.Source.Kind)
	if f.Source.Date != "" {
		tell(b, ", ", f.Source.Date)
	}
	tell(b, "), trust ", f.Trust, ", ", f.File, ":", strconv.Itoa(f.Line))
}

// why is the figure's note, or its source's, on one line.
func (f *Figure) why() string {
	note := f.Note
	if note == "" {
		note = f.Source.Note
	}
	return strings.Join(strings.Fields(note), " ")
}

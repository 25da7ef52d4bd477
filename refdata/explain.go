package refdata

import (
	"fmt"
	"strings"
)

// Explain returns, line by line, where every figure of the procedure comes from:
// the words as written, the source with its place, kind and date, how far it is
// trusted, file and line, its note, and what it shadows in the files below.
func Explain(p Procedure) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s, revision %s\n", p.ID, p.Title, p.Revision)
	for _, f := range p.Figures {
		fmt.Fprintf(&b, "%s = %s\n    %s\n", f.Key, f.Text, f.pedigree())
		if note := f.why(); note != "" {
			fmt.Fprintf(&b, "    note: %s\n", note)
		}
		for _, s := range f.Shadows {
			fmt.Fprintf(&b, "    in place of %s: %s\n", s.Text, s.pedigree())
		}
	}
	return b.String()
}

// pedigree is where a figure comes from and stands, in one line.
func (f Figure) pedigree() string {
	s := "from " + f.Source.Title
	if f.Place != "" {
		s += ", " + f.Place
	}
	s += " (" + f.Source.Kind
	if f.Source.Date != "" {
		s += ", " + f.Source.Date
	}
	return s + "), trust " + f.Trust + fmt.Sprintf(", %s:%d", f.File, f.Line)
}

// why is the figure's note, or its source's, on one line.
func (f Figure) why() string {
	note := f.Note
	if note == "" {
		note = f.Source.Note
	}
	return strings.Join(strings.Fields(note), " ")
}

package refdata

import (
	"fmt"
	"slices"
)

// Source is a paper, a person's measurement or a rule of the trade that figures
// come from.
type Source struct {
	Name  string // short name used by the figures of its file
	Title string
	Kind  string // manual, standard, measured, calculated, practice, memory
	Date  string // as written
	Note  string
}

// Figure is one value of a pack and where it stands and comes from.
type Figure struct {
	Key     string // dotted path, such as "plug.drain.torque"
	Text    string // as written
	File    string
	Line    int
	Source  Source
	Place   string // in the source, such as "p.2"
	Trust   string // high, medium or low
	Note    string
	Shadows []Figure // what files further down say of it, the next one first
}

// String returns the figure in one line: key, text, source, place, trust, file:line.
func (f Figure) String() string {
	s := f.Key + " = " + f.Text + "  [" + f.Source.Title
	if f.Place != "" {
		s += ", " + f.Place
	}
	s += "; " + f.Source.Kind + ", trust " + f.Trust + "; " + fmt.Sprintf("%s:%d", f.File, f.Line) + "]"
	if f.Note != "" {
		s += " " + f.Note
	}
	return s
}

func cloneFigures(list []Figure) []Figure {
	out := slices.Clone(list)
	for i := range out {
		if shadows := out[i].Shadows; shadows != nil {
			out[i].Shadows = cloneFigures(shadows)
		}
	}
	return out
}

// sourceKinds lists the kinds of source, the strongest first.
func sourceKinds() []string {
	return []string{"manual", "standard", "measured", "calculated", "practice", "memory"}
}

// trustOf is the trust a kind of source earns where the file states none (our
// judgement).
func trustOf(kind string) string {
	switch kind {
	case "manual", "standard":
		return "high"
	case "measured", "calculated":
		return "medium"
	}
	return "low"
}

// rank orders the words for trust; a word nobody knows is the lowest.
func rank(trust string) int {
	switch trust {
	case "high":
		return 3
	case "medium":
		return 2
	case "low":
		return 1
	}
	return 0
}

// Weakest returns the figures that are trusted less than least ("high",
// "medium" or "low"), for a reader who asks for more.
func Weakest(figures []Figure, least string) []Figure {
	var weak []Figure
	for _, f := range figures {
		if rank(f.Trust) < rank(least) {
			weak = append(weak, f)
		}
	}
	return cloneFigures(weak)
}

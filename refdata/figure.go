package refdata

import (
	"fmt"
	"strings"

	"example.com/meniscus/internal/sheet"
)

// Source is a paper, a person's measurement or a rule of the trade that figures
// come from.
type Source struct {
	Name  string // short name used by the figures of its file
	Title string
	Kind  string // manual, standard, measured, calculated, practice, memory
	Date  string // as written
}

// Figure is one value of a pack and where it stands and comes from.
type Figure struct {
	Key    string // dotted path, such as "plug.drain.torque"
	Text   string // as written
	File   string
	Line   int
	Source Source
	Place  string // in the source, such as "p.2"
	Trust  string // high, medium or low
	Note   string
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

// reader reads one file and gathers its figures.
type reader struct {
	doc     *sheet.Doc
	checks  checks
	sources []Source
	figures []Figure
}

func (r *reader) readSources(t *sheet.Table) {
	for _, s := range t.Subs() {
		kind, _ := s.Need("kind").Choice("manual", "standard", "measured", "calculated", "practice", "memory")
		r.sources = append(r.sources, Source{Name: s.Name(), Title: s.Need("title").String(), Kind: kind, Date: s.String("date").String()})
	}
}

func (r *reader) source(name string) (Source, bool) {
	for _, s := range r.sources {
		if s.Name == name {
			return s, true
		}
	}
	return Source{}, false
}

func (r *reader) sourceNames() string {
	var names []string
	for _, s := range r.sources {
		names = append(names, s.Name)
	}
	return strings.Join(names, ", ")
}

// value finds a figure: a key of the table, whose source is the table's, or a
// sub-table with value, from, trust and note of its own. An absent one is not OK.
func (r *reader) value(t *sheet.Table, name string) sheet.Value {
	own := t
	var v sheet.Value
	if t.Kind(name) == sheet.Group {
		own = t.Sub(name)
		v = own.Need("value")
	} else {
		v = t.String(name)
	}
	if v.OK() {
		r.keep(v, t, own)
	}
	return v
}

// where finds the place of a figure again, for a check that comes later.
func (r *reader) where(t *sheet.Table, name string) sheet.Value {
	if t.Kind(name) == sheet.Group {
		return t.Sub(name).String("value")
	}
	if t.Kind(name) == sheet.String {
		return t.String(name)
	}
	return sheet.Value{}
}

// keep records where the figure comes from, or that nobody says.
func (r *reader) keep(v sheet.Value, t, own *sheet.Table) {
	from := own.String("from")
	if !from.OK() {
		from = t.String("from")
	}
	if !from.OK() {
		v.Fault("pack-no-source", "has no source", `write from = "<source name> <place>" in its table`)
		return
	}
	name, place, _ := strings.Cut(from.String(), " ")
	src, ok := r.source(strings.TrimSuffix(name, ","))
	if !ok {
		from.Fault("pack-unknown-source", fmt.Sprintf("no [source.%s] in this file", sheet.Echo(name)), "name one of: "+r.sourceNames())
		return
	}
	f := Figure{Key: strings.TrimSuffix(v.Path(), ".value"), Text: v.String(), File: v.File(), Line: v.At().Line, Source: src, Place: place, Trust: trustOf(src.Kind)}
	if own != t {
		if trust := own.String("trust"); trust.OK() {
			f.Trust, _ = trust.Choice("high", "medium", "low")
		}
		f.Note = own.Text("note").String()
		if f.Trust == "low" && f.Note == "" && own.String("trust").OK() {
			own.Fault("pack-trust-note", "low trust without a note", `say why in note = "…"`)
		}
	}
	r.figures = append(r.figures, f)
}

// take reads a figure as whatever parse makes of it.
func take[T any](r *reader, t *sheet.Table, name, code, do string, parse func(string) (T, error)) (T, bool) {
	return sheet.Take(r.value(t, name), code, do, parse)
}

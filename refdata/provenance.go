package refdata

import (
	"fmt"
	"slices"
	"strings"

	"example.com/meniscus/internal/sheet"
)

// reader reads what one chain of files says together, and gathers its figures.
type reader struct {
	checks  checks
	figures []Figure
	misses  int      // figures that could not be read, so far
	broken  []string // washers whose own figures are at fault
}

// readSources reads a file's [source.…] tables. Their names hold in that file only.
func (f *file) readSources(t *sheet.Table) {
	list := t.Subs()
	f.sources = room[Source](len(list))
	for _, s := range list {
		kind, _ := filled(s.Need("kind")).Choice(sourceKinds()...)
		f.sources = append(f.sources, Source{
			Name: s.Name(), Title: filled(s.Need("title")).String(), Kind: kind,
			Date: s.String("date").String(), Note: s.Text("note").String(),
		})
	}
	f.used = make([]bool, len(f.sources))
}

// source finds a source by name and marks it as used.
func (f *file) source(name string) (Source, bool) {
	for i, s := range f.sources {
		if s.Name == name {
			f.used[i] = true
			return s, true
		}
	}
	return Source{}, false
}

func (f *file) sourceNames() string {
	if len(f.sources) == 0 {
		return `describe it: [source.sheet] with title and kind`
	}
	var names []string
	for _, s := range f.sources {
		names = append(names, s.Name)
	}
	return "name one of: " + strings.Join(names, ", ")
}

// cell is one value with what stands around it.
type cell struct {
	sheet.Value
	v     *view
	name  string
	n     int          // level it stands in
	table *sheet.Table // the level's table
	own   *sheet.Table // the value's own sub-table; else table
}

// cell finds a value at level i or below: a key of the table, or a sub-table
// with value, from, trust and note of its own.
func (v *view) cell(name string, i int) (cell, bool) {
	n, ok := v.find(name, i)
	if !ok {
		return cell{}, false
	}
	l := v.levels[n]
	c := cell{v: v, name: name, n: n, table: l.table, own: l.table}
	here := l.file.oldName(v, name)
	if l.table.Kind(here) != sheet.Group {
		c.Value = filled(l.table.String(here))
		return c, true
	}
	c.own = l.table.Sub(here)
	c.Value = filled(c.own.Need("value"))
	for _, name := range [...]string{"from", "trust"} {
		c.own.String(name) // known keys, whether or not somebody gets as far as asking
	}
	c.own.Text("note")
	return c, true
}

// value finds a figure and records where it comes from. An absent one is not OK.
func (r *reader) value(v *view, name string) sheet.Value {
	v.note(name)
	c, ok := v.cell(name, 0)
	if !ok && v.hidden(name) {
		return sheet.Value{}
	}
	if !ok {
		l := v.levels[0]
		return l.table.String(l.file.oldName(v, name)) // so that it is known as a key
	}
	if c.OK() {
		r.keep(c)
	}
	return c.Value
}

// must is value for a figure that has to be there.
func (r *reader) must(v *view, name string) sheet.Value {
	if _, ok := v.find(name, 0); !ok && v.present() && !v.taken(name) {
		l := v.levels[0]
		l.table.Need(l.file.oldName(v, name)) // Finish says that it is missing
	}
	return r.value(v, name)
}

// where finds the place of a figure again, for a check that comes later.
func (r *reader) where(v *view, name string) sheet.Value {
	c, _ := v.cell(name, 0)
	return c.Value
}

// take reads a figure as whatever parse makes of it.
func take[T any](r *reader, v *view, name, code, do string, parse func(string) (T, error)) (T, bool) {
	x, ok := sheet.Take(r.value(v, name), code, do, parse)
	if !ok && v.kind(name) != sheet.Absent {
		r.misses++
	}
	return x, ok
}

// mustTake is take for a figure that has to be there.
func mustTake[T any](r *reader, v *view, name, code, do string, parse func(string) (T, error)) (T, bool) {
	x, ok := sheet.Take(r.must(v, name), code, do, parse)
	if !ok {
		r.misses++
	}
	return x, ok
}

// keep records a figure, and faults what is wrong with its pedigree. What a
// file further down says of it was judged when that file was read by itself.
func (r *reader) keep(c cell) {
	f, ok := c.figure()
	c.checkOverlay()
	if !ok {
		return
	}
	for n := c.n; ; {
		lower, found := c.v.cell(c.name, n+1)
		if !found {
			break
		}
		if shadow, ok := lower.figure(); lower.OK() && ok {
			f.Shadows = append(f.Shadows, shadow)
		}
		n = lower.n
	}
	r.figures = append(r.figures, f)
}

// from finds the words that say where a value comes from: its own, its table's,
// or those of a table further out in the same file.
func (c cell) from() sheet.Value {
	if c.own != c.table {
		if v := c.own.String("from"); v.OK() {
			return v
		}
	}
	if v := c.table.String("from"); v.OK() {
		return v
	}
	f := c.v.levels[c.n].file
	for up := c.v.up; up != nil; up = up.up {
		for _, l := range up.levels {
			if l.file != f {
				continue
			}
			if v := l.table.String("from"); v.OK() {
				return v
			}
		}
	}
	return sheet.Value{}
}

// figure gives the value with its pedigree; not ok, and faulted, where nobody
// says where it comes from.
func (c cell) figure() (Figure, bool) {
	from := c.from()
	if !from.OK() {
		c.own.Fault("pack-no-source", "nothing says where its figures come from", `write from = "<source name> <place>" below this line`)
		return Figure{}, false
	}
	name, place, _ := strings.Cut(from.String(), " ")
	name = strings.TrimSuffix(name, ",")
	file := c.v.levels[c.n].file
	src, ok := file.source(name)
	if !ok {
		from.Fault("pack-unknown-source", fmt.Sprintf("no source in this file is called %s", sheet.Echo(name)), file.sourceNames())
		return Figure{}, false
	}
	f := Figure{
		Key: c.v.join(c.name), Text: c.String(), File: c.File(), Line: c.At().Line,
		Source: src, Place: strings.TrimSpace(place), Trust: trustOf(src.Kind), Note: c.note(),
	}
	trust := c.trust()
	if trust.OK() {
		f.Trust, _ = trust.Choice("high", "medium", "low")
	}
	switch {
	case f.Trust != "low" || f.Note != "" || src.Note != "" || src.Kind == "":
	case trust.OK():
		trust.Fault("pack-trust-note", "low trust without a note", `say why: note = "…" in the value's own table`)
	default:
		file.sourceTable(name).Fault("pack-trust-note", "a source of this kind is little trusted, and no note says why its figures are used", `say why: note = "…" below this line`)
	}
	return f, true
}

func (c cell) trust() sheet.Value {
	if c.own != c.table {
		if v := c.own.String("trust"); v.OK() {
			return v
		}
	}
	return c.table.String("trust")
}

// note is the value's own; a table's note is about the table.
func (c cell) note() string {
	if c.own == c.table {
		return ""
	}
	return c.own.Text("note").String()
}

func (f *file) sourceTable(name string) *sheet.Table { return f.doc.Root().Sub("source").Sub(name) }

// unused warns of sources that no figure names.
func (f *file) unused() {
	for i, s := range f.sources {
		if !f.used[i] {
			f.sourceTable(s.Name).Warn("pack-source-unused", "no figure of this file comes from it", "name it in a from, or drop it")
		}
	}
}

// checkOverlay holds a value of an overlay against what it is laid over.
func (c cell) checkOverlay() {
	if len(c.v.chain) < 2 || c.v.levels[c.n].file != c.v.chain[0] {
		return
	}
	path := c.v.join(c.name)
	if c.own != c.table {
		c.own.String("was")
	}
	if slices.ContainsFunc(c.v.chain[0].removed, func(r sheet.Value) bool { return r.String() == path }) {
		return // told already
	}
	lower, found := c.v.cell(c.name, c.n+1)
	added := slices.ContainsFunc(c.v.chain[0].added, func(a sheet.Value) bool {
		return a.String() == path || strings.HasPrefix(path, a.String()+".")
	})
	if !found && !added {
		c.Fault("pack-overlay-nothing", "the base has no such value", fmt.Sprintf("if it is meant to be new, list it: [add] with keys = [%q]; else look at the spelling", path))
	}
	if c.own == c.table {
		return
	}
	was := c.own.String("was")
	switch {
	case was.OK() && !found:
		was.Fault("pack-was", "guards a value the base has not got", "drop was")
	case was.OK() && was.String() != lower.String():
		was.Fault("pack-was", fmt.Sprintf("the base now says %s (%s:%d)", sheet.Echo(lower.String()), lower.File(), lower.At().Line), "look at the base again, then write what it says")
	}
}

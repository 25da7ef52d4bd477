package refdata

import (
	"slices"
	"strings"

	"example.com/meniscus/internal/sheet"
)

// file is one sheet of the pack: what it is, and over what it is laid.
type file struct {
	doc     *sheet.Doc
	name    string
	layer   int
	format  int
	kind    string
	id      sheet.Value
	over    sheet.Value // overlay_of
	sources []Source
	used    []bool      // of sources
	class   sheet.Value // of a procedure, while no file describes it
	built   bool
	closed  bool
	removed []sheet.Value
	added   []sheet.Value
}

// level is one file's part of a table.
type level struct {
	file  *file
	table *sheet.Table
	cut   []string // paths that files above this one remove
}

// view is one table as the overlays leave it: the topmost file that says
// something about a key speaks. It has at least one level, present or not.
type view struct {
	path   string
	up     *view
	levels []level
	chain  []*file   // top first
	asked  *[]string // every path asked for, when a test wants to know
}

// open looks at a chain of files, the top first.
func open(chain []*file) *view {
	v := &view{chain: chain}
	var cut []string
	for _, f := range chain {
		v.levels = append(v.levels, level{f, f.doc.Root(), cut})
		for _, r := range f.removed {
			cut = append(cut[:len(cut):len(cut)], r.String())
		}
	}
	return v
}

// under is the same table without its topmost file.
func under(chain []*file) *view { return open(chain[1:]) }

func (v *view) join(name string) string {
	if v.path == "" {
		return name
	}
	return v.path + "." + name
}

func (v *view) note(name string) {
	if v.asked != nil {
		*v.asked = append(*v.asked, v.join(name))
	}
}

// find gives the first level from i on that has something under a name.
func (v *view) find(name string, i int) (int, bool) {
	for ; i < len(v.levels); i++ {
		l := v.levels[i]
		if l.table.Kind(l.file.oldName(v, name)) == sheet.Absent {
			continue
		}
		if len(l.cut) == 0 || !slices.Contains(l.cut, v.join(name)) {
			return i, true
		}
	}
	return 0, false
}

// hidden reports whether the topmost level here is one an overlay takes the name from.
func (v *view) hidden(name string) bool {
	return len(v.levels[0].cut) > 0 && slices.Contains(v.levels[0].cut, v.join(name))
}

// kind tells what stands under a name.
func (v *view) kind(name string) sheet.Kind {
	i, ok := v.find(name, 0)
	if !ok {
		return sheet.Absent
	}
	l := v.levels[i]
	return l.table.Kind(l.file.oldName(v, name))
}

// ask reads a name with the method read from the level that has it; from the
// topmost one if none has.
func (v *view) ask(name string, read func(*sheet.Table, string) sheet.Value) sheet.Value {
	v.note(name)
	i, ok := v.find(name, 0)
	if !ok && v.hidden(name) {
		return sheet.Value{}
	}
	l := v.levels[i]
	return filled(read(l.table, l.file.oldName(v, name)))
}

func (v *view) str(name string) sheet.Value { return v.ask(name, (*sheet.Table).String) }
func (v *view) need(name string) sheet.Value {
	if _, ok := v.find(name, 0); !ok && v.taken(name) {
		return sheet.Value{}
	}
	return v.ask(name, (*sheet.Table).Need)
}
func (v *view) text(name string) sheet.Value { return v.ask(name, (*sheet.Table).Text) }

func (v *view) list(name string) []sheet.Value {
	v.note(name)
	i, ok := v.find(name, 0)
	if !ok && v.hidden(name) {
		return nil
	}
	l := v.levels[i]
	items, _ := l.table.List(l.file.oldName(v, name))
	return items
}

// sub gives the table inside this one, present or not.
func (v *view) sub(name string) *view {
	v.note(name)
	s := &view{path: v.join(name), up: v, chain: v.chain, asked: v.asked}
	for _, l := range v.levels {
		if len(l.cut) > 0 && slices.Contains(l.cut, s.path) {
			continue
		}
		if t := l.table.Sub(l.file.oldName(v, name)); t.Present() {
			t.String("from") // may stand in any table, even one that has no figure yet
			t.String("trust")
			s.levels = append(s.levels, level{l.file, t, l.cut})
		}
	}
	if len(s.levels) == 0 && v.hidden(name) {
		s.levels = append(s.levels, level{v.levels[0].file, nil, nil}) // a nil table holds nothing
	}
	if len(s.levels) == 0 {
		l := v.levels[0]
		s.levels = append(s.levels, level{l.file, l.table.Sub(l.file.oldName(v, name)), l.cut})
	}
	return s
}

// needSub is sub for a table that some file must have.
func (v *view) needSub(name string) *view {
	if _, ok := v.find(name, 0); !ok && !v.taken(name) {
		v.levels[0].table.NeedSub(v.levels[0].file.oldName(v, name))
	}
	return v.sub(name)
}

// taken reports whether an overlay removes something that has to be there, and
// says so where it is removed.
func (v *view) taken(name string) bool {
	for _, f := range v.chain {
		for _, r := range f.removed {
			if r.String() == v.join(name) {
				r.Fault("pack-remove-needed", "has to be there", "drop it from [remove], or write a value in its place")
				return true
			}
		}
	}
	return false
}

// subs gives the tables inside this one: the base's in its order, then what
// each overlay adds.
func (v *view) subs() []*view {
	v.note("*")
	var names []string
	for _, l := range slices.Backward(v.levels) {
		subs := l.table.Subs()
		names = slices.Grow(names, len(subs))
		below := len(names) // one table has no name twice
		for _, t := range subs {
			if !slices.Contains(names[:below], t.Name()) && !slices.Contains(l.cut, v.join(t.Name())) {
				names = append(names, t.Name())
			}
		}
	}
	list := make([]*view, 0, len(names))
	for _, name := range names {
		s := v.sub(name)
		s.asked = v.asked
		list = append(list, s)
	}
	return list
}

func (v *view) name() string  { return v.path[strings.LastIndexByte(v.path, '.')+1:] }
func (v *view) present() bool { return v.levels[0].table.Present() }

// whole reports whether every line of the table could be read, in every file.
func (v *view) whole() bool {
	for _, l := range v.levels {
		if !l.table.Whole() {
			return false
		}
	}
	return true
}

func (v *view) fault(code, problem, do string) { v.levels[0].table.Fault(code, problem, do) }
func (v *view) warn(code, problem, do string)  { v.levels[0].table.Warn(code, problem, do) }

// has reports whether a dotted path leads to a key or a table.
func (v *view) has(path string) bool {
	first, rest, deeper := strings.Cut(path, ".")
	k := v.kind(first)
	if !deeper || k != sheet.Group {
		return k != sheet.Absent && !deeper
	}
	return v.sub(first).has(rest)
}

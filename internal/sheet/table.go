package sheet

import "slices"

// Root is the table that stands above all headers. It is always present.
func (d *Doc) Root() *Table {
	if d == nil {
		return nil
	}
	if d.root == nil {
		d.root = d.newTable(nil, "", 0)
	}
	return d.root
}

// Name is the display name of the file.
func (d *Doc) Name() string {
	if d == nil {
		return ""
	}
	return d.name
}

// Whole reports whether every header could be read. While it is false a table may only seem to be missing: a caller with
// rules across tables ("no such source") should keep quiet about what is absent.
func (d *Doc) Whole() bool { return d != nil && !d.lost }

// Name is the table's own name, the last of its path; empty for the root.
func (t *Table) Name() string {
	if t == nil {
		return ""
	}
	return t.name
}

// Path is the dotted path from the root.
func (t *Table) Path() string { return t.path() }

// At is the place of the table's header; for a table only implied by [a.b], of the header that implied it; for a table that
// is not there, of the nearest one around it.
func (t *Table) At() Pos {
	if t == nil || t.doc == nil {
		return Pos{}
	}
	return t.doc.pos(t.off)
}

// Present reports whether the table is in the file.
func (t *Table) Present() bool { return t != nil && t.present }

// Whole reports whether every line of the table could be read; when not, a key may only seem to be missing.
func (t *Table) Whole() bool { return t != nil && !t.holed && !t.dead && t.doc.Whole() }

// Kind tells what stands under a name, without marking it as used.
func (t *Table) Kind(name string) Kind {
	if t == nil {
		return Absent
	}
	m := t.member(name)
	switch {
	case m == nil:
		return Absent
	case m.dead():
		return Broken
	case m.sub != nil:
		return Group
	}
	return m.kind
}

// Names gives every name in the table that could be read, keys and tables, in the order of the file; nothing is marked as used.
func (t *Table) Names() []string {
	if t == nil {
		return nil
	}
	var names []string
	for _, m := range t.order {
		if !m.dead() {
			names = append(names, m.name)
		}
	}
	return names
}

// look marks a name as one the caller knows, and as used if it is there.
func (t *Table) look(name string) *member {
	if t == nil {
		return nil
	}
	m := t.member(name)
	if m != nil {
		m.used = true
	} else if !slices.Contains(t.asked, name) {
		t.asked = t.doc.note(t.asked, name)
	}
	return m
}

// note appends a name to a table's list. Tables of one sort are asked the same things in the same order, so that most can
// share the list of the one before; nothing is ever written into the shared part.
func (d *Doc) note(list []string, name string) []string {
	n := len(list)
	if d == nil {
		return append(list, name)
	}
	switch shares := len(d.names) >= n && slices.Equal(d.names[:n], list); {
	case !shares || len(d.names) > n && d.names[n] != name:
		d.names = append(append(make([]string, 0, 2*n+4), list...), name)
	case len(d.names) == n:
		d.names = append(d.names, name)
	}
	return d.names[: n+1 : n+1]
}

// Sub gives the table of that name inside this one. If there is none it gives one that is not Present and holds nothing.
func (t *Table) Sub(name string) *Table {
	m := t.look(name)
	if m != nil && m.sub != nil && !m.dead() {
		return m.sub
	}
	if m != nil && !m.dead() {
		t.wrong(m, codeNotTable, "a value where a table belongs", "write a header ["+t.path(name)+"] and its keys under it")
	}
	if t == nil {
		return nil
	}
	return &Table{doc: t.doc, parent: t, name: name, off: t.off, dead: t.dead || m != nil, holed: t.holed}
}

// NeedSub is Sub for a table that must be there: Finish reports it if it is not.
func (t *Table) NeedSub(name string) *Table {
	sub := t.Sub(name)
	if t != nil && t.present && !sub.present && !sub.dead {
		t.missing = append(t.missing, absence{name: name})
	}
	return sub
}

// Subs gives the tables inside this one in the order of the file, whatever their names, and marks each as used.
func (t *Table) Subs() []*Table {
	if t == nil {
		return nil
	}
	var subs []*Table
	for _, m := range t.order {
		if m.sub != nil && !m.dead() {
			m.used = true
			subs = append(subs, m.sub)
		}
	}
	return subs
}

// Values gives the keys of this table with their values in the order of the file, whatever their names, and marks each as
// used. Lists are left out, and stay unknown unless asked for; a text of several lines is among them.
func (t *Table) Values() []Value {
	if t == nil {
		return nil
	}
	var values []Value
	for _, m := range t.order {
		if m.sub == nil && !m.dead() && m.kind != List {
			m.used = true
			values = append(values, Value{table: t, name: m.name, key: m, at: m.valOff, text: m.text})
		}
	}
	return values
}

// Ignore marks everything in the table as used, at every depth.
func (t *Table) Ignore() {
	if t == nil {
		return
	}
	for _, m := range t.order {
		m.used = true
		m.sub.Ignore()
	}
}

// wrong records that a name holds the wrong kind of thing, once.
func (t *Table) wrong(m *member, code, problem, do string) {
	if m.told {
		return
	}
	m.told = true
	m.sub.Ignore()
	t.doc.addAt(m.off, t.path(m.name), code, problem, do)
}

// Fault records an error at the table's header.
func (t *Table) Fault(code, problem, do string) { t.add(Error, code, problem, do) }

// Warn records a warning at the table's header.
func (t *Table) Warn(code, problem, do string) { t.add(Warning, code, problem, do) }

func (t *Table) add(severity Severity, code, problem, do string) {
	if t == nil {
		return
	}
	at := t.At()
	t.doc.Add(Fault{Line: at.Line, Col: at.Col, Key: t.path(), Code: code, Problem: problem, Do: do, Severity: severity})
}

package sheet

import "slices"

// Finish looks for what nobody asked for and for what was needed and is not there, and gives everything found wrong with the
// file as one error of type Faults, sorted by place. It is nil if there is nothing of severity Error; warnings are then in
// Faults. Calling it again changes nothing.
func (d *Doc) Finish() error {
	d.Close()
	return d.Err()
}

// Close is Finish for a caller who asks for the faults later.
func (d *Doc) Close() {
	if d == nil || d.closed {
		return
	}
	d.closed = true
	d.strangers(d.Root())
	d.absences(d.Root())
}

// strangers reports the names that were not asked for. Of an unknown table, the header is enough.
func (d *Doc) strangers(t *Table) {
	for _, m := range t.order {
		switch {
		case m.dead() || m.told:
		case !m.used:
			d.stranger(t, m)
		case m.sub != nil:
			d.strangers(m.sub)
		}
	}
}

// stranger reports one unknown name; one of those that were asked for and are not there may be meant.
func (d *Doc) stranger(t *Table, m *member) {
	if d.full() {
		d.addAt(m.off, "", codeUnknown, "", "")
		return
	}
	if m.sub == nil && t.misplaced(m) {
		return
	}
	what := "an unknown key"
	do := "remove it"
	if m.sub != nil {
		what, do = "an unknown table", "remove it with its lines"
	}
	if near := nearest(m.name, t.meant(m)); near != "" {
		t.excuse(near)
		do = meaning(near, do)
	}
	d.addAt(m.off, t.path(m.name), codeUnknown, what, do)
}

// meant lists what an unknown name may stand for: names that were asked for and are not there, and for a table also the known
// tables that are there, since [entries.60] may follow [entry.50].
func (t *Table) meant(m *member) []string {
	if m.sub == nil {
		return t.asked
	}
	names := slices.Clip(t.asked)
	for _, other := range t.order {
		if other.used && other.sub != nil && !other.dead() {
			names = append(names, other.name)
		}
	}
	return names
}

// misplaced reports a key that belongs to a table further out: whatever stands after a sub-table's header belongs to that
// sub-table, however it is meant.
func (t *Table) misplaced(m *member) bool {
	for outer := t.parent; outer != nil; outer = outer.parent {
		if !slices.Contains(outer.asked, m.name) {
			continue
		}
		outer.excuse(m.name)
		t.doc.addAt(m.off, t.path(m.name), codeMisplaced,
			"stands under ["+t.path()+"] and so belongs to it, but that has no such key", outer.bringHome())
		return true
	}
	return false
}

// bringHome says where a key of this table would have to stand.
func (t *Table) bringHome() string {
	line := itoa(t.At().Line)
	switch {
	case t.parent == nil:
		return "if it is meant for the top of the file, move it above the first header"
	case t.explicit:
		return "if it is meant for [" + t.path() + "], move it up there, right below line " + line
	}
	return "if it is meant for [" + t.path() + "], write that header, and the key under it, above line " + line
}

// excuse drops the report that a name is missing: another fault explains it.
func (t *Table) excuse(name string) {
	t.missing = slices.DeleteFunc(t.missing, func(a absence) bool { return a.name == name })
}

// supply says how to write what is missing.
func (t *Table) supply(a absence) string {
	switch {
	case a.example == "":
		return "write a header [" + t.path(a.name) + "] and its keys under it"
	case t.parent == nil:
		return "write " + a.name + " = " + a.example + " at the top of the file"
	}
	return "write " + a.name + " = " + a.example + " under [" + t.path() + "]"
}

func (d *Doc) absences(t *Table) {
	for i, a := range t.missing {
		if t.dead || t.holed || a.example == "" && d.lost || slices.Contains(t.missing[:i], a) {
			continue
		}
		if d.full() {
			d.addAt(t.off, "", codeMissing, "", "")
			continue
		}
		d.addAt(t.off, t.path(a.name), codeMissing, "missing", t.supply(a))
	}
	for _, m := range t.order {
		if m.sub != nil {
			d.absences(m.sub)
		}
	}
}

package sheet

import "strconv"

// Value is the words of one key, or of one item of a list, with their place. The zero Value is absent.
type Value struct {
	table *Table
	name  string
	key   *member
	at    int
	text  string
}

// OK reports whether there are words that may be used: written, accepted, and of the kind that was asked for.
func (v Value) OK() bool { return v.key != nil }

// String gives the words themselves; empty if not OK. One line, unless they came from Table.Text.
func (v Value) String() string { return v.text }

// Name is the key's own name; an item of a list carries its number, counted from 1: cautions[2].
func (v Value) Name() string { return v.name }

// Path is the dotted path of the key from the root.
func (v Value) Path() string { return v.table.path(v.name) }

// Under is the table the key stands in.
func (v Value) Under() *Table { return v.table }

// File is the display name of the file.
func (v Value) File() string {
	if v.table == nil {
		return ""
	}
	return v.table.doc.Name()
}

// At is the place of the opening quote; of the table's header if there is no value.
func (v Value) At() Pos {
	if v.key == nil {
		return v.table.At()
	}
	return v.table.doc.pos(v.at)
}

// KeyAt is the place of the key; of the table's header if there is none.
func (v Value) KeyAt() Pos {
	if v.key == nil {
		return v.table.At()
	}
	return v.table.doc.pos(v.key.off)
}

// Fault records an error at the value.
func (v Value) Fault(code, problem, do string) { v.add(Error, code, problem, do) }

// Warn records a warning at the value.
func (v Value) Warn(code, problem, do string) { v.add(Warning, code, problem, do) }

func (v Value) add(severity Severity, code, problem, do string) {
	if v.table == nil {
		return
	}
	at := v.At()
	v.table.doc.Add(Fault{Line: at.Line, Col: at.Col, Key: v.Path(), Code: code, Problem: problem, Do: do, Severity: severity})
}

// String gives the value of one line under a name. Absent, it is not OK and no fault; a list, a table or a text of several
// lines under that name is a fault.
func (t *Table) String(name string) Value {
	v, kind := t.words(name)
	if kind == Text {
		t.wrong(t.member(name), codeLines, "a text in triple quotes where one line is wanted", `write it in plain quotes: "…"`)
		return Value{table: t, name: name}
	}
	return v
}

// Text is String for words that may run over several lines, such as a note.
func (t *Table) Text(name string) Value {
	v, _ := t.words(name)
	return v
}

// Need is String for a key that must be there: Finish reports it if it is not. In a table that is not there itself
// nothing is needed: that is for NeedSub to say.
func (t *Table) Need(name string) Value {
	v := t.String(name)
	t.want(name, `"…"`)
	return v
}

func (t *Table) want(name, example string) {
	if t == nil || !t.present || t.member(name) != nil {
		return
	}
	t.missing = append(t.missing, absence{name: name, example: example})
}

// words gives the value under a name if it is a string of either kind.
func (t *Table) words(name string) (Value, Kind) {
	none := Value{table: t, name: name}
	m := t.look(name)
	if m == nil || m.dead() {
		return none, Absent
	}
	kind := t.Kind(name)
	if kind != String && kind != Text {
		t.wrong(m, codeNotText, "one value in quotes is wanted here", `write `+name+` = "…"`)
		return none, Absent
	}
	return Value{table: t, name: name, key: m, at: m.valOff, text: m.text}, kind
}

// List gives the items of a list in order. ok is false if it is absent or refused; an empty list is OK.
func (t *Table) List(name string) (items []Value, ok bool) {
	m := t.look(name)
	if m == nil || m.dead() {
		return nil, false
	}
	if t.Kind(name) != List {
		t.wrong(m, codeNotList, "a list is wanted here", `write it in brackets: `+name+` = ["…", "…"]`)
		return nil, false
	}
	items = make([]Value, 0, len(m.items))
	for i, it := range m.items {
		items = append(items, Value{table: t, name: name + "[" + strconv.Itoa(i+1) + "]", key: m, at: it.off, text: it.text})
	}
	return items, true
}

// NeedList is List for a list that must be there.
func (t *Table) NeedList(name string) (items []Value, ok bool) {
	items, ok = t.List(name)
	t.want(name, `["…"]`)
	return items, ok
}

// Integer gives the bare whole number, 0 to 999999999, of `format` or `schema` in the root, which must be there.
func (t *Table) Integer(name string) (n int, ok bool) {
	m := t.look(name)
	t.want(name, "1")
	if m == nil || m.dead() {
		return 0, false
	}
	if t.Kind(name) == Integer {
		if n, err := strconv.Atoi(m.text); err == nil {
			return n, true
		}
	}
	t.wrong(m, codeNotInteger, "a whole number without quotes is wanted here", "write it like "+name+" = 1")
	return 0, false
}

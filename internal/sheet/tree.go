package sheet

import (
	"slices"
	"strings"
)

// Doc is one file, read: its tables, and every fault found in it so far. The zero Doc is an empty file without a name.
type Doc struct {
	name    string
	src     string
	lines   []int32 // see lineCounts
	root    *Table
	faults  []Fault
	more    int
	names   []string // see note
	refused bool
	lost    bool // a header could not be read, so any table may be absent without fault of the writer
	closed  bool // Finish has looked for unknown and missing keys
}

// Kind tells what stands under a name.
type Kind uint8

const (
	Absent  Kind = iota // nothing
	Broken              // something that was refused; its fault is recorded already
	String              // a quoted string of one line
	Text                // a string in triple quotes, of any number of lines
	List                // a list of quoted strings
	Integer             // the bare whole number of `format` or `schema`
	Group               // a table
)

// A member is one name in a table: a key with its value, or a table within.
type member struct {
	name    string
	off     int
	sub     *Table // nil for a key
	text    string
	items   []item
	valOff  int
	kind    Kind
	refused bool // of a key; a table knows for itself
	used    bool
	twin    bool
	told    bool // a reading fault was given: one is enough
}

type item struct {
	off  int
	text string
}

func (m *member) dead() bool {
	if m.sub != nil {
		return m.sub.dead
	}
	return m.refused
}

// Table is one table of a sheet. Its methods do well on the nil Table and on a table that is not there, which holds nothing:
// a chain such as root.Sub("plug").Sub("drain") needs no checks on the way.
type Table struct {
	doc      *Doc
	parent   *Table
	name     string
	off      int // of its header, or of the header that implied it
	explicit bool
	present  bool
	dead     bool // refused, with everything in it
	holed    bool // a line in it could not be read
	shouts   bool // some name in it has a capital letter
	order    []*member
	byName   map[string]*member // only while there are more than fewNames
	asked    []string           // names that were asked for and are not there
	missing  []absence
}

type absence struct {
	name    string
	example string // of the value of a key; empty for a table
}

func (d *Doc) newTable(parent *Table, name string, off int) *Table {
	return &Table{doc: d, parent: parent, name: name, off: off, present: true, dead: parent != nil && parent.dead}
}

// fewNames are found faster by looking at each than through a map.
const fewNames = 12

func (t *Table) put(m *member) {
	if t.order == nil {
		t.order = make([]*member, 0, 8)
	}
	t.order = append(t.order, m)
	if n := len(t.order); n == fewNames+1 {
		t.byName = make(map[string]*member, 2*n)
		for _, old := range t.order {
			t.byName[old.name] = old
		}
	} else if n > fewNames {
		t.byName[m.name] = m
	}
	t.shouts = t.shouts || m.name != strings.ToLower(m.name)
}

// member finds a name; nil if there is none.
func (t *Table) member(name string) *member {
	if t.byName != nil {
		return t.byName[name]
	}
	for _, m := range t.order {
		if m.name == name {
			return m
		}
	}
	return nil
}

// path joins the names from the root down, and then the further names given.
func (t *Table) path(more ...string) string {
	var names [MaxDepth + 2]string // room enough for most
	up := names[:0]
	for ; t != nil && t.parent != nil; t = t.parent {
		up = append(up, t.name)
	}
	slices.Reverse(up)
	return strings.Join(append(up, more...), ".")
}

// judgeNames refuses capital letters, and every spelling of a name that is written in two.
// It waits for the end of the file because the twin may come later.
func (d *Doc) judgeNames(t *Table) {
	if t.shouts {
		t.judgeTwins()
	}
	for _, m := range t.order {
		if m.sub != nil {
			d.judgeNames(m.sub)
		}
	}
}

func (t *Table) judgeTwins() {
	first := map[string]*member{}
	for _, m := range t.order {
		low := strings.ToLower(m.name)
		f, seen := first[low]
		switch {
		case !seen:
			first[low] = m
		case !f.twin:
			t.twin(f, m)
			t.twin(m, f)
		default:
			t.twin(m, f)
		}
	}
	t.holed = true // what is meant by them may seem to be missing
	for _, m := range t.order {
		if low := strings.ToLower(m.name); low != m.name && !m.twin {
			m.kill()
			t.doc.addAt(m.off, t.path(m.name), codeKeyCase, "capital letters in a key", "write it in lower case: "+low)
		}
	}
}

func (t *Table) twin(m, other *member) {
	m.twin = true
	m.kill()
	at := t.doc.pos(other.off)
	t.doc.addAt(m.off, t.path(m.name), codeKeyTwin,
		"the same name as "+other.name+" on line "+itoa(at.Line)+", column "+itoa(at.Col)+", but for capitals",
		"keep one of the two, in lower case")
}

// prune refuses tables that only refused headers imply: nothing in the rest of the file speaks of them.
// It reports whether anything that stays makes this one stand.
func (t *Table) prune() (stands bool) {
	stands = t.explicit
	for _, m := range t.order {
		if m.sub != nil && !m.sub.dead && m.sub.prune() {
			stands = true
		}
	}
	if !stands && t.parent != nil {
		t.kill()
	}
	return stands
}

func (m *member) kill() {
	if m.sub != nil {
		m.sub.kill()
		return
	}
	m.refused = true
}

func (t *Table) kill() {
	t.dead = true
	for _, m := range t.order {
		m.kill()
	}
}

func (d *Doc) addAt(off int, key, code, problem, do string) {
	if d.full() { // the place costs something, and nobody will see it
		d.refused = true
		d.more++
		return
	}
	at := d.pos(off)
	d.Add(Fault{Line: at.Line, Col: at.Col, Key: key, Code: code, Problem: problem, Do: do})
}

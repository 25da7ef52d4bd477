package sheet

import (
	"fmt"
	"strings"
)

type segment struct {
	name string
	off  int
}

// header reads [a.b] and makes its table the current one. A header that is refused gets a table apart from the tree, so that
// the lines under it are still looked at and none of them lands in the table before.
func (s *scanner) header() *Table {
	open := s.at
	s.at++
	s.under = nil
	if s.peek() == '[' {
		s.fail(open, codeArrayTable, "double brackets [[…]] are not used in a sheet", "write numbered tables: [step.10], [step.20]")
		s.at = s.lineEnd(s.at)
		return s.detach(open)
	}
	path := s.keyPath()
	if s.peek() == ']' {
		s.at++
	} else {
		problem := "a table header that is not closed"
		if !s.atLineEnd() {
			problem = "a table header with something other than names and dots in it"
		}
		s.fail(open, codeHeader, problem, "write it like [plug.drain], alone on its line")
		s.at = s.lineEnd(s.at)
	}
	s.path = path
	if len(path) > MaxDepth {
		s.fail(open, codeDeep, fmt.Sprintf("a table more than %d names deep", MaxDepth), "use fewer levels")
	}
	if s.failed {
		return s.detach(open)
	}
	return s.open(open, path)
}

// detach makes the current table one that belongs to no tree.
func (s *scanner) detach(open int) *Table {
	s.doc.lost = true
	var nowhere *Table
	key := s.key()
	if key != "" {
		nowhere = &Table{doc: s.doc, dead: true} // so that faults under the header can still name its path
	}
	s.cur = s.doc.newTable(nowhere, key, open)
	s.cur.dead = true
	return s.cur
}

func (s *scanner) open(off int, path []segment) *Table {
	t := s.doc.root
	for i, seg := range path {
		m := t.member(seg.name)
		if m == nil {
			if !s.count(off) {
				return s.detach(off)
			}
			m = s.newMember(member{name: seg.name, off: seg.off, sub: s.doc.newTable(t, seg.name, off)})
			t.put(m)
		} else if m.sub == nil {
			s.fail(off, codeKeyTable, t.path(seg.name)+" is a key with a value on line "+itoa(s.doc.pos(m.off).Line),
				"keep either the key or the table")
			return s.detach(off)
		} else if i == len(path)-1 {
			if m.sub.explicit {
				s.fail(off, codeTableTwice, "this table was opened before, on line "+itoa(s.doc.pos(m.sub.off).Line),
					"put all its lines under one header")
				return s.detach(off)
			}
			s.names++
			s.late(off, m)
		} else {
			s.names++ // a name costs the library something each time it is written
		}
		t = m.sub
	}
	t.explicit = true
	s.cur = t
	return t
}

// late refuses a table that comes after a table inside it. TOML allows it; on paper it hides where a value belongs.
// What it says is clear nevertheless, so its values stay.
func (s *scanner) late(off int, m *member) {
	if !s.said {
		s.said = true
		s.doc.addAt(off, s.key(), codeParentLate, "this table comes after one that lies inside it, on line "+itoa(s.doc.pos(m.sub.off).Line),
			"move it, with its lines, above that one")
	}
	m.sub.off, m.off = off, off
}

// assignment reads key = value.
func (s *scanner) assignment() *member {
	start := s.at
	path := s.keyPath()
	s.path = path
	if len(path) > 1 {
		s.fail(start, codeDotted, "a dotted key before an equals sign", "write a header [table] and the last name alone under it")
	}
	if s.peek() != '=' {
		s.noEquals(start)
		s.at = s.lineEnd(s.at)
	}
	if s.failed {
		s.cur.holed = true // which key was meant cannot be known
	}
	if s.peek() != '=' {
		return nil
	}
	s.at++
	s.skipSpace()
	var m *member
	if !s.failed {
		m = s.insert(path[0])
	}
	if m == nil {
		m = &member{refused: true} // still read the value: it may go on over several lines
	}
	m.valOff = s.at
	s.value(m, path)
	return m
}

func (s *scanner) noEquals(start int) {
	switch {
	case s.peek() == ':':
		s.fail(s.at, codeNoEquals, "a colon after the key", "write an equals sign: key = \"value\"")
	case s.at > start && s.at < s.lineEnd(start):
		s.fail(s.at, codeNoEquals, "no equals sign after the key", "write key = \"value\"; a key has no spaces, use _ between words")
	default:
		s.fail(start, codeNoEquals, "this line is neither a [table], a key = \"value\" nor a comment",
			"begin a comment with #; a long text goes between three quote marks")
	}
}

// insert puts a key into the current table; nil if it cannot stand there.
func (s *scanner) insert(seg segment) *member {
	if old := s.cur.member(seg.name); old != nil {
		line := itoa(s.doc.pos(old.off).Line)
		if old.sub != nil {
			s.fail(seg.off, codeKeyTable, "there is a table of this name, on line "+line, "keep either the key or the table")
		} else {
			s.fail(seg.off, codeKeyTwice, "this key was written before, on line "+line, "keep one of the two")
		}
		return nil
	}
	if !s.count(seg.off) {
		return nil
	}
	m := s.newMember(member{name: seg.name, off: seg.off, refused: s.cur.dead})
	s.cur.put(m)
	return m
}

// keyPath reads names with dots between them, and stops at what follows. Names past MaxDepth are read but not kept.
// There is one name at least; the next call overwrites them.
func (s *scanner) keyPath() []segment {
	path := s.room[:0]
	for {
		s.skipSpace()
		seg := s.segment()
		if len(path) <= MaxDepth {
			path = append(path, seg)
		}
		s.skipSpace()
		if s.peek() != '.' {
			s.room = path
			return path
		}
		s.at++
	}
}

// segment reads one name and judges its form. The caller finds s.failed set if it will not do.
func (s *scanner) segment() segment {
	off, raw := s.at, ""
	if c := s.peek(); c == '"' || c == '\'' {
		end := s.quotedKey(c)
		if end < 0 {
			s.fail(off, codeKeyForm, "a quoted key with a backslash, or not closed on its line", "write the key without quotes")
			s.at = s.lineEnd(s.at)
			return segment{off: off}
		}
		raw = s.text[off+1 : end]
		s.at = end + 1
	} else {
		for s.at < len(s.text) && (keyLetter(s.text[s.at]) || strings.IndexByte(" \t\r\n.=[]#\"',{}:", s.text[s.at]) < 0) {
			s.at++
		}
		raw = s.text[off:s.at]
	}
	s.judgeKey(off, raw)
	return segment{name: cut(raw, MaxKey), off: off}
}

// quotedKey gives the offset of the closing quote, or -1.
func (s *scanner) quotedKey(quote byte) int {
	for i := s.at + 1; i < len(s.text) && s.text[i] != '\n'; i++ {
		switch {
		case s.text[i] == quote:
			return i
		case s.text[i] == '\\':
			return -1 // no name in a sheet needs an escape
		}
	}
	return -1
}

func (s *scanner) judgeKey(off int, raw string) {
	if raw != "" && len(raw) <= MaxKey && keyLetters(raw) {
		return
	}
	if s.said { // what follows costs something, and there may be a hundred thousand names in one header
		s.failed = true
		return
	}
	switch {
	case raw == "":
		if s.atLineEnd() || s.peek() == '=' || s.peek() == ']' || s.peek() == '.' || s.text[off] == '"' || s.text[off] == '\'' {
			s.fail(off, codeKeyForm, "an empty key", "give it a name of a-z, 0-9, _ and -")
		}
		s.failed = true // anything else is no key at all, and the caller says so
	case len(raw) > MaxKey:
		s.fail(off, codeKeyLong, fmt.Sprintf("a key longer than %d characters: %s", MaxKey, Echo(raw)), "use a shorter one")
	case oddSpace(raw):
		s.fail(off, codeSpace, "a special space outside quotes: "+Echo(raw), doSpace)
	default:
		s.fail(off, codeKeyForm, "a key may not be written "+Echo(raw), "use only a-z, 0-9, _ and - in it")
	}
}

// Capitals pass here: judgeNames sees to them when it knows whether there is a twin.
func keyLetter(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_' || c == '-'
}

// keyLetters reports whether s holds nothing else.
func keyLetters(s string) bool { return afterKey(s) == "" }

// afterKey gives what follows the key that s begins with.
func afterKey(s string) string {
	i := 0
	for i < len(s) && keyLetter(s[i]) {
		i++
	}
	return s[i:]
}

func joinSegments(path []segment) string {
	names := make([]string, len(path))
	for i, seg := range path {
		names[i] = seg.name
		if !keyLetters(seg.name) {
			names[i] = Echo(seg.name)
		}
	}
	return strings.Join(names, ".")
}

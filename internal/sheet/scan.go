package sheet

import (
	"fmt"
	"strconv"
	"strings"
)

// A scanner finds the statements of a sheet: headers and assignments. It goes forward only, apart from giving back a line
// once, and keeps no stack, so that its cost grows with the size of the file and with nothing else.
type scanner struct {
	doc   *Doc
	text  string // the file with forbidden characters blanked out
	at    int
	cur   *Table    // the table that assignments go into
	names int       // tables and keys so far, and names written again in headers
	items int       // values in lists so far
	under *Table    // with path, what the faults of this statement name as their key
	path  []segment // of this statement; nil before it is read
	room  []segment // what path is kept in, statement after statement
	fresh bool      // skipBlank came to a new line

	failed  bool // this statement is refused
	said    bool // and its fault is recorded, or a better one stands on its line
	resumed bool // this statement gave up where the next one begins
	stopped bool

	done []statement
	slab []member // made ahead
	list []item   // room for the items of one list
}

// A statement is a stretch of the file, and whether the table or key it made is refused; nil if it made nothing.
type statement struct {
	start, end int32
	refused    *bool
}

func (s *scanner) newMember(m member) *member {
	if len(s.slab) == 0 {
		s.slab = make([]member, 16)
	}
	fresh := &s.slab[0]
	s.slab = s.slab[1:]
	*fresh = m
	return fresh
}

func itoa(n int) string { return strconv.Itoa(n) }

func (s *scanner) run() {
	for !s.stopped && s.skipBlank() {
		s.statement()
		s.stopped = s.stopped || s.doc.full()
	}
}

func (s *scanner) statement() {
	start := s.at
	var refused *bool
	s.failed, s.resumed, s.under, s.path = false, false, s.cur, nil
	// A forbidden character was reported already; what the blank in its place breaks is not worth a second fault.
	s.said = s.spoiled(s.at, s.lineEnd(s.at))
	var table *Table
	if s.peek() == '[' {
		table = s.header()
		refused = &table.dead
	} else if key := s.assignment(); key != nil {
		refused = &key.refused
	}
	if !s.resumed {
		s.endLine()
	}
	if s.failed || s.spoiled(start, s.at) {
		s.failed = true
		s.refuse(table, refused)
	}
	s.done = append(s.done, statement{int32(start), int32(s.at), refused}) // a file of MaxBytes fits
}

// refuse takes back what a failed statement made.
func (s *scanner) refuse(table *Table, key *bool) {
	switch {
	case table != nil:
		table.kill()
		s.doc.lost = true
	case key != nil:
		*key = true
	}
}

// fail refuses the statement, and records why unless that is said already.
func (s *scanner) fail(off int, code, problem, do string) {
	s.failed = true
	if !s.said {
		s.said = true
		s.doc.addAt(off, s.key(), code, problem, do)
	}
}

// key gives the dotted path for a fault of this statement. Hardly any statement has one: it is joined when it is asked for.
func (s *scanner) key() string {
	if s.path == nil {
		return s.under.path()
	}
	return s.under.path(joinSegments(s.path))
}

// spoiled reports whether a forbidden character stood there: the blank in its place gives it away.
func (s *scanner) spoiled(start, end int) bool { return s.text[start:end] != s.doc.src[start:end] }

func (s *scanner) peek() byte { return s.ahead(0) }

// ahead gives the byte n further on, 0 past the end: a NUL in the file itself is blanked out before.
func (s *scanner) ahead(n int) byte {
	if s.at+n < len(s.text) {
		return s.text[s.at+n]
	}
	return 0
}

func (s *scanner) skipSpace() {
	for s.peek() == ' ' || s.peek() == '\t' {
		s.at++
	}
}

// skipBlank moves to the next thing that is neither space nor comment; false at the end of the file.
func (s *scanner) skipBlank() bool {
	s.fresh = false
	for s.at < len(s.text) {
		switch s.text[s.at] {
		case '\n':
			s.fresh = true
			s.at++
		case ' ', '\t', '\r':
			s.at++
		case '#':
			s.at = s.lineEnd(s.at)
		default:
			return true
		}
	}
	return false
}

// lineEnd gives the offset of the line's end, before CR LF or LF.
func (s *scanner) lineEnd(from int) int {
	n := strings.IndexByte(s.text[from:], '\n')
	if n < 0 {
		return len(s.text)
	}
	end := from + n
	if end > from && s.text[end-1] == '\r' {
		end--
	}
	return end
}

func (s *scanner) atLineEnd() bool {
	c := s.peek()
	return s.at >= len(s.text) || c == '\n' || c == '\r' || c == '#'
}

// endLine wants nothing but space and a comment before the end of the line, and goes there in any case.
func (s *scanner) endLine() {
	s.skipSpace()
	if !s.atLineEnd() {
		s.afterFault()
	}
	if s.peek() != '#' {
		s.at = s.lineEnd(s.at)
	}
}

func (s *scanner) afterFault() {
	rest := strings.TrimRight(s.text[s.at:min(s.lineEnd(s.at), s.at+2*echoBytes)], " \t")
	if oddSpace(rest) {
		s.fail(s.at, codeSpace, "a special space outside quotes: "+Echo(rest), doSpace)
		return
	}
	do := "give it a line of its own, or begin a comment with #"
	if strings.HasSuffix(rest, `"`) && !strings.Contains(rest, "=") { // "3/8" square"
		do = `write \" for a quote mark inside quotes`
	}
	s.fail(s.at, codeAfter, "more stands on this line than one entry: "+Echo(rest), do)
}

// count takes one more name into account; false once the file has too many.
func (s *scanner) count(off int) bool {
	s.names++
	if s.names <= MaxNames {
		return true
	}
	if !s.stopped {
		s.stopped, s.said = true, false
		s.fail(off, codeTooMany, fmt.Sprintf("more than %d tables and keys in one file", MaxNames), "split it into several files")
	}
	s.failed, s.doc.lost, s.cur.holed = true, true, true
	return false
}

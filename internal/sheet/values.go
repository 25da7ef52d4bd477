package sheet

import (
	"fmt"
	"slices"
	"strings"
)

// value reads what stands after the equals sign into m. What it says is left to the TOML library; here only its kind, its
// place and its form are settled.
func (s *scanner) value(m *member, path []segment) {
	if s.atLineEnd() {
		s.fail(s.at, codeNoValue, "no value after the equals sign", "write the value in quotes, or remove the line")
		return
	}
	switch s.peek() {
	case '"', '\'':
		m.kind = s.str()
	case '[':
		m.kind = List
		s.listOf(m)
	case '{':
		s.fail(s.at, codeInline, "a table in braces", "write a header [table] and its keys on lines of their own")
		s.skipBalanced()
	default:
		root := s.cur == s.doc.root && len(path) == 1 && (path[0].name == "format" || path[0].name == "schema")
		word := s.word("#")
		switch {
		case root && wholeNumber(word):
			m.kind = Integer
		case root:
			s.fail(m.valOff, codeNotInteger, Echo(word)+" is not a whole number", "write it like "+path[0].name+" = 1")
		default:
			s.refuseBare(m.valOff, word)
		}
	}
}

// wholeNumber accepts 0 to 999999999 without sign, leading zero or underscore.
func wholeNumber(word string) bool {
	for i := range len(word) {
		if word[i] < '0' || word[i] > '9' || i == 9 {
			return false
		}
	}
	return word != "" && (word == "0" || word[0] != '0')
}

// word takes an unquoted value up to the end of the line or one of the given characters.
func (s *scanner) word(ends string) string {
	start, end := s.at, len(s.text)
	if n := strings.IndexAny(s.text[start:], ends+"\n"); n >= 0 {
		end = start + n
	}
	word := strings.TrimRight(s.text[start:end], " \t\r")
	s.at = start + len(word)
	return word
}

// skipBalanced goes past the bracket that closes the one here, if it does so within reach, else to the end of the line.
// It counts brackets instead of descending into them.
func (s *scanner) skipBalanced() {
	const reach = 4096
	end := min(len(s.text), s.at+reach)
	depth := 0
	for i := s.at; i < end; i++ {
		switch s.text[i] {
		case '[', '{':
			depth++
		case ']', '}':
			if depth--; depth == 0 {
				s.at = i + 1
				return
			}
		case '#':
			i = s.lineEnd(i)
		case '"', '\'':
			i = s.skipString(i, end)
		}
	}
	s.at = s.lineEnd(s.at)
}

// skipString gives the offset of the last quote of the string that begins at i, or of the end of its line.
func (s *scanner) skipString(i, end int) int {
	quote := s.text[i]
	if triple := strings.Repeat(string(quote), 3); strings.HasPrefix(s.text[i:end], triple) {
		if n := strings.Index(s.text[i+3:end], triple); n >= 0 {
			return i + 3 + n + 2
		}
		return end
	}
	j := i + 1
	for ; j < end && s.text[j] != '\n' && s.text[j] != quote; j++ {
		if s.text[j] == '\\' && quote == '"' && j+1 < end && s.text[j+1] != '\n' {
			j++
		}
	}
	return j
}

// listOf reads [ "…", "…" ], over several lines if need be.
func (s *scanner) listOf(m *member) {
	s.list = s.list[:0]
	s.readItems()
	if !s.failed {
		m.items = slices.Clone(s.list)
	}
}

func (s *scanner) readItems() {
	open := s.at
	s.at++
	comma := true // an item may stand here
	for s.skipBlank() {
		switch c := s.peek(); {
		case c == ']':
			s.at++
			return
		case c == ',' && !comma:
			s.at++
			comma = true
			continue
		case !comma || c == ',' || s.fresh && s.newEntry():
			s.breakOff(open)
			return
		}
		comma = false
		if !s.listItem(open) {
			return
		}
	}
	s.fail(open, codeListOpen, "a list that is never closed", `close it: ["hot fluid", "raised vehicle"]`)
}

// listItem reads one item; false if the list cannot be read on from here.
func (s *scanner) listItem(open int) bool {
	off := s.at
	switch s.peek() {
	case '"', '\'':
		kind := s.str()
		if kind == Text {
			s.fail(off, codeListNested, "a text in triple quotes inside a list", "use plain quotes in a list")
		}
		if kind == Broken {
			s.at = s.lineEnd(s.at)
			s.resumed = true
			return false
		}
		switch s.items++; {
		case len(s.list) == MaxList:
			s.excess(off, MaxList, "one list", "split the list")
		case s.items > MaxItems:
			s.excess(off, MaxItems, "the lists of one file", "split it into several files")
		default:
			s.list = append(s.list, item{off: off})
		}
	case '[', '{':
		s.fail(off, codeListNested, "brackets or braces inside a list", `a list holds only quoted words: ["hot fluid", "raised vehicle"]`)
		s.skipBalanced()
	default:
		s.refuseBare(off, s.word(",]#"))
	}
	return true
}

// excess refuses a list with too many values. One fault will do, and there may be a hundred thousand of them.
func (s *scanner) excess(off, most int, where, do string) {
	s.failed = true
	if !s.said {
		s.fail(off, codeListLong, fmt.Sprintf("more than %d values in %s", most, where), do)
	}
}

// newEntry reports whether the list has run into the next key or header: its closing bracket was forgotten.
func (s *scanner) newEntry() bool {
	line := strings.TrimRight(s.text[s.at:s.lineEnd(s.at)], " \t")
	if inner, ok := strings.CutPrefix(line, "["); ok && len(inner) > 1 {
		for inner != "" && (keyLetter(inner[0]) || inner[0] == '.') {
			inner = inner[1:]
		}
		return inner == "]"
	}
	word := afterKey(line)
	return len(word) < len(line) && strings.HasPrefix(strings.TrimLeft(word, " \t"), "=")
}

// breakOff gives up on a list. If what stopped it begins a line, that line may well be the next entry: it is read again.
func (s *scanner) breakOff(open int) {
	if s.fresh {
		s.fail(open, codeListOpen, "a list that is not closed before line "+itoa(s.doc.pos(s.at).Line), "close it with ]")
	} else {
		s.fail(s.at, codeListComma, "not a list of quoted words with a comma between two", `write it like ["hot fluid", "raised vehicle"]`)
		s.at = s.lineEnd(s.at)
	}
	s.resumed = true
}

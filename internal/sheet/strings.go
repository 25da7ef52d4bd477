package sheet

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// str reads a quoted string of any of the four sorts. It gives Broken when its end was not found.
func (s *scanner) str() Kind {
	quote := s.peek()
	if s.ahead(1) == quote && s.ahead(2) == quote {
		return s.longString(quote)
	}
	open := s.at
	s.at++
	blank := true
	for {
		c := s.peek()
		switch {
		case s.at >= len(s.text) || c == '\n' || c == '\r':
			s.fail(open, codeOpenString, "a quote that is not closed on its line: "+Echo(s.text[open:s.at]),
				"close it; a text of several lines goes between three quote marks")
			return Broken
		case c == quote:
			s.at++
			s.judgeString(open, blank)
			return String
		case c == '\\' && quote == '"':
			blank = false
			s.escape(false)
		default:
			blank = blank && (c == ' ' || c == '\t')
			s.at++
		}
	}
}

// longString reads a string between triple quotes.
func (s *scanner) longString(quote byte) Kind {
	open := s.at
	s.at += 3
	blank := true
	for s.at < len(s.text) {
		c := s.peek()
		switch {
		case c == quote:
			n := 1
			for n < 5 && s.ahead(n) == quote { // two quote marks may stand before the closing three
				n++
			}
			s.at += n
			if n >= 3 {
				s.judgeString(open, blank && n == 3)
				return Text
			}
			blank = false
		case c == '\\' && quote == '"':
			blank = blank && s.continuation() > 0
			s.escape(true)
		default:
			blank = blank && strings.IndexByte(" \t\r\n", c) >= 0
			s.at++
		}
	}
	s.fail(open, codeOpenText, "a text in triple quotes that is never closed, so that the rest of the file was not read",
		"close it with three quote marks")
	s.stopped, s.doc.lost, s.cur.holed = true, true, true
	return Broken
}

func (s *scanner) judgeString(open int, blank bool) {
	switch {
	case blank:
		s.fail(open, codeEmpty, "nothing between the quotes", "write the value, or remove the line")
	case s.at-open > MaxText:
		s.fail(open, codeLong, fmt.Sprintf("a value longer than %d bytes", MaxText), "shorten it, or split it over several keys")
	}
}

// continuation gives the length of a backslash with the line end and the blanks it swallows, 0 if it is none.
func (s *scanner) continuation() int {
	i := s.at + 1
	for i < len(s.text) && (s.text[i] == ' ' || s.text[i] == '\t') {
		i++
	}
	if i < len(s.text) && s.text[i] == '\r' {
		i++
	}
	if i >= len(s.text) || s.text[i] != '\n' {
		return 0
	}
	return i + 1 - s.at
}

// escape reads a backslash and what belongs to it. Those of TOML 1.1 (\e, \xHH) are refused.
// A character that may not stand in a sheet may not be smuggled in as an escape either.
func (s *scanner) escape(long bool) {
	off := s.at
	c := s.ahead(1)
	switch c {
	case 't', '"', '\\':
		s.at += 2
	case 'n':
		s.at += 2
		if !long {
			s.fail(off, codeNewline, `a line break (\n) in a value of one line`, "put a text of several lines between three quote marks")
		}
	case 'b', 'f', 'r':
		s.at += 2
		if s.failed = true; !s.said {
			s.fail(off, codeControl, `a control character (\`+string(rune(c))+")", "delete it")
		}
	case 'u':
		s.hexEscape(off, 4)
	case 'U':
		s.hexEscape(off, 8)
	default:
		if n := s.continuation(); long && n > 0 {
			s.at += n
			return
		}
		s.at++ // not past a quote mark or line end: those still count
		s.fail(off, codeEscape, "a backslash with a meaning of its own", `write \\ for a backslash, or use 'single quotes' around the value`)
	}
}

func (s *scanner) hexEscape(off, digits int) {
	end := off + 2
	for end < len(s.text) && end < off+2+digits && strings.IndexByte("0123456789abcdefABCDEF", s.text[end]) >= 0 {
		end++
	}
	s.at = end
	raw := s.text[off:end]
	n, err := strconv.ParseUint(raw[2:], 16, 32)
	bad := err != nil || len(raw) != 2+digits || n > utf8.MaxRune || !utf8.ValidRune(rune(n))
	if s.said { // a text may hold thousands, and one fault will do
		s.failed = s.failed || bad || judge(raw, rune(n)) != "" || n == '\n' || n == '\t'
		return
	}
	if bad {
		s.fail(off, codeEscape, "not a character: "+Echo(raw), `write the character itself`)
		return
	}
	r := rune(n)
	if code := judge(raw, r); code != "" {
		problem, do := explain(code, raw, r)
		s.fail(off, code, problem+" written as an escape", do)
	} else if r == '\n' || r == '\t' {
		s.fail(off, codeControl, "a tab or line break written by its number", "write the character itself")
	}
}

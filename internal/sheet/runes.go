package sheet

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// A refusal says why a character may not stand in a sheet.
type refusal uint8

const (
	allowed refusal = iota
	control         // moves a cursor, ends a text, rings a bell
	hidden          // shows nothing, or changes the direction of what follows
	lost            // stands for a character that did not survive saving or copying
)

// forbidden judges one character. Tab and newline are allowed here; where they may stand is the scanner's business.
// The ranges are written out rather than taken from package unicode, whose tables grow with the toolchain: the same file
// is accepted or refused by every build. Source: Unicode Character Database, general categories Cc, Cf, Zl, Zp, Co and the
// default-ignorable code points.
func forbidden(r rune) refusal {
	switch {
	case r == '\t' || r == '\n':
		return allowed
	case r < 0x20, r >= 0x7f && r <= 0x9f:
		return control
	case r < 0xad:
		return allowed
	case r == 0xfffd, r >= 0xe000 && r <= 0xf8ff, r >= 0xf0000, // replacement and private use: a font's own glyphs
		r >= 0xfdd0 && r <= 0xfdef, r&0xfffe == 0xfffe: // noncharacters
		return lost
	case r == 0xad, r == 0x034f, r == 0x061c, r == 0x180e,
		r >= 0x0600 && r <= 0x0605, r == 0x06dd, r == 0x070f, r == 0x08e2, r >= 0x0890 && r <= 0x0891,
		r >= 0x180b && r <= 0x180f,
		r >= 0x200b && r <= 0x200f, // zero width, left-to-right and right-to-left marks
		r >= 0x2028 && r <= 0x202e, // line and paragraph separators, embeddings and overrides
		r >= 0x2060 && r <= 0x206f, // joiners, invisible operators, isolates
		r >= 0xfe00 && r <= 0xfe0f, r == 0xfeff, r >= 0xfff0 && r <= 0xfffb,
		r == 0x115f, r == 0x1160, r == 0x17b4, r == 0x17b5, r == 0x3164, r == 0xffa0, // blank letters
		r == 0x110bd, r == 0x110cd, r >= 0x13430 && r <= 0x1343f, r >= 0x1bca0 && r <= 0x1bca3,
		r >= 0x1d173 && r <= 0x1d17a, r >= 0xe0000 && r <= 0xe0fff: // tags
		return hidden
	}
	return allowed
}

// screen finds every forbidden character and gives the text, as long as the file, with a space for each of
// their bytes, so that the rest can still be read and offsets stay true. One fault of a kind is enough for a line.
func (d *Doc) screen() string {
	if plainText(d.src) {
		return d.src
	}
	clean := []byte(d.src)
	i := 0
	if strings.HasPrefix(d.src, byteOrderMark) {
		i = len(byteOrderMark)
		copy(clean, "   ")
		d.Add(Fault{Line: 1, Col: 1, Code: codeMark, Problem: "the file begins with a byte-order mark",
			Do: "save it as UTF-8 without a byte-order mark (signature)"})
	}
	said := map[string]bool{}
	for i < len(d.src) {
		c := d.src[i]
		if c == '\n' {
			clear(said)
		}
		if c >= 0x20 && c < 0x7f || c == '\t' || c == '\n' || c == '\r' && strings.HasPrefix(d.src[i+1:], "\n") {
			i++
			continue
		}
		r, width := utf8.DecodeRuneInString(d.src[i:])
		if code := judge(d.src[i:i+width], r); code != "" {
			if !said[code] {
				said[code] = true
				d.addRune(i, code, d.src[i:i+width], r)
			}
			for n := range width {
				clean[i+n] = ' '
			}
		}
		i += width
	}
	return string(clean)
}

// plainText reports whether nothing in a file can be forbidden; most files need no closer look.
func plainText(src string) bool {
	for i := 0; i < len(src); {
		c := src[i]
		if c >= 0x20 && c < 0x7f || c == '\t' || c == '\n' {
			i++
			continue
		}
		r, width := utf8.DecodeRuneInString(src[i:])
		if judge(src[i:i+width], r) != "" && !(c == '\r' && strings.HasPrefix(src[i+1:], "\n")) {
			return false
		}
		i += width
	}
	return true
}

// judge gives the code of the fault of a character, as it is written in the file; empty if it may stand.
func judge(raw string, r rune) string {
	if r == utf8.RuneError && len(raw) == 1 {
		return codeUTF8
	}
	switch forbidden(r) {
	case control:
		return codeControl
	case hidden:
		return codeHidden
	case lost:
		return codeLost
	}
	return ""
}

func (d *Doc) addRune(off int, code, raw string, r rune) {
	var problem, do string
	if !d.full() {
		problem, do = explain(code, raw, r)
	}
	d.addAt(off, "", code, problem, do)
}

func explain(code, raw string, r rune) (problem, do string) {
	name := fmt.Sprintf(" (U+%04X)", r)
	switch {
	case code == codeUTF8:
		return "a byte that is not UTF-8: " + Echo(raw), "save the file as UTF-8 and write this character again"
	case code == codeControl && raw == "\r":
		return "a carriage return alone does not end a line", "save the file with ordinary line endings"
	case code == codeControl:
		return "a control character" + name, "delete it; retype what stands around it if need be"
	case code == codeHidden:
		return "an invisible character" + name, "delete it; it often comes along when copying from a web page"
	}
	return "a character that did not survive copying or saving" + name, "look at the original and type it again"
}

// foreign reports a file that is not UTF-8 text at all, for which one fault says more than thousands.
func foreign(src string) bool {
	head := src[:min(len(src), 4)]
	return strings.HasPrefix(src, "\xff\xfe") || strings.HasPrefix(src, "\xfe\xff") || strings.Contains(head, "\x00")
}

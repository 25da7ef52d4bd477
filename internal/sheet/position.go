package sheet

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// Pos is a place in a file. Line and Col count from 1, Col in characters (runes), Offset in bytes from 0.
// The zero Pos means "no place known". A byte-order mark takes up bytes but no column.
type Pos struct {
	Offset, Line, Col int
}

// Known reports whether p is a place at all.
func (p Pos) Known() bool { return p.Line > 0 }

const byteOrderMark = "\ufeff"

// lineStarts gives the offset of the first character of every line.
// The library's own columns are not used: they are wrong for headers and shift by the byte-order mark.
func lineStarts(src string) []int {
	starts := make([]int, 1, 1+strings.Count(src, "\n"))
	if strings.HasPrefix(src, byteOrderMark) {
		starts[0] = len(byteOrderMark)
	}
	for i := 0; i < len(src); i++ {
		if src[i] == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// pos turns a byte offset into a place; an offset outside the file is moved to its nearest end.
func (d *Doc) pos(offset int) Pos {
	offset = min(max(offset, 0), len(d.src))
	if len(d.lines) == 0 {
		return Pos{}
	}
	line := sort.SearchInts(d.lines, offset+1) // first line starting beyond offset
	if line == 0 {                             // inside the byte-order mark
		return Pos{Offset: offset, Line: 1, Col: 1}
	}
	start := d.lines[line-1]
	return Pos{Offset: offset, Line: line, Col: 1 + utf8.RuneCountInString(d.src[start:offset])}
}

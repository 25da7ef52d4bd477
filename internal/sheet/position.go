package sheet

import (
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

// stride is how far apart the places are at which the lines before are known.
const stride = 1024

// lineCounts gives the number of lines that end before each stride. A place is hardly ever asked for, and a file may be
// nothing but line ends: an index of every line would cost more than the file.
func lineCounts(src string) []int32 {
	counts := make([]int32, 0, len(src)/stride+1)
	n := 0
	for i := 0; i <= len(src); i += stride {
		counts = append(counts, int32(n)) // at most MaxBytes
		n += strings.Count(src[i:min(i+stride, len(src))], "\n")
	}
	return counts
}

// pos turns a byte offset into a place; an offset outside the file is moved to its nearest end.
// The library's own columns are not used: they are wrong for headers and shift by the byte-order mark.
func (d *Doc) pos(offset int) Pos {
	if len(d.lines) == 0 {
		return Pos{}
	}
	offset = min(max(offset, 0), len(d.src))
	near := offset / stride
	line := 1 + int(d.lines[near]) + strings.Count(d.src[near*stride:offset], "\n")
	start := 1 + strings.LastIndexByte(d.src[:offset], '\n')
	if start == 0 && strings.HasPrefix(d.src, byteOrderMark) {
		start = min(len(byteOrderMark), offset)
	}
	return Pos{Offset: offset, Line: line, Col: 1 + utf8.RuneCountInString(d.src[start:offset])}
}

package sheet

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// slowPos walks to the offset character by character.
func slowPos(src string, offset int) Pos {
	p := Pos{Offset: offset, Line: 1, Col: 1}
	for i := 0; i < offset; {
		_, width := utf8.DecodeRuneInString(src[i:])
		switch {
		case i == 0 && width == 3 && src[:3] == byteOrderMark:
		case src[i] == '\n':
			p.Line, p.Col = p.Line+1, 1
		default:
			p.Col++
		}
		i += width
	}
	return p
}

func TestPosAgainstWalking(t *testing.T) {
	long := strings.Repeat("äöü\n\r\n x", 300) // some strides
	for _, src := range []string{long, byteOrderMark + long, strings.Repeat("\n", 2*stride), strings.Repeat("x", 2*stride), "", "\n", "a\n\nb", "ä·°\r\n€x\n", byteOrderMark + "a\nb", byteOrderMark, "\xff\xfe\xfd\na", "a\n" + byteOrderMark} {
		d := &Doc{src: src, lines: lineCounts(src)}
		for offset := 0; offset <= len(src); offset++ {
			if offset < len(src) && !utf8.RuneStart(src[offset]) { // inside a character
				continue
			}
			if got, want := d.pos(offset), slowPos(src, offset); got != want {
				t.Errorf("%q at %d: %+v, want %+v", src, offset, got, want)
			}
		}
		for _, outside := range []int{-1, len(src) + 1, 1 << 30} {
			if p := d.pos(outside); !p.Known() || p.Offset < 0 || p.Offset > len(src) {
				t.Errorf("%q at %d: %+v", src, outside, p)
			}
		}
	}
	if p := new(Doc).pos(3); p.Known() {
		t.Errorf("a file without text has no places: %+v", p)
	}
}

func TestPosInsideAByteOrderMark(t *testing.T) {
	d := &Doc{src: byteOrderMark + "a", lines: lineCounts(byteOrderMark + "a")}
	if got, want := d.pos(1), (Pos{Offset: 1, Line: 1, Col: 1}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
}

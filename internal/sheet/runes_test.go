package sheet

import (
	"testing"
	"unicode"
)

// TestForbiddenAgainstUnicode holds our written-out ranges against the Unicode tables of the standard library: whatever the
// Unicode Character Database calls a control, format, line or paragraph separator, private use or default-ignorable
// character is refused, and every letter, mark, number, symbol, punctuation mark and space it knows may stand, but for the
// few letters and marks that show nothing. Source: Unicode Character Database as of the toolchain.
func TestForbiddenAgainstUnicode(t *testing.T) {
	refused := []*unicode.RangeTable{unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co, unicode.Noncharacter_Code_Point,
		unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector}
	for r := rune(0); r <= unicode.MaxRune; r++ {
		if r >= 0xd800 && r <= 0xdfff { // never decoded from UTF-8
			continue
		}
		want := unicode.In(r, refused...) && r != '\t' && r != '\n' || r == unicode.ReplacementChar
		// The two interlinear tags beside Cf, and unassigned places kept for more of the kind.
		if r >= 0xfff0 && r <= 0xfffb || r == 0x2065 {
			want = true
		}
		if got := forbidden(r) != allowed; got != want {
			t.Errorf("U+%04X: refused %v, want %v", r, got, want)
		}
	}
}

func TestForbiddenSaysWhy(t *testing.T) {
	for r, want := range map[rune]refusal{
		0: control, 0x1b: control, '\r': control, 0x7f: control, 0x85: control, 0x9b: control,
		0xad: hidden, 0x200b: hidden, 0x200d: hidden, 0x202e: hidden, 0x2066: hidden, 0xfeff: hidden, 0xe0041: hidden,
		0xfffd: lost, 0xe000: lost, 0xffff: lost, 0x10ffff: lost,
		'\t': allowed, '\n': allowed, ' ': allowed, 0xa0: allowed, '·': allowed, '°': allowed, '−': allowed, '½': allowed, '³': allowed,
	} {
		if got := forbidden(r); got != want {
			t.Errorf("U+%04X: %d, want %d", r, got, want)
		}
	}
}

package sheet

import (
	"strings"
	"testing"
)

func TestJudgeBare(t *testing.T) {
	for word, want := range map[string]string{
		"1": codeInteger, "-0": codeInteger, "0x1F": codeInteger, "0b1": codeInteger, "9223372036854775807": codeInteger,
		"9223372036854775808": codeFloat, strings.Repeat("9", MaxKey): codeFloat, strings.Repeat("9", MaxKey+1): codeUnquoted,
		"1.": codeFloat, "1e400": codeFloat, "1_0.5": codeFloat, "inf": codeFloat, "+nan": codeFloat, "0.0": codeFloat,
		"0." + strings.Repeat("0", MaxKey-2): codeFloat, "0." + strings.Repeat("0", MaxKey-1): codeUnquoted,
		"TRUE": codeBool, "no": codeBool, "nope": codeUnquoted,
		"2024-03-01": codeDate, "0000-00-00": codeDate, "9999-99-99T": codeDate, "2024-03-0": codeUnquoted, "2024-03-0:": codeUnquoted,
		"2024-03-0/": codeUnquoted, "2024/03/01": codeUnquoted, "09:00": codeDate, "99:99:99": codeDate, "9:00": codeUnquoted, "09:0": codeUnquoted,
		"0/:00": codeUnquoted, "0::00": codeUnquoted,
		"“x”": codeQuotes, "`x`": codeQuotes, "´x´": codeQuotes, "″": codeQuotes, "x“": codeUnquoted,
		"\u00a0\"x\"": codeSpace, "24\u00a0N·m": codeUnquoted, "24 N·m": codeUnquoted, "97-115": codeUnquoted, "9.6..10.4": codeUnquoted,
	} {
		code, problem, do := judgeBare(word)
		if code != want || problem == "" || do == "" {
			t.Errorf("%q: %s (%s), want %s", word, code, problem, want)
		}
	}
}

// TestOddSpaces: the spaces of Unicode category Zs beyond ASCII, and their neighbours.
func TestOddSpaces(t *testing.T) {
	for r, want := range map[rune]bool{
		' ': false, 0x9f: false, 0xa0: true, 0xa1: false, 0x167f: false, 0x1680: true, 0x1681: false, 0x1fff: false, 0x2000: true, 0x2005: true,
		0x200a: true, 0x200b: false, 0x202e: false, 0x202f: true, 0x2030: false, 0x205e: false, 0x205f: true, 0x2060: false, 0x2fff: false, 0x3000: true, 0x3001: false,
	} {
		if got := isOddSpace(r); got != want {
			t.Errorf("U+%04X: %v, want %v", r, got, want)
		}
	}
}

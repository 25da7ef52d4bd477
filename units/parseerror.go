package units

import (
	"strconv"
	"unicode/utf8"
)

// ParseError says why a text is not a quantity. Callers that want their own
// message read the fields; Error puts them together:
//
//	"26 ft": "ft" is a length, not a torque; want a number with N·m, lbf·ft, lbf·in, kgf·cm or kgf·m
type ParseError struct {
	Input    string // what was given, cut to 40 bytes
	Token    string // the part that is wrong, cut to 40 bytes; empty where something is missing
	Reason   string // why it is wrong
	Accepted string // what would be right

	cause error // ErrOutOfRange, or nil
}

// Error returns input, reason and what is accepted, in one line.
func (e *ParseError) Error() string {
	return strconv.Quote(e.Input) + ": " + e.Reason + "; want " + e.Accepted
}

// Unwrap returns ErrOutOfRange where the number was too large to hold or a
// temperature lies below absolute zero, else nil.
func (e *ParseError) Unwrap() error { return e.cause }

// mistake is a ParseError in the making: the scanners know token and reason,
// their caller the input and what is accepted. The zero value is no mistake.
type mistake struct {
	token, reason string
	cause         error
}

func (m mistake) some() bool { return m.reason != "" }

func (m mistake) in(input, accepted string) error {
	// A stranger in the text is what the writer cannot see; it comes first.
	if len(input) <= mostBytes {
		if s := strange(input); s.some() {
			m = s
		}
	}
	return &ParseError{
		Input: clip(input), Token: clip(m.token), Reason: m.reason, Accepted: accepted, cause: m.cause,
	}
}

// mostEcho is how many bytes of a bad input an error repeats.
const mostEcho = 40

// clip cuts a text to mostEcho bytes, between characters.
func clip(s string) string {
	if len(s) <= mostEcho {
		return s
	}
	n := mostEcho - len("…")
	for n > 0 && !utf8.RuneStart(s[n]) {
		n--
	}
	return s[:n] + "…"
}

// quoted is a token as a reason repeats it.
func quoted(s string) string { return strconv.Quote(clip(s)) }

// strange looks for characters that no quantity holds and that hide well.
func strange(s string) mistake {
	for i, c := range s {
		name := strangeName(c)
		if c == utf8.RuneError {
			name = "a byte that is not UTF-8"
		}
		if name != "" {
			_, n := utf8.DecodeRuneInString(s[i:])
			return mistake{token: s[i : i+n], reason: "holds " + name}
		}
	}
	return mistake{}
}

func strangeName(c rune) string {
	switch {
	case c < ' ' || c == 0x7F:
		return "a control character such as a tab or a new line"
	case c >= 0xFF10 && c <= 0xFF19:
		return "a full-width digit"
	case c == 0x061C, c == 0x200E, c == 0x200F, c >= 0x202A && c <= 0x202E, c >= 0x2066 && c <= 0x2069:
		return "a writing-direction mark"
	case c == 0x00AD, c >= 0x200B && c <= 0x200D, c == 0x2060, c == 0xFEFF:
		return "a zero-width character"
	case c == 0x00BA, c == 0x02DA:
		return "a look-alike of the degree sign °"
	}
	return ""
}

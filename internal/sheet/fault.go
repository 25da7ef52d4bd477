package sheet

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// Severity tells what cannot be from what is unusual.
type Severity uint8

const (
	Error   Severity = iota // cannot be used: the zero value, so that a forgotten severity is the strict one
	Warning                 // can be used, but somebody should look
)

// String names the severity in one word.
func (s Severity) String() string {
	if s == Warning {
		return "warning"
	}
	return "error"
}

// Fault is one thing wrong with a file, with one thing to do about it.
type Fault struct {
	File      string // display name of the file
	Line, Col int    // 1-based, columns in characters
	Key       string // dotted path of the key or table, empty if there is none
	Code      string // stable short name such as "sheet-float"; never translated, never reused
	Problem   string // what is wrong, in shop words
	Do        string // the one thing to do
	Severity  Severity
}

// Error gives two lines: place, key and problem; then, indented, what to do.
func (f Fault) Error() string {
	var b strings.Builder
	b.WriteString(f.File)
	if f.Line > 0 {
		b.WriteString(":" + strconv.Itoa(f.Line) + ":" + strconv.Itoa(f.Col))
	}
	b.WriteString(": ")
	if f.Severity == Warning {
		b.WriteString("warning: ")
	}
	if f.Key != "" {
		b.WriteString(f.Key + ": ")
	}
	b.WriteString(f.Problem)
	if f.Do != "" {
		b.WriteString("\n    " + f.Do)
	}
	return b.String()
}

const (
	echoBytes = 40  // of offending text shown in a message
	lineBytes = 400 // of any one part of a message
)

// Echo quotes at most 40 bytes of text for a message. Control and invisible characters come out as escapes, so that a
// file cannot write to the reader's terminal; what was cut is shown as an ellipsis.
func Echo(text string) string {
	head, more := cut(text, echoBytes), ""
	if len(head) < len(text) {
		more = "…"
	}
	hides := func(r rune) bool { return r == '`' || !strconv.IsPrint(r) }
	if strings.ContainsAny(head, `"\`) && strings.IndexFunc(head, hides) < 0 && utf8.ValidString(head) {
		return "`" + head + "`" + more // easier to read than escapes, where it can hide nothing
	}
	return strconv.Quote(head) + more
}

// cut shortens s to at most n bytes without splitting a character.
func cut(s string, n int) string {
	if len(s) <= n {
		return s
	}
	for n > 0 && !utf8.RuneStart(s[n]) {
		n--
	}
	return s[:n]
}

// printable makes part of a message safe to print: one line, bounded, no character that is forbidden in a sheet.
func printable(s string) string {
	if cut := cut(s, lineBytes); len(cut) < len(s) {
		s = cut + "…"
	}
	hide := func(r rune) bool { return r == utf8.RuneError || r == '\t' || r == '\n' || forbidden(r) != allowed }
	if strings.IndexFunc(s, hide) < 0 {
		return s
	}
	var b strings.Builder
	for i, r := range s {
		if !hide(r) {
			b.WriteRune(r)
			continue
		}
		_, width := utf8.DecodeRuneInString(s[i:])
		quoted := strconv.QuoteToASCII(s[i : i+width])
		b.WriteString(quoted[1 : len(quoted)-1])
	}
	return b.String()
}

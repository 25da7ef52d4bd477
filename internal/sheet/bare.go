package sheet

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// refuseBare says what an unquoted value looks like and how to write it.
func (s *scanner) refuseBare(off int, word string) {
	s.failed = true
	if s.said { // a long list of numbers needs one judgement, not one for each
		return
	}
	code, problem, do := judgeBare(word)
	s.fail(off, code, problem, do)
}

func judgeBare(word string) (code, problem, do string) {
	const withUnit = `write it in quotes with its unit, such as "2.1 L" or "24 N·m"`
	shown := Echo(word)
	bare := shown
	if strings.HasSuffix(shown, `"`) { // whole: as it stands in the file
		bare = shown[1 : len(shown)-1]
	}
	switch {
	case oddSpace(word[:len(word)-len(strings.TrimLeftFunc(word, isOddSpace))]):
		return codeSpace, "a special space outside quotes: " + shown, doSpace
	case strings.ContainsRune("“”„‟‘’‚«»″′`´", firstRune(word)):
		return codeQuotes, "quote marks from a word processor: " + shown, `write straight ones: "24 N·m"`
	case looksLogical(word):
		return codeBool, bare + " without quotes", `write "yes" or "no" in quotes`
	case looksDate(word):
		return codeDate, "a date or time without quotes", "write " + shown + " in quotes"
	case looksInteger(word):
		return codeInteger, bare + " is a bare number", withUnit
	case looksFloat(word):
		return codeFloat, bare + " is a bare number", withUnit
	}
	return codeUnquoted, "a value without quotes", "write it in quotes: " + shown
}

const doSpace = "replace it by an ordinary space; it often comes along when copying"

func oddSpace(s string) bool { return strings.IndexFunc(s, isOddSpace) >= 0 }

// isOddSpace knows the spaces beyond ASCII (Unicode category Zs). They are welcome inside quotes, between a number and its unit.
func isOddSpace(r rune) bool {
	return r == 0xa0 || r == 0x1680 || r >= 0x2000 && r <= 0x200a || r == 0x202f || r == 0x205f || r == 0x3000
}

func firstRune(s string) rune {
	r, _ := utf8.DecodeRuneInString(s)
	return r
}

func looksLogical(word string) bool {
	switch strings.ToLower(word) {
	case "true", "false", "yes", "no", "on", "off":
		return true
	}
	return false
}

// looksDate knows 2024-03-01… and 09:30…, whatever follows.
func looksDate(word string) bool {
	return shaped(word, "0000-00-00") || shaped(word, "00:00")
}

// shaped reports whether word begins like shape, where 0 stands for any digit.
func shaped(word, shape string) bool {
	if len(word) < len(shape) {
		return false
	}
	for i := range len(shape) {
		digit := word[i] >= '0' && word[i] <= '9'
		if shape[i] == '0' && !digit || shape[i] != '0' && word[i] != shape[i] {
			return false
		}
	}
	return true
}

func looksInteger(word string) bool {
	if len(word) > MaxKey { // keeps strconv's work small; a longer one is refused all the same
		return false
	}
	_, err := strconv.ParseInt(word, 0, 64)
	return err == nil
}

func looksFloat(word string) bool {
	if len(word) > MaxKey {
		return false
	}
	_, err := strconv.ParseFloat(strings.TrimLeft(strings.ReplaceAll(word, "_", ""), "+-"), 64) // Go knows no signed nan
	return err == nil || strings.Trim(word, "0123456789") == "" || strings.HasSuffix(err.Error(), "out of range")
}

package units

import (
	"strings"
	"unicode/utf8"
)

// ParseRange reads a range of dimension D: "9.6..10.4 L", "12 to 15 qt",
// "12-15 qt", "12–15 qt", or one quantity alone, which is a range without
// width. A unit after the first number is allowed; without one the second
// unit serves both. A hyphen is refused where it could be a sign or could join
// a whole number to a fraction ("2-1/2"). The low end comes first. Numbers,
// units and rounding are those of Parse; the error is a *ParseError.
func ParseRange[D Dimension](s string) (Range[D], error) { return parseRange[D](s, false) }

// ParseExplicitRange is ParseRange with the units of ParseExplicit.
func ParseExplicitRange[D Dimension](s string) (Range[D], error) { return parseRange[D](s, true) }

// ParseTemperatureRange reads two points, low first: "35 to 45 °C". It takes
// what ParseRange takes.
func ParseTemperatureRange(s string) (low, high Temperature, err error) {
	e, m := splitRange(s)
	if !m.some() {
		low, m = parseTemperature(e.low)
	}
	if !m.some() {
		high, m = parseTemperature(e.high)
	}
	if !m.some() && low.Compare(high) > 0 {
		m = mistake{token: e.low, reason: "the low end is above the high end"}
	}
	if m.some() {
		return Temperature{}, Temperature{}, m.in(s, rangeAccepted(acceptedPoint))
	}
	return low, high, nil
}

func rangeAccepted(one string) string {
	return one + `, or two of them as "low to high" or "low..high"`
}

func parseRange[D Dimension](s string, explicit bool) (Range[D], error) {
	var low, high Quantity[D]
	e, m := splitRange(s)
	if !m.some() {
		low, m = parseEnd[D](e.low, explicit)
	}
	if !m.some() {
		high, m = parseEnd[D](e.high, explicit)
	}
	if !m.some() && low.Compare(high) > 0 {
		m = mistake{token: e.low, reason: "the low end is above the high end"}
	}
	if m.some() {
		return Range[D]{}, m.in(s, rangeAccepted(accepted[D]()))
	}
	return Range[D]{low, high}, nil
}

func parseEnd[D Dimension](s string, explicit bool) (Quantity[D], mistake) {
	n, name, m := split(s)
	if m.some() {
		return Quantity[D]{}, m
	}
	return resolve[D](n, name, explicit)
}

// ends are the two quantities of a range as text, each with its unit.
type ends struct{ low, high string }

func splitRange(s string) (ends, mistake) {
	if len(s) > mostBytes {
		return ends{}, mistake{token: s, reason: "longer than 64 bytes"}
	}
	// 0...5 L could be read as 0 to .5 L.
	if strings.Contains(s, "...") {
		return ends{}, mistake{token: s, reason: "more than two dots together"}
	}
	low, high, hyphen, found := cutRange(s)
	if !found {
		return ends{s, s}, mistake{}
	}
	nl, unit, m := split(low)
	if m.some() {
		return ends{}, m
	}
	nh, highUnit, m := split(high)
	switch {
	case m.some():
		return ends{}, m
	case hyphen && (nl.sign || nh.sign || nh.fraction && !nl.fraction):
		return ends{}, mistake{token: s, reason: `the hyphen is ambiguous: write "low to high"`}
	case unit == "":
		low = trimRight(low) + " " + highUnit
	}
	return ends{low, high}, mistake{}
}

// cutRange parts a range at its first "..", " to ", en dash, or hyphen that a
// number follows. Any further separator is left for the numbers to refuse.
func cutRange(s string) (low, high string, hyphen, found bool) {
	for i, c := range s {
		switch c {
		case '.':
			if strings.HasPrefix(s[i:], "..") {
				return s[:i], s[i+2:], false, true
			}
		case '–':
			return s[:i], s[i+utf8.RuneLen(c):], false, true
		case 't':
			if n := toLen(s, i); n > 0 {
				return s[:i], s[i+n:], false, true
			}
		case '-':
			if joins(s, i) {
				return s[:i], s[i+1:], true, true
			}
		}
	}
	return "", "", false, false
}

// toLen is 2 where the word "to" stands alone at s[i:], else 0.
func toLen(s string, i int) int {
	rest, ok := strings.CutPrefix(s[i:], "to")
	if !ok || rest == "" || spaceLen(rest) == 0 || trimRight(s[:i]) == s[:i] {
		return 0
	}
	return len("to")
}

// joins says whether the hyphen at s[i] stands between two quantities: not a
// first sign, not in an exponent, not in lb-ft.
func joins(s string, i int) bool {
	if trimRight(s[:i]) == "" {
		return false
	}
	if i > 1 && (s[i-1] == 'e' || s[i-1] == 'E') && s[i-2]-'0' <= 9 {
		return false
	}
	p := scanner{s[i+1:]}
	p.spaces()
	if _, _, size := vulgar(p.rest); size > 0 {
		return true
	}
	return p.rest != "" && (p.rest[0]-'0' <= 9 || p.rest[0] == '.' || p.rest[0] == '-' || p.rest[0] == '+')
}

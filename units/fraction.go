package units

import (
	"math/bits"
	"unicode/utf8"
)

// mixed reads what follows the 2 of 2½, 2 ½ or 2 1/2, or ½ alone. Where
// nothing of the kind follows it reads nothing and answers false.
func (p *scanner) mixed(n *numeral, whole uint64, after bool) (bool, mistake) {
	q := *p
	spaced := after && q.spaces()
	if num, den, size := vulgar(q.rest); size > 0 {
		p.rest = q.rest[size:]
		n.fraction = !after
		n.ratio(whole, num, den)
		return true, mistake{}
	}
	if !spaced {
		return false, mistake{}
	}
	text := q.rest
	num, count := q.digits()
	if count == 0 || q.rest == "" || q.rest[0] != '/' {
		return false, mistake{}
	}
	if count > mostDigits {
		return true, tooManyDigits(text)
	}
	p.rest = q.rest
	if m := p.over(n, whole, num); m.some() {
		return true, m
	}
	if num >= n.over {
		return true, mistake{token: firstWord(text), reason: "the fraction after a whole number is not below 1"}
	}
	return true, mistake{}
}

// over reads the /3 of a fraction.
func (p *scanner) over(n *numeral, whole, num uint64) mistake {
	text := p.rest
	p.rest = p.rest[1:]
	den, count := p.digits()
	switch {
	case count > mostDigits:
		return tooManyDigits(text)
	case count == 0:
		return mistake{token: firstWord(text), reason: "no whole number under the fraction bar"}
	case den == 0:
		return mistake{token: firstWord(text), reason: "zero under the fraction bar"}
	}
	n.ratio(whole, num, den)
	return mistake{}
}

func (n *numeral) ratio(whole, num, den uint64) {
	hi, lo := bits.Mul64(whole, den)
	lo, carry := bits.Add64(lo, num, 0)
	n.hi, n.lo, n.over = hi+carry, lo, den
}

// vulgar reads a one-character fraction; size 0 for none.
func vulgar(s string) (num, den uint64, size int) {
	if s == "" || s[0] < utf8.RuneSelf {
		return 0, 0, 0
	}
	c, size := utf8.DecodeRuneInString(s)
	switch c {
	case '½':
		return 1, 2, size
	case '¼':
		return 1, 4, size
	case '¾':
		return 3, 4, size
	case '⅓':
		return 1, 3, size
	case '⅔':
		return 2, 3, size
	case '⅛':
		return 1, 8, size
	case '⅜':
		return 3, 8, size
	case '⅝':
		return 5, 8, size
	case '⅞':
		return 7, 8, size
	}
	return 0, 0, 0
}

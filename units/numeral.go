package units

import (
	"math/big"
	"math/bits"
	"strings"
	"unicode/utf8"
)

// The limits are checked before any arithmetic, so that no text is costly.
const (
	mostBytes    = 64
	mostDigits   = 18 // before the point, and again after it
	mostExponent = 18
)

// numeral is an unsigned exact number mant * 10^exp / over, and how it was written.
type numeral struct {
	hi, lo    uint64 // mant
	over      uint64
	exp       int
	negative  bool
	sign      bool // a sign was written
	thousands bool // one comma and three digits, such as 2,500: thousands or thousandths?
	fraction  bool // a fraction without a whole number, such as 1/2
}

// scanner walks a text. It never looks past the 64 bytes its caller allows.
type scanner struct{ rest string }

// spaces skips spaces of every accepted kind and says whether there were any.
func (p *scanner) spaces() bool {
	before := len(p.rest)
	for p.rest != "" {
		n := spaceLen(p.rest)
		if n == 0 {
			break
		}
		p.rest = p.rest[n:]
	}
	return len(p.rest) != before
}

// spaceLen is the length of the space that s starts with: plain, no-break
// (U+00A0), narrow no-break (U+202F) or thin (U+2009); 0 for none.
func spaceLen(s string) int {
	switch {
	case s[0] == ' ':
		return 1
	case s[0] < utf8.RuneSelf:
		return 0
	case strings.HasPrefix(s, "\u00a0"):
		return 2
	case strings.HasPrefix(s, "\u202f"), strings.HasPrefix(s, "\u2009"):
		return 3
	}
	return 0
}

// numeral reads a number: [sign] then 2500, 2.5, .5, 2.5e-3, 2,500.5, 1/3,
// 2 1/2, 2½ or ½.
func (p *scanner) numeral() (numeral, mistake) {
	start := p.rest
	n := numeral{over: 1}
	p.sign(&n)
	whole, count := p.digits()
	if count > mostDigits {
		return n, tooManyDigits(start)
	}
	n.lo = whole
	switch {
	case p.rest == "":
	case p.rest[0] == '.' || p.rest[0] == 'e' || p.rest[0] == 'E':
		return n, p.decimals(&n, start, count)
	case p.rest[0] == ',':
		return n, p.groups(&n, start, count)
	case count > 0 && p.rest[0] == '/':
		n.fraction = true
		return n, p.over(&n, 0, whole)
	default:
		if ok, m := p.mixed(&n, whole, count > 0); ok || m.some() {
			return n, m
		}
	}
	if count == 0 {
		return n, mistake{token: firstWord(start), reason: "does not start with a number"}
	}
	return n, mistake{}
}

func (p *scanner) sign(n *numeral) {
	switch {
	case p.rest == "":
	case p.rest[0] == '-':
		n.negative, n.sign, p.rest = true, true, p.rest[1:]
	case p.rest[0] == '+':
		n.sign, p.rest = true, p.rest[1:]
	case strings.HasPrefix(p.rest, "\u2212"):
		n.negative, n.sign, p.rest = true, true, p.rest[len("\u2212"):]
	}
}

// digits reads ASCII digits; the value counts only while count <= mostDigits.
func (p *scanner) digits() (value uint64, count int) {
	for count < len(p.rest) && p.rest[count]-'0' <= 9 {
		value = value*10 + uint64(p.rest[count]-'0')
		count++
	}
	p.rest = p.rest[count:]
	return value, count
}

// decimals reads the rest of 2.5 or 2.5e-3 after its whole digits.
func (p *scanner) decimals(n *numeral, start string, whole int) mistake {
	if p.rest[0] == '.' {
		p.rest = p.rest[1:]
		frac, count := p.digits()
		switch {
		case count == 0:
			return mistake{token: firstWord(start), reason: "no digit after the decimal point"}
		case count > mostDigits:
			return tooManyDigits(start)
		}
		n.shift(frac, pow10(count), count)
		whole += count
	}
	if whole == 0 {
		return mistake{token: firstWord(start), reason: "does not start with a number"}
	}
	if p.rest != "" && (p.rest[0] == 'e' || p.rest[0] == 'E') {
		return p.exponent(n, start)
	}
	return mistake{}
}

// shift appends decimals to a whole number.
func (n *numeral) shift(frac, power uint64, places int) {
	hi, lo := bits.Mul64(n.lo, power)
	lo, carry := bits.Add64(lo, frac, 0)
	n.hi, n.lo, n.exp = hi+carry, lo, -places
}

func (p *scanner) exponent(n *numeral, start string) mistake {
	p.rest = p.rest[1:]
	negative := false
	if p.rest != "" && (p.rest[0] == '-' || p.rest[0] == '+') {
		negative, p.rest = p.rest[0] == '-', p.rest[1:]
	}
	e, count := p.digits()
	switch {
	case count == 0:
		return mistake{token: firstWord(start), reason: "no digit in the exponent"}
	case count > 2 || e > mostExponent:
		return mistake{token: firstWord(start), reason: "the exponent is outside -18 to 18"}
	}
	if negative {
		n.exp -= int(e)
	} else {
		n.exp += int(e)
	}
	return mistake{}
}

// groups reads 1,234,567 or 2,500.5 after its first digits. One comma alone
// may be a decimal comma, so the numeral is marked for its unit to decide.
func (p *scanner) groups(n *numeral, start string, first int) mistake {
	ambiguous := mistake{
		token:  firstWord(start),
		reason: "a comma is ambiguous here: write 2500 or 2.5, with no comma",
	}
	if first == 0 || first > 3 || start[len(start)-len(p.rest)-first] == '0' {
		return ambiguous
	}
	digits, commas := first, 0
	for p.rest != "" && p.rest[0] == ',' {
		p.rest = p.rest[1:]
		group, count := p.digits()
		if count != 3 {
			return ambiguous
		}
		n.lo, digits, commas = n.lo*1000+group, digits+count, commas+1
		if digits > mostDigits {
			return tooManyDigits(start)
		}
	}
	if p.rest != "" && p.rest[0] == '.' {
		return p.decimals(n, start, digits)
	}
	n.thousands = commas == 1
	return mistake{}
}

func tooManyDigits(s string) mistake {
	return mistake{token: firstWord(s), reason: "more than 18 digits before or after the decimal point"}
}

// firstWord is s up to its first space.
func firstWord(s string) string {
	for i := range s {
		if spaceLen(s[i:]) > 0 {
			return s[:i]
		}
	}
	return s
}

// ticks returns the numeral in ticks of a unit, rounded once half to even;
// where it does not fit, the out-of-range ticks and false.
func (n numeral) ticks(r ratio) (int64, bool) {
	if n.hi == 0 {
		if t, ok := scaleDigits(n.lo, n.exp, n.over, r); ok {
			return signed(t, n.negative)
		}
	}
	mant := new(big.Int).SetUint64(n.hi)
	mant.Lsh(mant, 64).Add(mant, new(big.Int).SetUint64(n.lo))
	t, ok := scaleBig(mant, n.exp, new(big.Int).SetUint64(n.over), r)
	if !ok {
		return outOfRange, false
	}
	return signed(magnitude(t), n.negative)
}

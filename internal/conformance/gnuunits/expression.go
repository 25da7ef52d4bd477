package gnuunits

import (
	"errors"
	"fmt"
	"maps"
	"math/big"
	"strconv"
	"strings"
)

// value is a number with its dimension: the power of every primitive unit.
type value struct {
	number *big.Rat
	powers map[string]int
}

func (v value) alike(o value) bool { return maps.Equal(v.powers, o.powers) }

// times returns v·o^sign.
func (v value) times(o value, sign int) (value, error) {
	number, powers := new(big.Rat).Set(o.number), maps.Clone(v.powers)
	if sign < 0 {
		if o.number.Sign() == 0 {
			return v, errors.New("division by zero")
		}
		number.Inv(number)
	}
	if powers == nil {
		powers = map[string]int{}
	}
	for unit, p := range o.powers {
		if powers[unit] += sign * p; powers[unit] == 0 {
			delete(powers, unit)
		}
	}
	return value{number.Mul(number, v.number), powers}, nil
}

// reader evaluates one expression: sums of quotients of products of powers. A
// product binds tighter than a quotient: m / s s is m / (s·s).
type reader struct {
	d       *Definitions
	tokens  []string
	names   map[string]value // bound in a function
	depth   int
	problem error
}

func (d *Definitions) value(text string, names map[string]value) (value, error) {
	return d.valueAt(text, names, 0)
}

func (d *Definitions) valueAt(text string, names map[string]value, depth int) (value, error) {
	if depth > 50 {
		return value{}, fmt.Errorf("%q is defined by itself", text)
	}
	r := &reader{d: d, tokens: tokens(text), names: names, depth: depth}
	v := r.sum()
	if r.problem == nil && len(r.tokens) > 0 {
		r.problem = fmt.Errorf("%q: %q is left over", text, r.tokens[0])
	}
	return v, r.problem
}

// tokens splits at spaces and signs, a sign being a token.
func tokens(text string) (all []string) {
	word := ""
	flush := func() {
		if word != "" {
			all = append(all, word)
		}
		word = ""
	}
	for i, c := range text {
		switch {
		case c == ' ' || c == '\t':
			flush()
		case strings.ContainsRune("+-", c) && strings.HasSuffix(word, "e") && number(word[:len(word)-1]) != nil && i+1 < len(text):
			word += string(c) // 1e-3
		case strings.ContainsRune("+-*/|^()", c):
			flush()
			all = append(all, string(c))
		default:
			word += string(c)
		}
	}
	flush()
	return all
}

func number(word string) *big.Rat {
	if word == "" || !strings.ContainsRune(".0123456789", rune(word[0])) {
		return nil
	}
	x, ok := new(big.Rat).SetString(word)
	if !ok {
		return nil
	}
	return x
}

func (r *reader) next() string {
	if len(r.tokens) == 0 {
		return ""
	}
	return r.tokens[0]
}

func (r *reader) take(token string) bool {
	if r.next() != token {
		return false
	}
	r.tokens = r.tokens[1:]
	return true
}

func (r *reader) fail(format string, a ...any) value {
	if r.problem == nil {
		r.problem = fmt.Errorf(format, a...)
	}
	r.tokens = nil
	return value{number: new(big.Rat)}
}

func (r *reader) join(v, o value, sign int) value {
	joined, err := v.times(o, sign)
	if err != nil {
		return r.fail("%w", err)
	}
	return joined
}

func (r *reader) sum() value {
	v := r.quotient()
	for r.take("+") {
		o := r.quotient()
		if !v.alike(o) {
			return r.fail("a sum of unlike units")
		}
		v = value{new(big.Rat).Add(v.number, o.number), v.powers}
	}
	return v
}

func (r *reader) quotient() value {
	v := r.product()
	for r.take("/") {
		v = r.join(v, r.product(), -1)
	}
	return v
}

func (r *reader) product() value {
	v := r.power()
	for t := r.next(); t != "" && !strings.Contains("+/)", t); t = r.next() {
		r.take("*")
		v = r.join(v, r.power(), 1)
	}
	return v
}

func (r *reader) power() value {
	v := r.atom()
	if !r.take("^") {
		return v
	}
	n, err := strconv.Atoi(r.next())
	if err != nil || n < 1 || n > 9 {
		return r.fail("power %q; want 1 to 9", r.next())
	}
	r.take(r.next())
	whole := v
	for range n - 1 {
		whole = r.join(whole, v, 1)
	}
	return whole
}

func (r *reader) atom() value {
	switch {
	case r.take("-"):
		v := r.power()
		return value{new(big.Rat).Neg(v.number), v.powers}
	case r.take("("):
		v := r.sum()
		if !r.take(")") {
			return r.fail("a bracket is not closed")
		}
		return v
	}
	word := r.next()
	r.take(word)
	x := number(word)
	if x == nil {
		return r.named(word)
	}
	if r.take("|") {
		under := number(r.next())
		if under == nil || under.Sign() == 0 {
			return r.fail("%q under a bar", r.next())
		}
		r.take(r.next())
		x.Quo(x, under)
	}
	return value{number: x}
}

func (r *reader) named(word string) value {
	if v, ok := r.names[word]; ok {
		return v
	}
	if text, ok := r.d.units[word]; ok {
		if text == "!" {
			return value{big.NewRat(1, 1), map[string]int{word: 1}}
		}
		v, err := r.d.valueAt(text, nil, r.depth+1)
		if err != nil {
			return r.fail("%s: %w", word, err)
		}
		return v
	}
	if text, ok := r.d.prefixes[word]; ok { // k- is kilo
		v, err := r.d.valueAt(text, nil, r.depth+1)
		if err != nil {
			return r.fail("%s: %w", word, err)
		}
		return v
	}
	for cut := len(word) - 1; cut > 0; cut-- {
		text, ok := r.d.prefixes[word[:cut]]
		if _, known := r.d.units[word[cut:]]; !ok || !known {
			continue
		}
		scale, err := r.d.valueAt(text, nil, r.depth+1)
		if err != nil {
			return r.fail("%s: %w", word, err)
		}
		return r.join(scale, r.named(word[cut:]), 1)
	}
	return r.fail("no unit %q", word)
}

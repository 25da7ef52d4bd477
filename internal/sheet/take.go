package sheet

import (
	"fmt"
	"strconv"
	"strings"
)

// Take gives the value as whatever parse makes of its words. An error of parse becomes a fault at the value, its text the
// problem; do is the one thing to do about it. A value that is not OK is passed over in silence: ok is false.
func Take[T any](v Value, code, do string, parse func(string) (T, error)) (result T, ok bool) {
	var none T
	if !v.OK() || parse == nil {
		return none, false
	}
	result, err := parse(v.text)
	if err != nil {
		if v.table.doc.full() { // to be counted, and seen by nobody
			v.table.doc.addAt(v.at, "", code, "", "")
			return none, false
		}
		v.Fault(code, err.Error(), do)
		return none, false
	}
	return result, true
}

// Choice gives the words if they are among those allowed, else records a fault that lists them; empty if not OK.
func (v Value) Choice(words ...string) (word string, ok bool) {
	if !v.OK() {
		return "", false
	}
	for _, w := range words {
		if w == v.text {
			return w, true
		}
	}
	do := "write one of: " + strings.Join(words, ", ")
	if near := nearest(v.text, words); near != "" {
		do += " (did you mean " + near + "?)"
	}
	v.Fault(codeChoice, Echo(v.text)+" is not one of the words used here", do)
	return "", false
}

// YesNo gives true for "yes" and false for "no"; anything else is a fault.
func (v Value) YesNo() (yes, ok bool) {
	word, ok := v.Choice("yes", "no")
	return word == "yes", ok
}

// Count gives a whole number without unit, written in quotes like "4", from low to high; anything else is a fault.
func (v Value) Count(low, high int) (n int, ok bool) {
	if !v.OK() {
		return 0, false
	}
	if wholeNumber(v.text) {
		if n, err := strconv.Atoi(v.text); err == nil && n >= low && n <= high {
			return n, true
		}
	}
	v.Fault(codeCount, Echo(v.text)+" is not a whole number in range", fmt.Sprintf("write a number from %d to %d in quotes, without a unit", low, high))
	return 0, false
}

package working

import "strings"

// Line is one step of a calculation, as a person would write it.
type Line struct {
	Quantity     string `json:"quantity"`     // what is found, such as "old share after drain 2"
	Formula      string `json:"formula"`      // in symbols, such as "x·(1 - d/C)"
	Substitution string `json:"substitution"` // with numbers and units, such as "0.8 × (1 - 2.1 L / 10 L)"
	Result       string `json:"result"`       // with its unit, such as "0.632"
}

// Steps is the whole calculation in the order it was done. The zero value is
// no working.
type Steps []Line

// Add appends a step and returns the longer working; s itself is unchanged in
// length, as with append.
func (s Steps) Add(quantity, formula, substitution, result string) Steps {
	return append(s, Line{quantity, formula, substitution, result})
}

// Text returns the steps one a line: "quantity = formula = substitution = result".
// Empty parts are left out. The last line ends with a newline.
func (s Steps) Text() string {
	var b strings.Builder
	for _, l := range s {
		b.WriteString(l.Quantity)
		for _, part := range [...]string{l.Formula, l.Substitution, l.Result} {
			if part != "" {
				b.WriteString(" = ")
				b.WriteString(part)
			}
		}
		b.WriteByte('\n')
	}
	return b.String()
}

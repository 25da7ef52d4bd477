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

// Add returns the working with one step more. s is unchanged: two workings may
// grow from the same beginning, each with its own copy of it. For hundreds of
// steps use a [Builder].
func (s Steps) Add(quantity, formula, substitution, result string) Steps {
	// Without the cut, the second of the two would overwrite the step of the first.
	return append(s[:len(s):len(s)], Line{quantity, formula, substitution, result})
}

// Text returns the steps one a line: "quantity = formula = substitution = result".
// Empty parts are left out. The last line ends with a newline; no working is
// the empty text.
func (s Steps) Text() string {
	var b strings.Builder
	for _, l := range s {
		written := false
		for _, part := range l.parts() {
			if part == "" {
				continue
			}
			if written {
				b.WriteString(" = ")
			}
			b.WriteString(oneLine(part))
			written = true
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// Markdown returns the steps as a table with a column for each part. What
// Markdown would take for markup is escaped; no working is the empty text.
func (s Steps) Markdown() string {
	if len(s) == 0 {
		return ""
	}
	var b strings.Builder
	b.WriteString("| Quantity | Formula | With numbers | Result |\n| --- | --- | --- | --- |\n")
	for _, l := range s {
		for _, part := range l.parts() {
			b.WriteString("| ")
			b.WriteString(escape(oneLine(part)))
			b.WriteByte(' ')
		}
		b.WriteString("|\n")
	}
	return b.String()
}

func (l Line) parts() [4]string {
	return [...]string{l.Quantity, l.Formula, l.Substitution, l.Result}
}

// oneLine keeps a step on its line whatever was put in.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// escape puts a backslash before every character that Markdown may act on.
func escape(s string) string {
	var b strings.Builder
	for _, c := range s {
		if strings.ContainsRune("\\`*_{}[]<>#|~&", c) {
			b.WriteByte('\\')
		}
		b.WriteRune(c)
	}
	return b.String()
}

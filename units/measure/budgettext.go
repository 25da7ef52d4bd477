package measure

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

func budgetHeadings() []string {
	return []string{"quantity", "estimate", "u", "distribution", "sensitivity", "contribution", "share"}
}

// Text returns the table for a fixed-width page, lines ending in newlines:
// uncertainties to two digits by the table's rounding, sensitivities to four
// digits, shares to 0.1 %.
func (t Table) Text() string {
	lines := append([][]string{budgetHeadings()}, t.cells()...)
	widths := make([]int, len(lines[0]))
	for _, line := range lines {
		for i, cell := range line {
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	var b strings.Builder
	for _, line := range lines {
		b.WriteString(strings.TrimRight(aligned(line, widths), " ") + "\n")
	}
	b.WriteString(t.footer() + "\n")
	return b.String()
}

func aligned(line []string, widths []int) string {
	var b strings.Builder
	for i, cell := range line {
		pad := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell))
		switch {
		case leftColumn(i):
			b.WriteString(cell + pad)
		default:
			b.WriteString(pad + cell)
		}
		b.WriteString("  ")
	}
	return b.String()
}

// leftColumn holds words rather than numbers.
func leftColumn(i int) bool { return i == 0 || i == 3 }

// Markdown returns the table in Markdown, by the same rounding as Text.
func (t Table) Markdown() string {
	var b strings.Builder
	row := func(cells []string) {
		b.WriteString("| " + strings.Join(cells, " | ") + " |\n")
	}
	row(budgetHeadings())
	row([]string{":--", "--:", "--:", ":--", "--:", "--:", "--:"})
	for _, cells := range t.cells() {
		for i := range cells {
			cells[i] = strings.ReplaceAll(cells[i], "|", `\|`)
		}
		row(cells)
	}
	b.WriteString("\n" + strings.ReplaceAll(t.footer(), "|", `\|`) + "\n")
	return b.String()
}

func (t Table) cells() [][]string {
	lines := make([][]string, len(t.Rows))
	for i, r := range t.Rows {
		estimate, u := TwoDigits(r.Estimate, r.U, t.Rounding)
		if !r.HasEstimate {
			estimate = ""
		}
		_, contribution := TwoDigits(0, abs(r.Contribution), t.Rounding)
		if r.Contribution < 0 {
			contribution = "-" + contribution
		}
		lines[i] = []string{
			r.Quantity, estimate, u, r.distribution(), shown(r.Sensitivity, 'g', 4),
			contribution, shown(100*r.Share, 'f', 1) + " %",
		}
	}
	return lines
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}

// shown is a number of a table as print has it; one filled by hand may hold anything.
func shown(x float64, form byte, digits int) string {
	if !finite(x) {
		return notValid
	}
	return strconv.FormatFloat(x, form, digits, 64)
}

func (r Row) distribution() string {
	if r.DoF == 0 {
		return r.Shape.String()
	}
	return r.Shape.String() + " (ν " + shown(r.DoF, 'g', 4) + ")"
}

func (t Table) footer() string {
	value, u := TwoDigits(t.Value, t.U, t.Rounding)
	_, expanded := TwoDigits(t.Value, t.Expanded.U, t.Rounding)
	dof := "∞"
	if t.Expanded.DoF != 0 {
		dof = shown(t.Expanded.DoF, 'f', 1)
	}
	name := t.Quantity
	if name == "" {
		name = "result"
	}
	return name + " = " + with(value, t.Unit) + ", u_c = " + with(u, t.Unit) + ", ν_eff = " + dof +
		", k = " + shown(t.Expanded.K, 'f', 2) + t.coverage() + ", U = " + with(expanded, t.Unit)
}

func (t Table) coverage() string {
	if t.Expanded.Coverage == 0 {
		return ""
	}
	return " (" + shown(100*t.Expanded.Coverage, 'g', 6) + " %)"
}

package measure

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// Budget returns the table of Propagate(p) with the inputs by name: a cause that
// enters by one input has that input's estimate and sensitivity; one shared by
// several has the row of its sum, which names the first 20 of them, also where that
// is zero because it cancelled. Errors as for Propagate.
func (p Propagation) Budget() (Table, error) {
	value, slopes, err := p.evaluate()
	if err != nil {
		return Table{}, fmt.Errorf("measure: budget: %w", err)
	}
	uses, parts := p.uses(slopes)
	r, err := Combine(value, parts...)
	if err != nil {
		return Table{}, err
	}
	var rows []Row
	for i := 0; i < len(uses); {
		j := i + 1
		for j < len(uses) && uses[j].term.Cause.id == uses[i].term.Cause.id {
			j++
		}
		rows = append(rows, p.row(uses[i:j]))
		i = j
	}
	return newTable(r, rows)
}

// use is one cause in one input.
type use struct {
	input int
	term  Term
	slope float64
}

// uses lists every cause of every input, sorted by cause and then by input.
func (p Propagation) uses(slopes []float64) ([]use, []Part) {
	var uses []use
	parts := make([]Part, len(slopes))
	for i, c := range slopes {
		parts[i] = Part{p.Inputs[i].Of, c}
		for _, t := range p.Inputs[i].Of.doubt.terms {
			uses = append(uses, use{i, t, c})
		}
	}
	slices.SortStableFunc(uses, func(a, b use) int { return cmp.Compare(a.term.Cause.id, b.term.Cause.id) })
	return uses, parts
}

// mostNamed is how many inputs the row of a shared cause names.
const mostNamed = 20

func (p Propagation) row(uses []use) Row {
	first := uses[0]
	c := first.term.Cause
	if len(uses) > 1 {
		sum, names := 0.0, make([]string, 0, min(len(uses), mostNamed+1))
		for i, u := range uses {
			sum += float64(u.slope * u.term.Scale)
			if i < mostNamed {
				names = append(names, p.name(u.input))
			}
		}
		if more := len(uses) - mostNamed; more > 0 {
			names = append(names, fmt.Sprintf("and %d more", more))
		}
		return causeRow(c, c.Label()+" (shared: "+strings.Join(names, ", ")+")", sum)
	}
	in := p.Inputs[first.input]
	label := p.name(first.input)
	if len(in.Of.doubt.terms) > 1 {
		label += ": " + c.Label()
	}
	return Row{
		Quantity: label, Cause: c.id, Estimate: in.Of.value, HasEstimate: true,
		U: math.Abs(first.term.Scale), Shape: c.shape, DoF: c.dof, Sensitivity: first.slope,
		Contribution: first.slope * first.term.Scale,
	}
}

func (p Propagation) name(i int) string {
	if p.Inputs[i].Name != "" {
		return p.Inputs[i].Name
	}
	return fmt.Sprintf("input %d", i+1)
}

package measure

import (
	"cmp"
	"errors"
	"math"
	"slices"
)

// Table is an uncertainty budget: where the doubt of a result comes from, the
// largest first. Set Quantity, Unit and Rounding as it is to be printed.
type Table struct {
	Quantity string  // what the result is, such as "old share"
	Unit     string  // its unit, for print; may be empty
	Value    float64 // best estimate
	Rows     []Row   // one per cause, largest share first; equal shares by id
	U        float64 // combined standard uncertainty
	Expanded Expanded
	Rounding Rounding // of every uncertainty printed
}

// Row is one cause in a budget.
type Row struct {
	Quantity     string  // what is doubtful, for people
	Cause        string  // id of the cause
	Estimate     float64 // of the input it came with; see HasEstimate
	HasEstimate  bool    // false where the cause belongs to no single input
	U            float64 // standard uncertainty, in the input's unit
	Shape        Shape
	DoF          float64 // degrees of freedom; 0 for infinite
	Sensitivity  float64 // of the result to the input
	Contribution float64 // Sensitivity × U with its sign, in the result's unit
	Share        float64 // of the variance, 0 to 1; shares add to 1
}

// usualCoverage is the probability budgets state unless told otherwise.
const usualCoverage = 0.95

// Budget returns the causes of a reading as a table. Each cause counts once, with
// what it adds to the result after sharing, so that shares add to 1. The footer is at
// 95 %; see Table.At. A reading that is not valid is an error.
func Budget(r Reading) (Table, error) {
	rows := make([]Row, len(r.doubt.terms))
	for i, t := range r.doubt.terms {
		rows[i] = causeRow(t.Cause, t.Cause.Label(), t.Scale)
	}
	return newTable(r, rows)
}

// causeRow is the row of a cause seen from the result.
func causeRow(c *Cause, label string, scale float64) Row {
	return Row{Quantity: label, Cause: c.id, U: math.Abs(scale), Shape: c.shape, DoF: c.dof, Sensitivity: math.Copysign(1, scale), Contribution: scale}
}

func newTable(r Reading, rows []Row) (Table, error) {
	e, err := r.Expanded(usualCoverage)
	if err != nil {
		return Table{}, err
	}
	t := Table{Value: r.value, Rows: rows, U: r.U(), Expanded: e}
	for i := range rows {
		if t.U > 0 {
			share := rows[i].Contribution / t.U
			rows[i].Share = share * share
		}
	}
	slices.SortStableFunc(rows, func(a, b Row) int {
		return cmp.Or(cmp.Compare(b.Share, a.Share), cmp.Compare(a.Cause, b.Cause))
	})
	return t, nil
}

// At returns the table with its footer at another coverage probability, by the
// rules of Reading.Expanded.
func (t Table) At(coverage float64) (Table, error) {
	k, err := coverageFactor(coverage, t.Expanded.DoF)
	if err != nil {
		return Table{}, err
	}
	t.Expanded = Expanded{Coverage: coverage, K: k, U: k * t.U, DoF: t.Expanded.DoF}
	return t, nil
}

// AtFactor returns the table with its footer at a stated coverage factor, such as
// 2; the coverage probability is then not stated (0). A k that is not a finite
// number above 0 is an error.
func (t Table) AtFactor(k float64) (Table, error) {
	if !finite(k) || k <= 0 || !finite(k*t.U) {
		return Table{}, errors.New("measure: coverage factor; want a finite number above 0, usually 2")
	}
	t.Expanded = Expanded{K: k, U: k * t.U, DoF: t.Expanded.DoF}
	return t, nil
}

// Largest returns a copy of the first n rows, or all where there are fewer: what to
// measure better first.
func (t Table) Largest(n int) []Row {
	return slices.Clone(t.Rows[:max(0, min(n, len(t.Rows)))])
}

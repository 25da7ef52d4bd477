package jobcard

import (
	"fmt"
	"slices"
	"strings"

	"example.com/meniscus/units/measure"
)

// Budget returns where the doubt of the net balance comes from, in litres, the
// largest first, with the expanded uncertainty at k = 2.
func (b Balance) Budget() (measure.Table, error) {
	t, err := measure.Budget(b.Net.Reading())
	if err != nil {
		return measure.Table{}, fmt.Errorf("jobcard: balance: %w", err)
	}
	t.Quantity, t.Unit = "net balance", "L"
	return t.AtFactor(coverage)
}

// Contributor is one thing the doubt of the balance comes from: an instrument,
// the fluid's coefficient or an estimate, with all its causes together.
type Contributor struct {
	Name  string  `json:"name"`  // id of the instrument, "fluid" or "estimate"
	Share float64 `json:"share"` // of the variance, 0 to 1
}

// Contributors returns what the doubt comes from, largest share first; shares
// add to 1. It is empty where nothing is doubtful.
func (b Balance) Contributors() []Contributor {
	t, err := b.Budget()
	if err != nil || t.U == 0 {
		return nil
	}
	var out []Contributor
	for _, row := range t.Rows {
		name := contributor(row.Cause)
		i := slices.IndexFunc(out, func(c Contributor) bool { return c.Name == name })
		if i < 0 {
			out = append(out, Contributor{Name: name})
			i = len(out) - 1
		}
		out[i].Share += row.Share
	}
	slices.SortStableFunc(out, func(x, y Contributor) int {
		switch {
		case x.Share > y.Share:
			return -1
		case x.Share < y.Share:
			return 1
		}
		return strings.Compare(x.Name, y.Name)
	})
	return out
}

// contributor is the thing a cause belongs to: "jug-a/scale" is jug-a's.
func contributor(cause string) string {
	name, _, _ := strings.Cut(cause, "/")
	return name
}

// Advice returns one sentence on what to measure better next time; empty where
// nothing is doubtful.
func (c *Card) Advice() string {
	if c == nil || !c.open {
		return ""
	}
	list := c.Balance().Contributors()
	if len(list) == 0 {
		return ""
	}
	top := list[0]
	return fmt.Sprintf("%s is %.0f %% of the doubt: %s", top.Name, 100*top.Share, c.spec.remedy(top.Name))
}

// remedy says what makes a contributor smaller.
func (s Spec) remedy(name string) string {
	if _, ok := s.vessel(name); ok {
		return "use a finer vessel for the last half litre, use one vessel both ways, or weigh"
	}
	if _, ok := s.thermometer(name); ok {
		return "measure drain and refill at the same temperature, or with a better thermometer"
	}
	if _, ok := s.scale(name); ok {
		return "weigh in one go, or on a finer scale"
	}
	if name == "estimate" {
		return "measure what was only estimated"
	}
	return "measure drain and refill at the same temperature, so that expansion drops out"
}

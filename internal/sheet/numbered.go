package sheet

import (
	"slices"
	"strconv"
)

// Numbered gives the tables inside this one in the order of their numbers: [step.10], [step.20], [step.100]. Numbers leave
// gaps so that a step can be put between two others. A name that is not a whole number up to 999999999 is a fault, and so is
// one with a leading zero, which could stand twice. All are marked as used.
func (t *Table) Numbered() []*Table {
	var list []*Table
	for _, sub := range t.Subs() {
		if _, ok := sub.Number(); ok {
			list = append(list, sub)
			continue
		}
		t.wrong(t.member(sub.name), codeNotNumbered, Echo(sub.name)+" where a number belongs",
			"number these tables: ["+t.path("10")+"], ["+t.path("20")+"]")
	}
	slices.SortStableFunc(list, func(a, b *Table) int {
		m, _ := a.Number()
		n, _ := b.Number()
		return m - n
	})
	return list
}

// Number gives the table's own name as a whole number.
func (t *Table) Number() (n int, ok bool) {
	if t == nil || !wholeNumber(t.name) {
		return 0, false
	}
	n, err := strconv.Atoi(t.name)
	return n, err == nil
}

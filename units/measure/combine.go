package measure

import "fmt"

// Part is one input of a formula: a reading, and how much the result moves per
// unit of it (the partial derivative at the estimates).
type Part struct {
	Of          Reading
	Sensitivity float64
}

// Combine returns the reading of a formula whose value at the estimates the
// caller has computed: its terms are the sum of sensitivity × terms of each
// part, shared causes added with their signs before squaring. This is first-order
// propagation, JCGM 100:2008 5.1.2 and 5.2.2. A value or sensitivity that is
// not finite, a part that is not valid, more than 4096 causes, or more than 100 000
// terms in all is an error; the first ten faults are told.
func Combine(value float64, parts ...Part) (Reading, error) {
	if err := checkParts(value, parts); err != nil {
		return Reading{}, fmt.Errorf("measure: combine: %w", err)
	}
	n := 0
	for _, p := range parts {
		n += len(p.Of.doubt.terms)
	}
	if n > mostGathered {
		return Reading{}, fmt.Errorf("measure: combine: %w", errGathered(n))
	}
	g := gathering{terms: make([]Term, 0, min(n, mostTerms))}
	for _, p := range parts {
		g.addAll(p.Of.doubt.terms, p.Sensitivity)
	}
	d := g.done()
	return Reading{value, d}.orError()
}

// mostGathered bounds the terms of all inputs of a formula together.
const mostGathered = 100_000

func errGathered(n int) error {
	return fmt.Errorf("inputs with %d terms together; want at most %d", n, mostGathered)
}

func checkParts(value float64, parts []Part) error {
	var faults told
	if !finite(value) {
		faults.add(fmt.Errorf("value %v; want a finite number", value))
	}
	for i, p := range parts {
		if !finite(p.Sensitivity) {
			faults.add(fmt.Errorf("part %d of %d has sensitivity %v; want a finite number", i+1, len(parts), p.Sensitivity))
		}
		if p.Of.doubt.fault != nil {
			faults.add(fmt.Errorf("part %d of %d: %w", i+1, len(parts), p.Of.doubt.fault))
		}
	}
	return faults.join()
}

// orError turns a reading that is not valid into its error.
func (r Reading) orError() (Reading, error) {
	if r.doubt.fault != nil {
		return Reading{}, r.doubt.fault
	}
	return r, nil
}

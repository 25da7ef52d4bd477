package jobcard

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
)

// Weighed returns the balance this same job would have had if every volume read
// in a vessel had been weighed on one of the job's scales instead: the same
// fluid, another doubt. It answers whether a scale is worth fetching. A scale the
// job does not list, and a fluid whose density is not known, are errors.
func (c *Card) Weighed(scale string) (Balance, error) {
	if c == nil || !c.open {
		return Balance{}, errors.New("jobcard: no card; want one made by Open or Decode")
	}
	if _, ok := c.spec.scale(scale); !ok {
		return Balance{}, fmt.Errorf("jobcard: scale %.40q is not one of the job's; want one of its scales", scale)
	}
	entries := c.Entries()
	for i := range entries {
		a, err := c.weighedAmount(i+1, entries[i].Amount, scale)
		if err != nil {
			return Balance{}, entryError(i+1, entries[i], err)
		}
		entries[i].Amount = a
	}
	// What was accepted by volume is accepted by mass: the fluid is the same.
	again, err := replay(c.spec, entries, c.struck)
	if err != nil {
		return Balance{}, err
	}
	return again.balance(), nil
}

// weighedAmount turns an amount read in a vessel into the mass a scale would
// have shown, to a nanogram; what was not read in a vessel stays as it is.
func (c *Card) weighedAmount(n int, a Amount, scale string) (Amount, error) {
	if a.Vessel == "" {
		return a, nil
	}
	v, err := c.spec.atReference(n, a, c.state.law)
	if err != nil {
		return a, err
	}
	m, err := c.state.law.Mass(v.Best(), c.spec.reference())
	if err != nil {
		return a, err
	}
	return Amount{Mass: units.Gram.Of(m.In(units.Gram)), Scale: scale}, nil
}

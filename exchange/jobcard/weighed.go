package jobcard

import (
	"errors"
	"fmt"
	"slices"

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
		return Balance{}, fmt.Errorf("jobcard: weighed: %w", c.spec.noScale(scale))
	}
	weighed := Card{spec: c.spec, state: ledger{job: c.state.job}, entries: c.Entries(), volumes: slices.Clone(c.volumes), struck: c.struck}
	for i := range weighed.entries {
		if err := c.weigh(&weighed, i, scale); err != nil {
			return Balance{}, entryError(i+1, c.entries[i], err)
		}
	}
	// What was accepted by volume is accepted by mass: the fluid is the same.
	again, err := weighed.replay(true)
	if err != nil {
		return Balance{}, err
	}
	return again.balance(), nil
}

// weigh turns the amount of one entry into the mass a scale would have shown.
func (c *Card) weigh(weighed *Card, i int, scale string) error {
	e := &weighed.entries[i]
	if e.Amount.Vessel == "" {
		return nil
	}
	m, err := c.state.law.Mass(c.volumes[i].Best(), c.spec.reference())
	if err != nil {
		return err
	}
	// To a nanogram: what was not read in a vessel stays as it is.
	e.Amount = Amount{Mass: units.Gram.Of(m.In(units.Gram)), Scale: scale}
	if err := e.check(); err != nil {
		return err
	}
	as := c.state.line(i+1, e)
	weighed.volumes[i] = as.volume
	return as.fault
}

package jobcard

import (
	"fmt"

	"example.com/meniscus/units"
)

// Pour is how new fluid is to be measured.
type Pour struct {
	Temperature units.Temperature // of the new fluid
	Vessel      string            // id; empty: no vessel correction
	Besides     units.Volume      // goes on top, as at Temperature: what hose, pump and film keep
}

// PutBack returns the mark to fill to so that what was drained in this cycle
// and is not back yet goes in, corrected for the new fluid's temperature and
// for the vessel, with what goes on top. It is zero where nothing is owed. A mark
// above the vessel's top is an error: use two fills.
func (c *Card) PutBack(p Pour) (units.Volume, error) {
	if c == nil || !c.open {
		return units.Volume{}, fmt.Errorf("jobcard: no card; want one made by Open or Decode")
	}
	if !p.Besides.Valid() || p.Besides.Sign() < 0 || p.Besides.Compare(c.spec.Capacity.Low()) > 0 {
		return units.Volume{}, fmt.Errorf("jobcard: put back: %s besides; want zero to the box's capacity, %s", p.Besides, c.spec.Capacity.Low())
	}
	owed := c.state.owed()
	if owed.Sign() <= 0 {
		return units.Volume{}, nil
	}
	return c.markFor(owed, p)
}

// markFor turns a true volume at the reference temperature into a mark.
func (c *Card) markFor(v units.Volume, p Pour) (units.Volume, error) {
	warm, err := c.state.law.Convert(v, c.spec.reference(), p.Temperature)
	if err != nil {
		return units.Volume{}, err
	}
	warm = warm.Add(p.Besides)
	if p.Vessel == "" {
		return warm, nil
	}
	vessel, ok := c.spec.vessel(p.Vessel)
	if !ok {
		return units.Volume{}, fmt.Errorf("jobcard: put back: %w", c.spec.noVessel(p.Vessel))
	}
	return vessel.Mark(warm, p.Temperature)
}

package jobcard

import (
	"errors"
	"fmt"

	"example.com/meniscus/exchange"
)

// OldShareInterval returns the old share of a well-mixed box as an interval of
// 95 %: each capacity in its range equally likely, the drains with the doubt of
// their readings. It takes every drain as refilled with as much new fluid; what
// was put in besides moves OldShare, not this. A card without a drain is an error.
func (c *Card) OldShareInterval() (exchange.ShareInterval, error) {
	if c == nil || !c.open {
		return exchange.ShareInterval{}, errors.New("jobcard: no card; want one made by Open or Decode")
	}
	drains := c.state.flows.drains()
	if len(drains) == 0 {
		return exchange.ShareInterval{}, errors.New("jobcard: old share: nothing was drained yet; all of the fluid is old")
	}
	got, err := exchange.MeasuredService{Capacity: c.spec.Capacity, Drains: drains}.Interval()
	if err != nil {
		return exchange.ShareInterval{}, fmt.Errorf("jobcard: old share: %w", err)
	}
	return got, nil
}

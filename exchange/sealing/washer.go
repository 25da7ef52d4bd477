package sealing

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
)

// Washer is a sealing ring. A zero dimension is one nobody measured.
type Washer struct {
	ID        string       `json:"id"`
	Inner     units.Length `json:"inner,omitzero"`
	Outer     units.Length `json:"outer,omitzero"`
	Thickness units.Length `json:"thickness,omitzero"`
	Material  string       `json:"material,omitempty"` // such as copper, aluminium, fibre, bonded
	Reusable  bool         `json:"reusable,omitempty"` // false: crushed once, then replaced
}

// Check returns every fault of the washer by itself.
func (w Washer) Check() error {
	var faults []error
	say := func(format string, args ...any) {
		faults = append(faults, fmt.Errorf("sealing: washer %.40q: "+format, append([]any{w.ID}, args...)...))
	}
	if w.ID == "" {
		say("has no id; want a short name such as ring-16")
	}
	for _, l := range []namedLength{{"inner", w.Inner}, {"outer", w.Outer}, {"thickness", w.Thickness}} {
		if !l.size.Valid() || l.size.Sign() < 0 {
			say("%s is %s; want a positive length, or none where it was not measured", l.name, l.size)
		}
	}
	if !w.Inner.IsZero() && !w.Outer.IsZero() && w.Inner.Compare(w.Outer) >= 0 {
		say("inner diameter %s is not smaller than outer diameter %s", w.Inner, w.Outer)
	}
	return errors.Join(faults...)
}

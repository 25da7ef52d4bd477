package exchange

import (
	"errors"
	"fmt"
)

// Purpose says how strictly a target is meant.
type Purpose uint8

const (
	// Refresh renews fluid of the same class: the gears are trusted to mix, as
	// is usual, and the target holds for the well-mixed box. It is the zero value.
	Refresh Purpose = iota
	// ChangeClass puts in fluid of another class, where the target is a maximum
	// old share: it must hold whatever the gears do.
	ChangeClass
)

// String returns "refresh" or "change of class"; a value that is neither is
// "unknown purpose".
func (p Purpose) String() string {
	switch p {
	case Refresh:
		return "refresh"
	case ChangeClass:
		return "change of class"
	}
	return "unknown purpose"
}

// MarshalText returns String; a value that is neither purpose is an error.
func (p Purpose) MarshalText() ([]byte, error) {
	if p > ChangeClass {
		return nil, fmt.Errorf("exchange: purpose %d; want 0 to %d", uint8(p), uint8(ChangeClass))
	}
	return []byte(p.String()), nil
}

var errNowhere = errors.New("exchange: nowhere to read into; want a pointer that is not nil")

// UnmarshalText reads what MarshalText writes.
func (p *Purpose) UnmarshalText(text []byte) error {
	if p == nil {
		return errNowhere
	}
	for _, known := range [...]Purpose{Refresh, ChangeClass} {
		if known.String() == string(text) {
			*p = known
			return nil
		}
	}
	return fmt.Errorf("exchange: purpose %q; want refresh or change of class", coverClip(string(text)))
}

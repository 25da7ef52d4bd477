package measure

import (
	"fmt"
	"slices"

	"example.com/meniscus/units"
)

// Reading is a value and what is doubtful about it: value + sum of (scale ×
// cause). It never changes once made; arithmetic gives new readings in which
// shared causes have been added with their signs. Its unit is the caller's
// business. The zero value is exactly 0.
//
// A result that overflows, that brings together two causes of one id which mean
// different things, or that has more than 4096 causes is not valid: Valid is false,
// Err says why, Value and U answer units.Huge, and every later result is not valid
// either.
type Reading struct {
	value float64
	doubt doubt
}

// Exact returns x without doubt. NaN and infinities are an error.
func Exact(x float64) (Reading, error) { return New(x) }

// New returns the value x with the given terms, merged by cause. NaN, infinities,
// a term without a cause, two meanings of one id and more than 4096 terms are
// errors.
func New(x float64, terms ...Term) (Reading, error) {
	if !finite(x) {
		return Reading{}, fmt.Errorf("measure: reading of %v; want a finite number", x)
	}
	d, err := newDoubt(terms)
	if err != nil {
		return Reading{}, err
	}
	return Reading{x, d}, nil
}

// Value returns the best estimate; units.Huge if the reading is not valid.
func (r Reading) Value() float64 {
	if r.doubt.fault != nil {
		return units.Huge
	}
	return r.value
}

// U returns the standard uncertainty, the root sum of squares of the terms
// (JCGM 100:2008 5.1.2; the causes are independent once merged); units.Huge if the
// reading is not valid.
func (r Reading) U() float64 { return r.doubt.u() }

// Terms returns a copy of the terms, one per cause, sorted by cause id. Causes
// that cancelled exactly are gone.
func (r Reading) Terms() []Term { return slices.Clone(r.doubt.terms) }

// Valid is false for the result of an overflow, of two causes that share an id and
// differ, or of more than 4096 causes.
func (r Reading) Valid() bool { return r.doubt.fault == nil }

// Err says why the reading is not valid; nil if it is.
func (r Reading) Err() error { return r.doubt.fault }

// Plus returns r + o, shared causes added with their signs.
func (r Reading) Plus(o Reading) Reading { return r.sum(o, 1) }

// Minus returns r - o, shared causes subtracted with their signs.
func (r Reading) Minus(o Reading) Reading { return r.sum(o, -1) }

// Times returns k·r for a known number k. NaN and infinities give a reading
// that is not valid.
func (r Reading) Times(k float64) Reading { return Reading{}.sum(r, k) }

// Shift returns r + x for a known number x.
func (r Reading) Shift(x float64) Reading { return r.sum(Reading{value: x}, 1) }

func (r Reading) sum(o Reading, k float64) Reading {
	return checked(r.value+float64(k*o.value), r.doubt.plus(o.doubt, k), k)
}

// checked refuses a value or factor that is not finite.
func checked(value float64, d doubt, k float64) Reading {
	if d.fault == nil && (!finite(value) || !finite(k)) {
		d = overflow()
	}
	if d.fault != nil {
		value = 0
	}
	return Reading{value, d}
}

// path: exchange

// Package state keeps things between calls.
package state

import "errors"

var Table = map[string]int{"a": 1} // want

var last, errLast = 1.0, errors.New("state: last") // want

var Problem = errors.New("state: the name does not say it is an error") // want

var errMade = made() // want

var ErrFine = errors.New("state: fine")

var _ = ErrFine

func made() error { return nil }

func init() { // want
	last = float64(Table["a"])
}

type Machine struct{}

// A method may be called init: it runs when called.
func (Machine) init() {}

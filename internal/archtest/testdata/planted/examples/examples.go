// path: exchange

// Package examples shows some of what it has.
package examples

// Shown is.
func Shown() {}

// Silent has an Example that prints nothing to check.
func Silent() {} // want

// Missing has none.
func Missing() {} // want

// Suffixed has one with a suffix.
func Suffixed() {}

// Method is no suffix: that Example is of another type's method.
func Method() {} // want

// T has methods.
type T struct{}

// Do is shown.
func (T) Do() {}

// Undo is not.
func (*T) Undo() {} // want

// Range is generic.
type Range[A, B any] struct{}

// Low is shown.
func (Range[A, B]) Low() {}

// High is not.
func (r *Range[A, B]) High() {} // want

type hidden struct{}

// String of a hidden type needs none.
func (hidden) String() string { return "" }

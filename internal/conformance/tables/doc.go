// Package tables compares the library with every table of outside values that a
// law can be worked out for, through its exported functions only, and writes
// what it found as a Markdown table:
//
//	go test -v .            compares, prints the table
//	go test . -update       writes comparisons.md anew
//
// The test fails where a value is missed, where a published error is met, and
// where comparisons.md is not what comes out. The same input gives the same bytes.
package tables

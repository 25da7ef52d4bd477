// Package gnuunits holds every unit of package units against GNU units, a
// general unit converter, in two ways: against its definitions file, read here
// with rational numbers so that the comparison is exact, and against the answers
// of the program itself, to the fifteen digits it prints.
//
// On Debian both are in the package "units". The tests fail where they are
// missing.
package gnuunits

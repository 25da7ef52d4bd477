// Package numerics holds the numbers of units/measure, internal/elementary and
// the two-zone model of exchange against gonum, a general numerical library,
// and the speed of Simulate against the plain way with it: draw, keep, sort. It
// is a module of its own, so that users of the library do not have gonum among
// their dependencies.
package numerics

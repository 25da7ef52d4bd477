// Package numerics holds the numbers of units/measure and internal/elementary
// against gonum, a general numerical library, and the speed of Simulate
// against the plain way with it: draw, keep, sort. It is a module of its own, so that
// users of the library do not have gonum among their dependencies.
package numerics

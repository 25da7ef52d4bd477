// Package elementary holds the one small set of mathematical functions that
// the rest of the module uses, so that a result is the same to the last bit on
// every processor.
//
// The standard math package does not promise that: Exp, Log, Pow, Sin and
// their kin are written in assembly on some processors and in Go on others,
// and a compiler may turn a*b + c into one fused instruction where the
// processor has it. Here nothing is left to the processor:
//
//   - every product that feeds an addition or a subtraction is written
//     float64(a*b) + c, which the language forbids to fuse;
//   - from math only functions whose result is fixed by IEEE 754 are used
//     (Sqrt, Floor, Abs, bit casts and the like);
//   - every table is written out, every loop runs in a fixed order, and a
//     number is checked for range before it becomes an integer.
//
// Each function states its error in ulp (units in the last place of the
// result) or as a relative error. The tests check the statement against
// arithmetic with more than 200 bits, and compare digests of thousands of
// results with the ones stored in testdata.
//
// No function panics. A NaN argument gives NaN; what else gives NaN or an
// infinity is said at each function, and callers are expected to have refused
// such arguments before.
package elementary

// Package badinput holds no code, only tests: one catalogue of hostile numbers,
// counts, texts and documents, given to every exported function and method of
// the library, one place at a time and everywhere at once.
//
// Each call must end without a panic, without a NaN or an infinity in what it
// returns, and within bounds of memory and time; what is refused must say what
// is accepted and must not repeat the input at length. The functions and types
// are listed by hand, and the list is held against .ci/api.txt: a new entry point
// without a row fails.
package badinput

// Package samebits holds no code, only one test and one file: testdata/results.txt,
// a service of an invented box from the first quantity typed to the finished job
// card, every number of it beside its bits.
//
// The file must come out the same on every processor and from every edition of the
// library. Where the digests of each package say that something among 20 000 results
// changed, this file says what: it is meant to be read, and to be compared with by
// whoever writes the same sums in another language.
package samebits

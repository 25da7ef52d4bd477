// Package jobcard answers: what was done to this box, does it add up, and may
// it be closed? A Card is an append-only record of one service. Every entry is
// validated against what went before: a refused entry changes nothing, an
// accepted one is never altered, only struck out by a later entry that says why.
//
// At any moment the card gives the net balance at the reference temperature
// with its doubt, the old share so far, the fluid left, the next step, what
// still blocks closing, the cautions that apply, and a printable record.
//
// The caller supplies every time; the package reads no clock. The maker's
// instructions go before whatever the card suggests.
package jobcard

// Package units answers: what is a number in a workshop record? Volumes,
// torques, lengths, masses and temperatures are exact, carry their dimension,
// and never mix.
package units

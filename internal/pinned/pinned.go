// Package pinned gathers many results into one digest, so that a changed last bit of
// any of them shows; for tests.
package pinned

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"hash"
	"math"
)

// Results takes results in, in order. Use Open.
type Results struct {
	sum hash.Hash
	n   int
}

// Open returns an empty gathering.
func Open() *Results { return &Results{sum: sha256.New()} }

// Add takes in one result, by its bits.
func (r *Results) Add(x float64) {
	var b [8]byte
	binary.LittleEndian.PutUint64(b[:], math.Float64bits(x))
	r.sum.Write(b[:])
	r.n++
}

// Write takes in bytes that are not counted as a result, such as a document.
func (r *Results) Write(b []byte) { r.sum.Write(b) }

// Count returns how many results were taken in.
func (r *Results) Count() int { return r.n }

// Digest returns the first 16 bytes of the SHA-256 of all of them, in hexadecimal.
func (r *Results) Digest() string { return hex.EncodeToString(r.sum.Sum(nil)[:16]) }

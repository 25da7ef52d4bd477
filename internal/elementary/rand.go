package elementary

import "math/bits"

// Stream is a stream of pseudo-random numbers: the same seed and block give the
// same numbers on every processor. Give each block of a simulation a stream
// of its own, and one worker or many compute the same result.
//
// The generator is PCG-DXSM with 128 bits of state (O'Neill 2014, in the form
// that math/rand/v2 has; the tests compare the two). It is not for secrets. The
// zero value is a valid stream of its own. Two goroutines must not share one.
type Stream struct{ hi, lo uint64 }

// NewStream returns the stream of a seed and a block. Streams of one seed never
// start at the same state; that two streams of 2^40 numbers each overlap has a
// chance of about 2^-87.
func NewStream(seed, block uint64) *Stream {
	a := mix(seed + weyl)
	lo := mix(a ^ mix(block+weyl))
	return &Stream{hi: mix(lo + a + weyl), lo: lo}
}

const weyl = 0x9e3779b97f4a7c15 // 2^64 / golden ratio, odd

// mix is the finalizer of SplitMix64 (Steele, Lea and Flood, OOPSLA 2014): a
// bijection that spreads every bit over all others.
func mix(z uint64) uint64 {
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// Uint64 returns the next 64 random bits.
func (s *Stream) Uint64() uint64 {
	const (
		mulHi, mulLo = 2549297995355413924, 4865540595714422341
		incHi, incLo = 6364136223846793005, 1442695040888963407
		cheap        = 0xda942042e4dd58b5
	)
	hi, lo := bits.Mul64(s.lo, mulLo)
	hi += s.hi*mulLo + s.lo*mulHi
	lo, carry := bits.Add64(lo, incLo, 0)
	hi, _ = bits.Add64(hi, incHi, carry)
	s.hi, s.lo = hi, lo
	hi ^= hi >> 32
	hi *= cheap
	hi ^= hi >> 48
	return hi * (lo | 1)
}

// Below returns a whole number from 0 to n-1, each with the same chance. It
// returns 0 for n = 0 and n = 1 (Lemire, ACM TOMACS 29, 2019).
func (s *Stream) Below(n uint64) uint64 {
	hi, lo := bits.Mul64(s.Uint64(), n)
	if lo < n {
		for least := -n % max(n, 1); lo < least; {
			hi, lo = bits.Mul64(s.Uint64(), n)
		}
	}
	return hi
}

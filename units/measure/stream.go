package measure

import "example.com/meniscus/internal/elementary"

// Stream gives random numbers to the caller's own shapes in a simulation: the same
// seed and block give the same numbers on every machine. It is not for secrets,
// and not for two goroutines at once.
type Stream struct{ s elementary.Stream }

// NewStream returns the stream of a seed and a block of work, as Simulate makes
// one for each of its lanes; for trying a shape outside it.
func NewStream(seed, block uint64) *Stream { return &Stream{*elementary.NewStream(seed, block)} }

// Uint64 returns 64 random bits; 0 from no stream.
func (s *Stream) Uint64() uint64 {
	if s == nil {
		return 0
	}
	return s.s.Uint64()
}

// Uniform returns a number above 0 and below 1, all equally likely; 1/2 from no
// stream.
func (s *Stream) Uniform() float64 {
	if s == nil {
		return 0.5
	}
	return s.s.Float64()
}

// Normal returns a number of the standard normal distribution; 0 from no stream.
func (s *Stream) Normal() float64 {
	if s == nil {
		return 0
	}
	return s.s.Normal()
}

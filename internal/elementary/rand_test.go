package elementary

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestStreamIsPCG compares with the standard library's generator of that name.
func TestStreamIsPCG(t *testing.T) {
	for _, seed := range [][2]uint64{{0, 0}, {1, 2}, {math.MaxUint64, 0}, {0x123456789abcdef, 0xfedcba9876543210}} {
		ours, theirs := Stream{seed[0], seed[1]}, rand.NewPCG(seed[0], seed[1])
		for i := range 1000 {
			if got, want := ours.Uint64(), theirs.Uint64(); got != want {
				t.Fatalf("seed %x, number %d: got %x, want %x", seed, i, got, want)
			}
		}
	}
}

// TestMix compares with the sequence of SplitMix64 from seed 1234567, which
// circulates as its test vector (from memory).
func TestMix(t *testing.T) {
	state := uint64(1234567)
	for i, want := range []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821} {
		state += weyl
		if got := mix(state); got != want {
			t.Errorf("number %d: got %d, want %d", i, got, want)
		}
	}
}

func TestBlocksDiffer(t *testing.T) {
	seen := map[Stream]bool{{}: true}
	for seed := range uint64(100) {
		for block := range uint64(1000) {
			s := *NewStream(seed, block)
			if seen[s] || *NewStream(seed, block) != s {
				t.Fatalf("seed %d block %d: the state of another", seed, block)
			}
			seen[s] = true
		}
	}
}

// TestBlocksAreUncorrelated: the first numbers of consecutive blocks behave
// like independent ones.
func TestBlocksAreUncorrelated(t *testing.T) {
	const n = 100000
	var sum, square, lag float64
	last := 0.0
	for block := range uint64(n) {
		x := NewStream(7, block).Float64() - 0.5
		sum += x
		square += x * x
		lag += x * last
		last = x
	}
	// Standard errors: √(n/12), √(n/180), √n/12.
	for _, c := range []struct {
		name         string
		got, want, s float64
	}{{"mean", sum, 0, math.Sqrt(n / 12.0)}, {"square", square, n / 12.0, math.Sqrt(n / 180.0)}, {"lag", lag, 0, math.Sqrt(n) / 12}} {
		if z := (c.got - c.want) / c.s; math.Abs(z) > 4 {
			t.Errorf("%s is %.1f standard errors off", c.name, z)
		}
	}
}

func TestFloat64Range(t *testing.T) {
	if low, high := midpoint(0), midpoint(math.MaxUint64); low != 0x1p-53 || high != 1-0x1p-53 {
		t.Errorf("from %x to %x", low, high)
	}
	s := NewStream(3, 0)
	for range 10000 {
		if x := s.Float64(); !(x > 0 && x < 1) {
			t.Fatalf("got %v", x)
		}
	}
}

func TestBelow(t *testing.T) {
	s := NewStream(4, 0)
	for _, n := range []uint64{1, 2, 3, 6, 10, 1 << 32, 1<<63 + 1, math.MaxUint64} {
		for range 2000 {
			if k := s.Below(n); k >= n {
				t.Fatalf("Below(%d) = %d", n, k)
			}
		}
	}
	// n just above 2^63 refuses almost half of all draws: the halves must come out even.
	const n, draws = 1<<63 + 1, 100000
	upper := 0
	for range draws {
		if s.Below(n) >= n/2 {
			upper++
		}
	}
	if z := (float64(upper) - draws/2) / math.Sqrt(draws/4); math.Abs(z) > 4 {
		t.Errorf("upper half %d times of %d", upper, draws)
	}
	counts := [6]int{}
	for range draws {
		counts[s.Below(6)]++
	}
	checkCounts(t, "die", counts[:], draws)
}

// checkCounts compares counts of cells of equal chance by chi-square at 1e-6.
func checkCounts(t *testing.T, name string, counts []int, draws int) {
	t.Helper()
	want := float64(draws) / float64(len(counts))
	chi := 0.0
	for _, c := range counts {
		chi += (float64(c) - want) * (float64(c) - want) / want
	}
	if p := RegularizedGammaQ(float64(len(counts)-1)/2, chi/2); p < 1e-6 || p > 1-1e-6 {
		t.Errorf("%s: chi-square %v over %d cells, chance %v", name, chi, len(counts), p)
	}
}

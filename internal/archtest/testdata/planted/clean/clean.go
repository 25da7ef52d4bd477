// path: thermal

// Package clean keeps every rule while coming close to breaking each.
package clean

import (
	_ "embed"
	"encoding"
	"errors"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"time"
)

// ErrCold is met when the fluid is too cold.
var ErrCold = errors.New("clean: too cold")

var (
	errHot = errors.New("clean: too hot")
	//go:embed clean.txt
	words string
)

var _ fmt.Stringer = Reading{}

// Scale is what a reading may be on.
type Scale float64

// Reading is a value under a name.
type Reading struct {
	Name  string
	Value named
}

type named struct{ encoding.TextMarshaler }

// Limits of a reading.
const (
	Low  = 1.5
	High = 2*Low + 1
)

// String prints the reading.
func (r Reading) String() string { return r.Name }

// MustValue panics on a cold reading, as its name says.
func MustValue(r Reading) float64 {
	v, err := Value(r, 1)
	if err != nil {
		panic(err)
	}
	return v
}

// Value answers with products rounded before they are added.
func Value(r Reading, x float64) (float64, error) {
	if len(words) == 0 {
		return 0, errHot
	}
	n := 3
	n += n*2 + 1
	sum := float64(x*x) + 1
	sum -= float64(2 * x)
	sum += x/3 + float64(x/2)
	scaled := Scale(x*2) - 1
	text := strings.Repeat("a", n*2+1) + r.Name
	if x < Low || math.IsNaN(x) || math.IsInf(sum, 0) {
		return 0, ErrCold
	}
	return math.FMA(x, sum, float64(len(text))) * (2 + High) * math.Sqrt(float64(scaled)), nil
}

// Draw draws from a source the caller seeded.
func Draw(seed uint64) float64 { return rand.New(rand.NewPCG(seed, 0)).Float64() }

// Next is a day on: time as arithmetic, not as a clock.
func Next(t time.Time) time.Time { return t.Add(24 * time.Hour).UTC() }

// Names lists the keys in order, and counts them without one.
func Names(m map[string]int) ([]string, int) {
	total := 0
	for _, n := range m { // order does not matter: whole numbers add up the same
		total += n
	}
	// order does not matter: a set is filled
	for name := range m {
		delete(m, name)
	}
	return slices.Sorted(maps.Keys(m)), total
}

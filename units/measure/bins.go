package measure

import (
	"errors"
	"math"
)

// The bins: equal ones over the middle of the distribution and far beyond it,
// and on either side ever wider ones, so that no value falls outside.
const (
	middleBins  = 1 << 15
	perOctave   = 32
	tailOctaves = 64
	tailBins    = perOctave * tailOctaves
)

// bins lays the counters out: tailBins downwards, the middle, tailBins upwards.
type bins struct {
	low, width float64 // of the middle ones
	perWidth   float64 // 1/width
}

// newBins lays bins out by a sorted pilot: its 1 % and 99 % points and twice
// their distance on either side, about nine standard deviations where normal.
func newBins(pilot []float64) (bins, error) {
	n := len(pilot)
	low, high := pilot[n/100], pilot[n-1-n/100]
	// Where all values are alike the bins must still have a width.
	least := math.Max(math.Max(math.Abs(low), math.Abs(high))*0x1p-30, 0x1p-900)
	spread := math.Max(high-low, least)
	b := bins{low: low - float64(2*spread), width: float64(5*spread) / middleBins}
	if !finite(b.low) || !finite(5*spread) {
		return bins{}, errors.New("results spread too far for float64; want a smaller unit")
	}
	b.perWidth = 1 / b.width
	return b, nil
}

func (b bins) count() int { return middleBins + 2*tailBins }

func (b bins) take(counts []uint64, y []float64) {
	for _, v := range y {
		counts[b.index(v)]++
	}
}

func (b bins) index(v float64) int {
	at := float64((v - b.low) * b.perWidth)
	switch {
	case at >= 0 && at < middleBins:
		return tailBins + int(at)
	case at < 0:
		return tailBins - 1 - tailIndex(-at)
	}
	return tailBins + middleBins + tailIndex(at-middleBins)
}

// tailIndex counts 32 bins to each doubling of 1 + the distance in widths.
func tailIndex(distance float64) int {
	distance = math.Min(distance, 0x1p64-0x1p11)   // the last bin takes all that lies further
	fraction, exponent := math.Frexp(1 + distance) // [0.5, 1) × 2^exponent
	return (exponent-1)*perOctave + int((fraction-0.5)*(2*perOctave))
}

// edge is the lower end of bin i, or the upper end of the last for i = count.
func (b bins) edge(i int) float64 {
	switch {
	case i < tailBins:
		return b.low - float64(tailEdge(tailBins-i)*b.width)
	case i <= tailBins+middleBins:
		return b.low + float64(float64(i-tailBins)*b.width)
	}
	return b.low + float64((middleBins+tailEdge(i-tailBins-middleBins))*b.width)
}

// tailEdge is the distance at which tail bin i begins.
func tailEdge(i int) float64 {
	octave, part := i/perOctave, i%perOctave
	return math.Ldexp(1+float64(float64(part)/perOctave), octave) - 1
}

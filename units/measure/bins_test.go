package measure

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Every value finds a bin whose ends hold it, from the middle to the edge of float64.
func TestBinsHoldEveryValue(t *testing.T) {
	pilot := make([]float64, blockTrials)
	for i := range pilot {
		pilot[i] = 100 + float64(i)/blockTrials
	}
	b, err := newBins(pilot)
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(1, 1))
	values := []float64{math.MaxFloat64, -math.MaxFloat64, 0, 5e-324, 100, 101}
	for range 100_000 {
		values = append(values, 100+rng.NormFloat64()*math.Exp(60*rng.Float64()-5))
	}
	for _, v := range values {
		i := b.index(v)
		if i < 0 || i >= b.count() {
			t.Fatalf("%v goes to bin %d of %d", v, i, b.count())
		}
		low, high := b.edge(i), b.edge(i+1)
		slack := 1e-9*(high-low) + 1e-12*math.Abs(v)
		if i > 0 && v < low-slack || i < b.count()-1 && v > high+slack {
			t.Fatalf("%v is in bin %d from %v to %v", v, i, low, high)
		}
	}
	for i := range b.count() {
		if !(b.edge(i) < b.edge(i+1)) {
			t.Fatalf("bin %d is from %v to %v", i, b.edge(i), b.edge(i+1))
		}
	}
}

func TestBinsOfAwkwardPilots(t *testing.T) {
	for _, pilot := range [][]float64{{0}, {1e300}, {-5e-324, 5e-324}, {7, 7, 7}, {1, 1 + 0x1p-52}} {
		b, err := newBins(pilot)
		if err != nil || !(b.width > 0) || !finite(b.perWidth) {
			t.Errorf("%v: %+v, %v", pilot, b, err)
		}
	}
	if b, err := newBins([]float64{-1e308, 1e308}); err == nil {
		t.Errorf("too wide: %+v", b)
	}
}

package elementary

import (
	"math"
	"math/big"
	"testing"
)

// TestZigguratLayers works the layers out again: each has the same area, the
// next edge is where the density has risen by area/edge.
func TestZigguratLayers(t *testing.T) {
	tail := mul(mul(constants().sqrtPi, constants().sqrt2), wideNormalCDF(neg(bigOf(zigguratTail))))
	edge := bigOf(zigguratTail)
	curve := func(x *big.Float) *big.Float { return wideExp(neg(half(mul(x, x)))) }
	area := add(mul(edge, curve(edge)), tail)
	if off := relativeError(zigguratArea, area); off > 1e-15 {
		t.Errorf("area is %v, want %v", zigguratArea, area)
	}
	outer, inner := zigguratLayer(0)
	if ulpError(outer, quo(area, curve(edge))) > 1 || inner != zigguratTail {
		t.Errorf("base layer is %v, %v", outer, inner)
	}
	for i := 1; i < 256; i++ {
		before := inner
		outer, inner = zigguratLayer(uint8(i))
		if outer != before {
			t.Fatalf("layer %d begins at %v, the one before ends at %v", i, outer, before)
		}
		height := add(curve(edge), quo(area, edge))
		if i == 255 {
			// The last edge is 0, where the height must be 1.
			if off := math.Abs(float(sub(height, bigOf(1)))); off > 1e-13 || inner != 0 {
				t.Errorf("top is %v, off by %v", inner, off)
			}
			break
		}
		edge = big0().Sqrt(mul(bigOf(-2), wideLog(height)))
		if off := relativeError(inner, edge); off > 1e-13 { // the float of the tail's start is where it begins
			t.Errorf("layer %d ends at %v, want %v", i, inner, edge)
		}
	}
}

// TestNormalDistribution sorts draws into cells of equal chance, tails included.
func TestNormalDistribution(t *testing.T) {
	const cells, draws = 1000, 1000000
	counts, beyond := [cells]int{}, 0
	s := NewStream(1, 1)
	z := make([]float64, 1000)
	var m2, m4 float64
	for range draws / len(z) {
		s.FillNormal(z)
		for _, x := range z {
			counts[min(int(NormalCDF(x)*cells), cells-1)]++
			if math.Abs(x) > zigguratTail {
				beyond++
			}
			m2 += x * x
			m4 += x * x * x * x
		}
	}
	checkCounts(t, "cells", counts[:], draws)
	for _, c := range []struct {
		name         string
		got, want, s float64
	}{
		{"second moment", m2, draws, math.Sqrt(2 * draws)},
		{"fourth moment", m4, 3 * draws, math.Sqrt(96 * draws)},
		{"beyond the layers", float64(beyond), 2 * draws * NormalCDF(-zigguratTail), math.Sqrt(2 * draws * NormalCDF(-zigguratTail))},
	} {
		if off := (c.got - c.want) / c.s; math.Abs(off) > 4.5 {
			t.Errorf("%s is %v, want %v: %.1f standard errors", c.name, c.got, c.want, off)
		}
	}
}

func TestFillNormalIsNormal(t *testing.T) {
	a, b := NewStream(5, 6), NewStream(5, 6)
	z := make([]float64, 5000)
	a.FillNormal(z)
	for i, x := range z {
		if got := b.Normal(); got != x {
			t.Fatalf("number %d: %v and %v", i, got, x)
		}
	}
}

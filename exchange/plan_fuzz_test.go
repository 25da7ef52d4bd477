package exchange

import (
	"math"
	"testing"

	"example.com/meniscus/units"
)

// FuzzPlan reads requests out of bytes and holds each plan to the law worked out
// the slow way, one drain after the other, for a box that mixes and loses nothing.
func FuzzPlan(f *testing.F) {
	f.Add([]byte{80, 20, 20, 10, 128, 0})
	f.Add([]byte{96, 8, 24, 0, 77, 12})
	f.Add([]byte{160, 1, 1, 0, 1, 99})
	f.Add([]byte{40, 0, 40, 40, 255, 3})
	f.Fuzz(func(t *testing.T, b []byte) {
		if len(b) < 6 {
			return
		}
		litres := func(x byte) float64 { return float64(x) / 8 }
		low, wide := litres(b[1]), litres(b[2]%64)
		capacity, over := litres(b[0]), litres(b[3]%64)
		ends := func(low, high float64) units.Range[units.VolumeDim] {
			r, err := units.NewRange(units.Litre.Of(low), units.Litre.Of(high))
			if err != nil {
				t.Fatal(err)
			}
			return r
		}
		r := Request{Capacity: ends(capacity, capacity+over), Drain: ends(low, low+wide), Target: float64(b[4]) / 255, MostCycles: int(b[5]) % 100}
		p, err := Plan(r)
		if err != nil {
			if capacity > 0 && low > 0 && low+wide < capacity && r.Target > 0 && r.Target < 1 {
				t.Fatalf("%+v refused: %v", r, err)
			}
			return
		}
		best, worst, before := 1.0, 1.0, Share{1, 1}
		for i, row := range p.Rows {
			best *= max(0, 1-(low+wide)/capacity)
			worst *= 1 - low/(capacity+over)
			if row.Cycle != i+1 || math.Abs(row.Share.Low-best) > 1e-12 || math.Abs(row.Share.High-worst) > 1e-12 {
				t.Fatalf("%+v: cycle %d leaves %v, want %v to %v", r, row.Cycle, row.Share, best, worst)
			}
			if !(0 <= row.Share.Low && row.Share.Low <= row.Share.High && row.Share.High <= 1) || row.Share.High > before.High || row.Share.Low > before.Low {
				t.Fatalf("%+v: cycle %d leaves %v after %v", r, row.Cycle, row.Share, before)
			}
			before = row.Share
		}
		if n := p.Cycles.Chosen; p.Met && (n > 0 && p.Rows[n-1].Share.High > r.Target+1e-12 || n > 1 && p.Rows[n-2].Share.High <= r.Target-1e-12) {
			t.Fatalf("%+v: %d cycles chosen, %v left", r, n, p.Share)
		}
		if got, want := p.Fluid.Total.In(units.Litre), float64(p.Cycles.Chosen)*(low+wide); math.Abs(got-want) > 1e-9 {
			t.Fatalf("%+v: %v L of fluid, want %v", r, got, want)
		}
	})
}

package exchange

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/meniscus/units"
)

// Against drawing capacity and position at random.
func TestPlanIntervalsAgainstDraws(t *testing.T) {
	rng := rand.New(rand.NewPCG(27, 28))
	for k := range 6 {
		r := planRandom(t, rng)
		r.MostCycles = 4
		if k%2 == 0 {
			r.FirstDrain = units.Range[units.VolumeDim]{}
		} else {
			r.FirstDrain = dilutionRange(t, r.Drain.Low().In(units.Litre)+0.2, r.Drain.High().In(units.Litre)+0.7)
			if !r.Sump.IsZero() {
				r.Sump = dilutionLitres(5)
			}
		}
		p, err := Plan(r)
		if err != nil {
			t.Fatal(err)
		}
		m := r.withDefaults().likely()
		draws := make([]float64, 50_000)
		for _, row := range p.Rows {
			for i := range draws {
				draws[i], _ = m.share(row.Cycle, m.low+(m.high-m.low)*rng.Float64(), rng.Float64())
			}
			slices.Sort(draws)
			width := row.Interval.Width()
			dilutionNear(t, "low", row.Interval.Low, draws[len(draws)/40], 0.016*width)
			dilutionNear(t, "high", row.Interval.High, draws[len(draws)-len(draws)/40], 0.016*width)
			met, _ := slices.BinarySearch(draws, r.Target)
			dilutionNear(t, "chance", row.Chance, float64(met)/float64(len(draws)), 0.01)
			if row.Interval.Low <= row.Share.Low || row.Interval.High >= row.Share.High || row.Interval.Coverage != 0.95 {
				t.Errorf("interval %+v, range %v", row.Interval, row.Share)
			}
		}
	}
}

// A drain that empties the box leaves nothing, whichever drain it is.
func TestLikelyShareRunsDry(t *testing.T) {
	for _, k := range []likely{
		{first: [2]float64{4, 10}, later: [2]float64{1, 2}},
		{first: [2]float64{1, 2}, later: [2]float64{4, 10}},
	} {
		if x, _ := k.share(2, 10, 1); x != 0 {
			t.Errorf("%v leaves %v", k, x)
		}
	}
	k := likely{first: [2]float64{1, 2}, later: [2]float64{4, 10}}
	if x, slope := k.share(1, 10, 1); x != 0.8 || slope >= 0 {
		t.Errorf("the later drain counted before its time: %v, %v", x, slope)
	}
}

// The ratio of two rectangles and the integration are two roads to one figure.
func TestPlanIntervalTwoRoads(t *testing.T) {
	k := likely{low: 11, high: 14, first: [2]float64{2.2, 2.9}, later: [2]float64{2.2, 2.9}}
	for n := 1; n < 8; n++ {
		for _, p := range []float64{0.001, 0.025, 0.3, 0.5, 0.8, 0.975, 0.9999} {
			x := k.quantile(n, p)
			dilutionNear(t, "probability", k.below(n, x), p, 1e-9)
		}
	}
	// A first drain that only just differs moves the answer only just.
	other := k
	other.first[1] += 1e-7
	dilutionNear(t, "share", other.quantile(4, 0.3), k.quantile(4, 0.3), 1e-7)
}

func TestPlanIntervalEdges(t *testing.T) {
	r := planRequest(t)
	r.Coverage, r.Drain = 0.9, dilutionRange(t, 3, 3)
	p, err := Plan(r)
	if err != nil {
		t.Fatal(err)
	}
	at := func(c, d float64) float64 { return math.Pow(1-d/c, 2) }
	dilutionNear(t, "capacity alone, low", p.Rows[1].Interval.Low, at(12.15, 3), 1e-15)
	dilutionNear(t, "capacity alone, high", p.Rows[1].Interval.High, at(14.85, 3), 1e-15)
	if p.FluidInterval.Low() != p.Fluid.Total || p.FluidInterval.High() != p.Fluid.Total {
		t.Errorf("fluid %v without doubt; want %v", p.FluidInterval, p.Fluid.Total)
	}
	r.Drain, r.Capacity = dilutionRange(t, 2, 3), dilutionRange(t, 12, 12)
	p, err = Plan(r)
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "drain alone, low", p.Rows[1].Interval.Low, at(12, 2.95), 1e-15)
	dilutionNear(t, "drain alone, high", p.Rows[1].Interval.High, at(12, 2.05), 1e-15)
	n := float64(p.Cycles.Chosen)
	dilutionNear(t, "fluid, low", p.FluidInterval.Low().In(units.Litre), 2.05*n, 1e-12)
	dilutionNear(t, "fluid, high", p.FluidInterval.High().In(units.Litre), 2.95*n, 1e-12)
	// A drain that may be the whole box leaves nothing at that end, and no NaN.
	r.Drain, r.FirstDrain = dilutionRange(t, 2, 12), dilutionRange(t, 3, 12)
	p, err = Plan(r)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range p.Rows {
		if !(row.Interval.Low >= 0 && row.Interval.Low <= row.Interval.High && row.Interval.High <= 1) {
			t.Errorf("row %d interval %+v", row.Cycle, row.Interval)
		}
	}
	r.Capacity = dilutionRange(t, 12, 14)
	if p, err = Plan(r); err != nil || math.IsNaN(p.Rows[3].Interval.Low) {
		t.Errorf("%+v, %v", p.Rows[3].Interval, err)
	}
	// Halves of ranges: 0.8² is met by half of the capacities or of the drains.
	for name, r := range map[string]Request{
		"capacity": {Capacity: dilutionRange(t, 8, 12), Drain: dilutionRange(t, 2, 2), Target: 0.64},
		"drain":    {Capacity: dilutionRange(t, 10, 10), Drain: dilutionRange(t, 1, 3), Target: 0.64},
		"first":    {Capacity: dilutionRange(t, 10, 10), Drain: dilutionRange(t, 1, 3), FirstDrain: dilutionRange(t, 1.5, 2.5), Target: 0.64},
	} {
		p, err := Plan(r)
		if err != nil {
			t.Fatal(err)
		}
		dilutionNear(t, name, p.Rows[1].Chance, 0.5, 1e-10)
		if p.Rows[11].Chance != 1 {
			t.Errorf("%s: after twelve cycles the chance is %v", name, p.Rows[11].Chance)
		}
	}
	for _, c := range []float64{-1, 1, math.NaN()} {
		r.Coverage = c
		if _, err := Plan(r); err == nil || !strings.Contains(err.Error(), "coverage") {
			t.Errorf("coverage %v: %v", c, err)
		}
	}
}

func BenchmarkPlanFirstDrain(b *testing.B) {
	b.ReportAllocs()
	r := planRequest(b)
	r.FirstDrain = dilutionRange(b, 3, 3.5)
	for b.Loop() {
		if _, err := Plan(r); err != nil {
			b.Fatal(err)
		}
	}
}

package measure_test

import (
	"math"
	"slices"
	"testing"

	"example.com/meniscus/units/measure"
)

// Without keeping values the distribution function is a line across each bin: it is
// never off by more than one bin holds, it undoes Quantile, and it rises from the
// least result to the most.
func TestBinnedAgainstSorting(t *testing.T) {
	var all []float64
	model := func(x []float64) float64 { all = append(all, x[0]); return x[0] }
	o := simulate(t, measure.Simulation{Inputs: four(t, measure.Normal, 1)[:1], Model: model, Trials: 50_000, Seed: 5})
	all = all[1024:] // the pilot block came first
	slices.Sort(all)
	least, most := o.Range()
	if least != all[0] || most != all[len(all)-1] {
		t.Fatalf("range %v to %v; want %v to %v", least, most, all[0], all[len(all)-1])
	}
	for _, p := range []float64{0.00002, 0.0001, 0.001, 0.01, 0.1, 0.3, 0.5, 0.7, 0.9, 0.99, 0.999, 0.9999, 0.99998} {
		x, err := o.Quantile(p)
		if err != nil {
			t.Fatal(err)
		}
		bin, err := o.Resolution(p)
		if err != nil || bin < 0 || bin > 0.5 {
			t.Errorf("bin of %v at %v: %v", bin, p, err)
		}
		rank := min(max(int(p*float64(len(all))+0.5), 1), len(all))
		near(t, "quantile", x, all[rank-1], bin+1e-12)
		// The line through the middle of the results: half a result is 1e-5.
		near(t, "distribution function", o.CDF(x), (float64(rank)-0.5)/float64(len(all)), 1e-9)
		exactly, _ := slices.BinarySearch(all, math.Nextafter(x, math.Inf(1)))
		in, _ := slices.BinarySearch(all, x-bin)
		to, _ := slices.BinarySearch(all, x+bin)
		near(t, "share at most x", o.CDF(x), float64(exactly)/float64(len(all)), float64(to-in+1)/float64(len(all)))
	}
	last := 0.0
	for x := least; x <= most; x += (most - least) / 2000 {
		if p := o.CDF(x); p < last || p > 1 {
			t.Fatalf("distribution function %v at %v after %v", p, x, last)
		} else {
			last = p
		}
	}
	if o.CDF(math.Nextafter(least, -1e9)) != 0 || o.CDF(most) != 1 {
		t.Error("the ends are not the ends")
	}
}

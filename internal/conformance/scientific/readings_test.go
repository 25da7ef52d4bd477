package scientific

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"example.com/meniscus/units/measure"
)

// Sums of causes of any degrees of freedom: Welch and Satterthwaite's formula
// and Student's factor for it, truncated.
func TestExpandedAgainstScipy(t *testing.T) {
	type terms struct {
		U   []float64 `json:"u"`
		DoF []float64 `json:"dof"`
		P   float64   `json:"p"`
	}
	r := rand.New(rand.NewPCG(4, 1))
	all := make([]terms, 800)
	for i := range all {
		all[i].P = []float64{0.68, 0.9, 0.95, 0.99}[r.IntN(4)]
		for range 1 + r.IntN(6) {
			all[i].U = append(all[i].U, spread(r, 0.01, 3))
			all[i].DoF = append(all[i].DoF, []float64{0, float64(1 + r.IntN(30))}[r.IntN(2)])
		}
	}
	var u, effective, k worst
	for i, want := range ask[[][3]float64](t, "combined", map[string]any{"cases": all}) {
		sum := measure.Reading{}
		for j, scale := range all[i].U {
			c, err := measure.NewCause(fmt.Sprint("c", j), "", measure.Normal, all[i].DoF[j])
			if err != nil {
				t.Fatal(err)
			}
			one, err := measure.New(1, measure.Term{Cause: c, Scale: scale})
			if err != nil {
				t.Fatal(err)
			}
			sum = sum.Plus(one)
		}
		got, err := sum.Expanded(all[i].P)
		if err != nil {
			t.Fatal(err)
		}
		u.see(relative(sum.U(), want[0]), "%+v", all[i])
		effective.see(relative(sum.DoF(), want[1]), "%+v", all[i])
		k.see(relative(got.K, want[2]), "%+v", all[i])
	}
	u.within(t, 4e-15, "standard uncertainty")
	effective.within(t, 1e-13, "effective degrees of freedom")
	k.within(t, 2e-8, "coverage factor") // scipy's Student quantile
}

func TestObservedAgainstNumpy(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2))
	all := make([][]float64, 500)
	for i := range all {
		for range 2 + r.IntN(20) {
			all[i] = append(all[i], rounded(r, 40, 42))
		}
	}
	var mean, u worst
	for i, want := range ask[[][2]float64](t, "observed", map[string]any{"cases": all}) {
		got, err := measure.Observed("a", "", all[i]...)
		if err != nil {
			t.Fatal(err)
		}
		mean.see(relative(got.Value(), want[0]), "%v", all[i])
		u.see(relative(got.U(), want[1]), "%v", all[i])
	}
	mean.within(t, 4e-15, "mean")
	u.within(t, 1e-11, "its standard uncertainty")
}

// The weighted mean of readings that share one cause, against its covariance
// matrix.
func TestWeightedMeanAgainstNumpy(t *testing.T) {
	type set struct {
		X      []float64 `json:"x"`
		U      []float64 `json:"u"`
		Shared []float64 `json:"shared"`
	}
	r := rand.New(rand.NewPCG(2, 47))
	all := make([]set, 400)
	for i := range all {
		for range 2 + r.IntN(4) {
			all[i].X = append(all[i].X, 41+0.1*r.NormFloat64())
			all[i].U = append(all[i].U, between(r, 0.3, 1))
			all[i].Shared = append(all[i].Shared, between(r, -0.5, 0.5))
		}
	}
	common, err := measure.NewCause("common", "", measure.Normal, 0)
	if err != nil {
		t.Fatal(err)
	}
	var mean, u worst
	for i, want := range ask[[][2]float64](t, "weighted_mean", map[string]any{"cases": all}) {
		var readings []measure.Reading
		for j, x := range all[i].X {
			together, err := measure.New(0, measure.Term{Cause: common, Scale: all[i].Shared[j]})
			if err != nil {
				t.Fatal(err)
			}
			readings = append(readings, reading(t, fmt.Sprint("r", j), "normal", x, all[i].U[j]).Plus(together))
		}
		got, err := measure.WeightedMean(readings...)
		if err != nil {
			t.Fatal(err)
		}
		mean.see(relative(got.Value(), want[0]), "%+v", all[i])
		u.see(relative(got.U(), want[1]), "%+v", all[i])
	}
	mean.within(t, 1e-14, "weighted mean")
	u.within(t, 1e-13, "its standard uncertainty")
}

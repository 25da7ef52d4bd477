package measure_test

import (
	"context"
	"fmt"
	"testing"

	"example.com/meniscus/units/measure"
)

// fiveDrains is the reference case of the old share left: capacity between 11.36
// and 14.2 L, five drains of 2.4 L with u = 0.05 L each.
func fiveDrains(tb testing.TB) ([]measure.Input, func(x []float64) float64) {
	tb.Helper()
	u, err := measure.FromHalfWidth(measure.Rectangular, (14.2-11.36)/2)
	if err != nil {
		tb.Fatal(err)
	}
	inputs := []measure.Input{{Name: "capacity", Of: uncertain(tb, "capacity", (11.36+14.2)/2, u, measure.Rectangular, 0)}}
	for i := range 5 {
		name := fmt.Sprint("drain-", i+1)
		inputs = append(inputs, measure.Input{Name: name, Of: uncertain(tb, name, 2.4, 0.05, measure.Normal, 0)})
	}
	return inputs, oldShare
}

func oldShare(x []float64) float64 {
	c := x[0]
	return (1 - x[1]/c) * (1 - x[2]/c) * (1 - x[3]/c) * (1 - x[4]/c) * (1 - x[5]/c)
}

func BenchmarkSimulate(b *testing.B) {
	inputs, model := fiveDrains(b)
	for _, workers := range []int{1, 2} {
		for _, keep := range []bool{false, true} {
			b.Run(fmt.Sprintf("1e6/workers=%d/keep=%v", workers, keep), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					o, err := measure.Simulate(context.Background(), measure.Simulation{
						Inputs: inputs, Model: model, Trials: 1_000_000, Seed: 1, Workers: workers, Keep: keep,
					})
					if err != nil {
						b.Fatal(err)
					}
					if _, err := o.Interval(0.95); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
	for _, trials := range []int{10_000, 100_000, 10_000_000} {
		b.Run(fmt.Sprintf("memory/%d", trials), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := measure.Simulate(context.Background(), measure.Simulation{Inputs: inputs, Model: model, Trials: trials, Seed: 1, Workers: 2}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkPropagate(b *testing.B) {
	inputs, model := fiveDrains(b)
	b.Run("numeric", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := measure.Propagate(measure.Propagation{Inputs: inputs, Model: model}); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("given", func(b *testing.B) {
		given := []float64{0.1, 0.2, 0.2, 0.2, 0.2, 0.2}
		b.ReportAllocs()
		for b.Loop() {
			if _, err := measure.Propagate(measure.Propagation{Inputs: inputs, Model: model, Sensitivities: given}); err != nil {
				b.Fatal(err)
			}
		}
	})
}

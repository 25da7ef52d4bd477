package measure_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sync"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func TestOutcomeRefuses(t *testing.T) {
	o := simulate(t, measure.Simulation{Inputs: four(t, measure.Normal, 1), Model: value, Trials: 100})
	for _, p := range []float64{0, 1, -0.5, 2, math.NaN(), math.Inf(1)} {
		for name, f := range outcomeFigures(o) {
			if x, err := f(p); err == nil {
				t.Errorf("%s(%v) = %v", name, p, x)
			}
		}
	}
	for _, p := range []float64{0.001, 0.999} {
		if x, err := o.StandardError(p); err == nil {
			t.Errorf("standard error so near an end, at %v: %v", p, x)
		}
	}
	for _, none := range []*measure.Outcome{nil, {}} {
		for name, f := range outcomeFigures(none) {
			if x, err := f(0.5); err == nil {
				t.Errorf("%s of no simulation = %v", name, x)
			}
		}
		least, most := none.Range()
		if none.Trials() != 0 || none.Mean() != units.Huge || none.U() != units.Huge || least != -units.Huge || most != units.Huge || none.CDF(0) != 0 {
			t.Error("no simulation has figures")
		}
	}
}

func outcomeFigures(o *measure.Outcome) map[string]func(p float64) (any, error) {
	return map[string]func(p float64) (any, error){
		"Quantile":      func(p float64) (any, error) { return o.Quantile(p) },
		"Resolution":    func(p float64) (any, error) { return o.Resolution(p) },
		"StandardError": func(p float64) (any, error) { return o.StandardError(p) },
		"Interval":      func(p float64) (any, error) { return o.Interval(p) },
		"Shortest":      func(p float64) (any, error) { return o.Shortest(p) },
	}
}

// Selection against sorting, on values with many ties, in any order of asking.
func TestKeptAgainstSorting(t *testing.T) {
	for _, trials := range []int{1, 2, 17, 1000, 20_000} {
		var all []float64
		model := func(x []float64) float64 { v := math.Round(20 * x[0]); all = append(all, v); return v }
		o := simulate(t, measure.Simulation{Inputs: four(t, measure.Normal, 1), Model: model, Trials: trials, Keep: true, Seed: 3})
		all = all[min(trials, 1024):] // the pilot block came first
		slices.Sort(all)
		for _, p := range []float64{0.5, 0.01, 0.99, 0.25, 0.5, 0.975, 1e-9} {
			rank := min(max(int(p*float64(trials)+0.5), 1), trials)
			if x, err := o.Quantile(p); err != nil || x != all[rank-1] {
				t.Errorf("%d trials at %v: %v, %v; want %v", trials, p, x, err, all[rank-1])
			}
		}
		o.CDF(0) // sorts
		if x, _ := o.Quantile(0.5); x != all[min(max(int(0.5*float64(trials)+0.5), 1), trials)-1] {
			t.Errorf("%d trials: median %v after sorting", trials, x)
		}
	}
}

func TestOutcomeIsSafeForManyReaders(t *testing.T) {
	o := simulate(t, measure.Simulation{Inputs: four(t, measure.Normal, 1), Model: value, Trials: 20_000, Keep: true})
	want, _ := o.Quantile(0.3)
	var wait sync.WaitGroup
	for i := range 8 {
		wait.Add(1)
		go func() {
			defer wait.Done()
			for j := range 50 {
				if x, _ := o.Quantile(0.3); x != want {
					t.Errorf("quantile moved to %v", x)
				}
				_, _ = o.Quantile(float64(i*50+j+1) / 402)
				_ = o.CDF(want)
			}
		}()
	}
	wait.Wait()
}

// Deciding on a simulated distribution agrees with deciding on the curve it has.
func TestDecideOnOutcome(t *testing.T) {
	r := uncertain(t, "x", 50, 3, measure.Rectangular, 0)
	for _, keep := range []bool{false, true} {
		o := simulate(t, measure.Simulation{Inputs: []measure.Input{{Of: r}}, Model: value, Keep: keep, Trials: 1 << 16})
		got, err := measure.DecideOn(measure.Between(40, 60), o, 0.05)
		if err != nil {
			t.Fatal(err)
		}
		want, err := measure.DecideOn(measure.Between(40, 60), curve(t, r, measure.Rectangular), 0.05)
		if err != nil {
			t.Fatal(err)
		}
		if got.Verdict != want.Verdict {
			t.Errorf("verdict %v, want %v", got.Verdict, want.Verdict)
		}
		near(t, "accept low", got.AcceptLow, want.AcceptLow, 0.1)
		near(t, "accept high", got.AcceptHigh, want.AcceptHigh, 0.1)
	}
}

func normalOutcome() *measure.Outcome {
	a, _ := measure.NewCause("a", "", measure.Normal, 0)
	x, _ := measure.New(10, measure.Term{Cause: a, Scale: 0.5})
	o, _ := measure.Simulate(context.Background(), measure.Simulation{
		Inputs: []measure.Input{{Name: "x", Of: x}},
		Model:  func(x []float64) float64 { return x[0] },
		Trials: 200_000, Seed: 1, Workers: 2,
	})
	return o
}

func ExampleSimulate() {
	a, _ := measure.NewCause("a", "", measure.Rectangular, 0)
	x, _ := measure.New(0, measure.Term{Cause: a, Scale: 1 / math.Sqrt(3)}) // -1 to 1, all alike
	o, err := measure.Simulate(context.Background(), measure.Simulation{
		Inputs: []measure.Input{{Name: "x", Of: x}},
		Model:  func(x []float64) float64 { return x[0] * x[0] },
		Trials: 200_000, Seed: 1, Workers: 2,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	median, _ := o.Quantile(0.5)
	fmt.Printf("mean %.2f, median %.2f\n", o.Mean(), median) // 1/3 and 1/4
	// Output: mean 0.33, median 0.25
}

func ExampleOutcome_Mean() {
	fmt.Printf("%.1f\n", normalOutcome().Mean())
	// Output: 10.0
}

func ExampleOutcome_U() {
	fmt.Printf("%.2f\n", normalOutcome().U())
	// Output: 0.50
}

func ExampleOutcome_Trials() {
	fmt.Println(normalOutcome().Trials())
	// Output: 200000
}

func ExampleOutcome_Range() {
	least, most := normalOutcome().Range()
	fmt.Println(least > 7, most < 13)
	// Output: true true
}

func ExampleOutcome_Quantile() {
	q, _ := normalOutcome().Quantile(0.975)
	fmt.Printf("%.1f\n", q) // 10 + 1.96·0.5
	// Output: 11.0
}

func ExampleOutcome_Interval() {
	i, _ := normalOutcome().Interval(0.95)
	fmt.Printf("%.1f to %.1f\n", i.Low, i.High)
	// Output: 9.0 to 11.0
}

func ExampleInterval_Width() {
	fmt.Println(measure.Interval{Low: 9, High: 11, Coverage: 0.95}.Width())
	// Output: 2
}

func ExampleOutcome_Shortest() {
	o, _ := measure.Simulate(context.Background(), measure.Simulation{
		Draws:  []func(*measure.Stream) float64{func(s *measure.Stream) float64 { return 1 - math.Sqrt(s.Uniform()) }},
		Model:  func(x []float64) float64 { return x[0] }, // likeliest at 0, never above 1
		Trials: 200_000, Seed: 1,
	})
	i, _ := o.Shortest(0.75)
	fmt.Printf("%.1f to %.1f\n", i.Low, i.High)
	// Output: 0.0 to 0.5
}

func ExampleOutcome_CDF() {
	fmt.Printf("%.2f\n", normalOutcome().CDF(10.5))
	// Output: 0.84
}

func ExampleOutcome_StandardError() {
	se, _ := normalOutcome().StandardError(0.5)
	fmt.Printf("%.4f\n", se) // √(π/2)·0.5/√200000
	// Output: 0.0014
}

func ExampleOutcome_Resolution() {
	within, _ := normalOutcome().Resolution(0.5)
	fmt.Println(within < 0.001*0.5)
	// Output: true
}

// Width by hand: 3 - 1; what is no finite number is the largest there is.
func TestIntervalWidth(t *testing.T) {
	for _, c := range []struct{ low, high, want float64 }{
		{1, 3, 2}, {-math.MaxFloat64, math.MaxFloat64, units.Huge}, {math.NaN(), 1, units.Huge}, {0, math.Inf(1), units.Huge},
	} {
		if got := (measure.Interval{Low: c.low, High: c.high}).Width(); got != c.want {
			t.Errorf("%v to %v: %v, want %v", c.low, c.high, got, c.want)
		}
	}
}

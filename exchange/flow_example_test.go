package exchange_test

import (
	"fmt"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func ExampleRealCycles() {
	// Halving: an eighth is exactly three halvings, a tenth a bit more.
	n, _ := exchange.RealCycles(0.125, units.Litre.Of(8), units.Litre.Of(4))
	fmt.Printf("%.3f\n", n)
	n, err := exchange.RealCycles(0.1, units.Litre.Of(8), units.Litre.Of(4))
	fmt.Printf("%.3f %v\n", n, err) // log₂ 10
	// Output:
	// 3.000
	// 3.322 <nil>
}

func ExampleDrainFor() {
	// A quarter left after two drains: each must halve.
	d, err := exchange.DrainFor(0.25, units.Litre.Of(8), 2)
	fmt.Println(d.Text(units.Litre, 3), err)
	// Output: 4.000 L <nil>
}

func ExampleCapacityFor() {
	// Two drains of 4 L leave a quarter of 8 L at most.
	c, err := exchange.CapacityFor(0.25, units.Litre.Of(4), 2)
	fmt.Println(c.Text(units.Litre, 3), err)
	// Output: 8.000 L <nil>
}

func ExampleLongRunFactor() {
	// No mixing: the sump clears by halves, the rest never; all mixed: 2 of 8 L.
	box := exchange.System{Capacity: units.Litre.Of(8), Sump: units.Litre.Of(4)}
	for _, box.Mixing = range []float64{0, 1} {
		f, err := exchange.LongRunFactor(box, units.Litre.Of(2))
		fmt.Println(f.PerCycle, f.Fading, err)
	}
	// Output:
	// 1 0.5 <nil>
	// 0.75 0 <nil>
}

func ExampleMixingRun_Share() {
	// 1 L a minute for 2 minutes between 4 L and 4 L: 1 - exp(-2 × (1/4 + 1/4)).
	m, err := exchange.MixingRun{
		Flow: units.Litre.Of(1), Minutes: 2, Sump: units.Litre.Of(4), Held: units.Litre.Of(4),
	}.Share()
	fmt.Printf("%.4f %v\n", m, err)
	// Output: 0.6321 <nil>
}

func ExampleMixingRun_Steps() {
	s, err := exchange.MixingRun{
		Flow: units.Litre.Of(1), Minutes: 2, Sump: units.Litre.Of(4), Held: units.Litre.Of(4),
	}.Steps()
	fmt.Print(s.Text(), err)
	// Output:
	// turnovers a minute = q(1/S + 1/H) = 1.000 L/min × (1/4.000 L + 1/4.000 L) = 0.5000
	// turnovers = q·t(1/S + 1/H) = 0.5000 × 2 min = 1.0000
	// share closed = m = 1 - exp(-turnovers) = 1 - exp(-1.0000) = 0.6321
	// <nil>
}

func ExampleWhatIf() {
	// The first drain finds 5 L in the sump, the second, after running, 4 L.
	box := exchange.System{Capacity: units.Litre.Of(8), Sump: units.Litre.Of(4), Mixing: 1}
	t, err := exchange.WhatIf(box, []exchange.Pass{
		{Drain: units.Litre.Of(2), Sump: units.Litre.Of(5)},
		{Drain: units.Litre.Of(2)},
	})
	for _, row := range t.Rows {
		fmt.Println(row.Pass, row.Drained, row.Share)
	}
	fmt.Println(t.Bounds, t.Caveats[0], err) // without mixing: 4.8 L of 0.6 and more
	// Output:
	// 1 1 0.75
	// 2 0.75 0.5625
	// 56.2 to 60.0 % drained-sample-flatters <nil>
}

func ExampleThroughFlow_Flush() {
	// As much new fluid as the box holds.
	f := exchange.ThroughFlow{Capacity: units.Litre.Of(8), Volume: units.Litre.Of(8)}
	r, err := f.Flush()
	fmt.Println(f.Flow, r.Share, err)
	f.Flow = exchange.FlowMixed
	r, _ = f.Flush()
	fmt.Printf("%v %.4f %v\n", f.Flow, r.Share.High, r.Caveats[0]) // exp(-1)
	f.Flow, f.Tanks = exchange.FlowTanks, 2
	r, _ = f.Flush()
	fmt.Printf("%v %.4f, leaving %.4f\n", f.Flow, r.Share.High, r.Outlet.High) // 2·exp(-2), 3·exp(-2)
	// Output:
	// unknown 0.0 to 36.8 % <nil>
	// mixed 0.3679 clean-outlet-proves-nothing
	// tanks 0.2707, leaving 0.4060
}

func ExampleThroughFlow_VolumeTo() {
	f := exchange.ThroughFlow{Capacity: units.Litre.Of(8), Flow: exchange.FlowPlug}
	v, err := f.VolumeTo(0.25)
	fmt.Println(v, err) // three quarters of 8 L
	f.Flow = exchange.FlowMixed
	v, _ = f.VolumeTo(0.25)
	fmt.Println(v.Text(units.Litre, 3)) // 8 × ln 4
	// Output:
	// 6 L <nil>
	// 11.090 L
}

func ExampleFlow_String() {
	fmt.Println(exchange.FlowUnknown, exchange.FlowPlug)
	// Output: unknown plug
}

func ExampleCombine() {
	// Two drains of a quarter, then a flush of half the capacity whose flow is
	// not known: between 1 - 1/2 and exp(-1/2) of 0.5625.
	c, err := exchange.Combine(exchange.System{Capacity: units.Litre.Of(8)}, []exchange.Stage{
		{Drain: units.Litre.Of(2)}, {Drain: units.Litre.Of(2)}, {Flush: units.Litre.Of(4)},
	})
	for _, row := range c.Rows {
		fmt.Println(row.Stage, row.Share)
	}
	fmt.Println(c.Fluid, err)
	// Output:
	// 1 75.0 %
	// 2 56.2 %
	// 3 28.1 to 34.1 %
	// 8 L <nil>
}

func ExampleSamplesReading() {
	// Each share is read on one colour scale, good to 0.05: after two drains of 2 L
	// from 10 L it counts 0.05 × (2 + 2)/10 = 0.02, and does not average out.
	scale, _ := measure.NewCause("colour-scale", "the colour scale", measure.Normal, 0)
	sample := func(share float64) exchange.MeasuredSample {
		r, _ := measure.New(share, measure.Term{Cause: scale, Scale: 0.05})
		return exchange.MeasuredSample{Volume: measure.MeasuredExactly(units.Litre.Of(2)), OldShare: r}
	}
	r, err := exchange.SamplesReading(litres(10, 10), []exchange.MeasuredSample{sample(1), sample(0.8)})
	fmt.Printf("%.3f ± %.3f %v\n", r.Value(), r.U(), err)
	// Output: 0.640 ± 0.020 <nil>
}

func ExampleFromSamples() {
	// Of 10 L, 2 L of old and 2 L of half-old fluid came out: 7 L of old are left.
	b, err := exchange.FromSamples(units.Exactly(units.Litre.Of(10)), []exchange.DrainedSample{
		{Volume: units.Litre.Of(2), OldShare: 1},
		{Volume: units.Litre.Of(2), OldShare: 0.5},
	})
	fmt.Println(b.Share, "although the last sample showed", b.LastSeen, err)
	fmt.Println(b.Caveats[0].Sentence())
	// Output:
	// 70.0 % although the last sample showed 0.5 <nil>
	// A drained sample is never older than the fluid in the box: a clean last drain is no proof of a clean box.
}

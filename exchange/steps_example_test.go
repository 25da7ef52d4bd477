package exchange_test

import (
	"fmt"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
)

func ExampleCyclesSteps() {
	// A fifth comes out each time; half old fluid is wanted.
	s, err := exchange.CyclesSteps(0.5, units.Litre.Of(10), units.Litre.Of(2))
	fmt.Print(s.Text(), err)
	// Output:
	// factor of one cycle = 1 - d/C = 1 - 2.000 L / 10.000 L = 0.8000
	// cycles, whole or not = ln(target)/ln(1 - d/C) = ln(0.5000)/ln(0.8000) = 3.106
	// old share after 3 = (1 - d/C)^n = 0.8000^3 = 0.5120 against 0.5000
	// old share after 4 = (1 - d/C)^n = 0.8000^4 = 0.4096 against 0.5000
	// cycles = fewest whole number that meets the target = 4
	// <nil>
}

func ExampleBoundsSteps() {
	d := units.Litre.Of(2)
	s, err := exchange.BoundsSteps(units.Litre.Of(8), units.Litre.Of(4), []units.Volume{d, d})
	fmt.Print(s.Text(), err)
	// Output:
	// lowest, every run mixes fully = Π(1 - d/C) = (1 - 2.000 L / 8.000 L)^2 = 0.5625
	// held back = H = C - S = 8.000 L - 4.000 L = 4.000 L
	// sump, nothing mixed into it = Π(1 - d/S) = (1 - 2.000 L / 4.000 L)^2 = 0.2500
	// highest, the gears never mix = H/C + (S/C)·Π(1 - d/S) = 4.000 L / 8.000 L + 4.000 L / 8.000 L × 0.2500 = 0.6250
	// <nil>
}

func ExampleLosses_Steps() {
	ml := units.Millilitre.Of
	s, err := exchange.Losses{KeptOnce: ml(250), KeptEachTime: ml(20), FilmEachTime: ml(20)}.Steps(units.Litre.Of(2), 3)
	fmt.Print(s.Text(), err)
	// Output:
	// lost at each swap = kept + film = 0.020 L + 0.020 L = 0.040 L
	// box low after all swaps, if as much is poured as was drained = n × lost = 3 × 0.040 L = 0.120 L
	// each swap acts as a drain of = d - returned = 2.000 L - 0.000 L = 2.000 L
	// to pour in all, level = n·d + n × lost + kept once = 3 × 2.000 L + 0.120 L + 0.250 L = 6.370 L
	// <nil>
}

func ExampleDrainForSteps() {
	s, err := exchange.DrainForSteps(0.25, units.Litre.Of(8), 2)
	fmt.Print(s.Text(), err)
	// Output:
	// share each drain must take = t = 1 - target^(1/n) = 1 - 0.2500^(1/2) = 0.5000
	// drain = C·t = 8.000 L × 0.5000 = 4.000 L
	// <nil>
}

func ExampleCapacityForSteps() {
	s, err := exchange.CapacityForSteps(0.25, units.Litre.Of(3), 2)
	fmt.Print(s.Text(), err)
	// Output:
	// share each drain must take = t = 1 - target^(1/n) = 1 - 0.2500^(1/2) = 0.5000
	// largest capacity = d/t = 3.000 L / 0.5000 = 6.000 L
	// <nil>
}

func ExampleThroughFlow_VolumeToSteps() {
	s, err := exchange.ThroughFlow{Capacity: units.Litre.Of(10), Flow: exchange.FlowPlug}.VolumeToSteps(0.25)
	fmt.Print(s.Text(), err)
	// Output:
	// capacities to pass = θ = 1 - target = 1 - 0.2500 = 0.7500
	// volume to pass = θ·C = 0.7500 × 10.000 L = 7.500 L
	// <nil>
}

func ExampleSchedule_FromNewSteps() {
	s := exchange.Schedule{Unit: "mi", Services: []exchange.Service{{After: 30000, Drains: []float64{0.2}}}}
	w, err := s.FromNewSteps(1)
	fmt.Print(w.Text(), err)
	// Output:
	// mean age before service 1 = m + L = 0 + 30000 = 30000 mi
	// mean age after service 1 = m(1 - r) = 30000 × (1 - 0.2) = 24000 mi
	// <nil>
}

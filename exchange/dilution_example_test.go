package exchange_test

import (
	"fmt"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
)

func ExampleRemaining() {
	// A quarter of the fluid comes out each time: 0.75 × 0.75 × 0.75.
	box := exchange.System{Capacity: units.Litre.Of(8)}
	d := units.Litre.Of(2)
	share, err := exchange.Remaining(box, []units.Volume{d, d, d})
	fmt.Println(share, err)

	// A sump of 4 L and gears that close half the difference: after the first
	// exchange the sump is half old, after running it is 0.5 + 0.5 × (0.75 - 0.5)
	// and the fluid held back 0.875; the second drain halves the sump again.
	box.Sump, box.Mixing = units.Litre.Of(4), 0.5
	share, err = exchange.Remaining(box, []units.Volume{d, d})
	fmt.Println(share, err)
	// Output:
	// 0.421875 <nil>
	// 0.59375 <nil>
}

func ExampleRemainingSteps() {
	d := units.Litre.Of(2)
	s, err := exchange.RemainingSteps(exchange.System{Capacity: units.Litre.Of(8)}, []units.Volume{d, d})
	fmt.Print(s.Text(), err)
	// Output:
	// old share after drain 1 = x·(1 - d/C) = 1.0000 × (1 - 2.000 L / 8.000 L) = 0.7500
	// old share after drain 2 = x·(1 - d/C) = 0.7500 × (1 - 2.000 L / 8.000 L) = 0.5625
	// old share left = 0.5625
	// <nil>
}

func ExampleRemainingRange() {
	capacity, _ := units.NewRange(units.Litre.Of(8), units.Litre.Of(10))
	drain, _ := units.NewRange(units.Litre.Of(2), units.Litre.Of(2))
	share, err := exchange.RemainingRange(capacity, []units.Range[units.VolumeDim]{drain, drain})
	fmt.Println(share, err) // 0.75² to 0.8²
	// Output: 56.2 to 64.0 % <nil>
}

func ExampleShare_String() {
	fmt.Println(exchange.Share{Low: 0.25, High: 0.375})
	fmt.Println(exchange.Share{Low: 0.5, High: 0.5})
	// Output:
	// 25.0 to 37.5 %
	// 50.0 %
}

func ExampleBounds() {
	d := units.Litre.Of(2)
	// Well mixed 0.75²; nothing mixed 4/8 + 4/8 × 0.5².
	fmt.Println(exchange.Bounds(units.Litre.Of(8), units.Litre.Of(4), []units.Volume{d, d}))
	// Sump not known: for sure only one drain of 2 L out of 8 L has gone.
	fmt.Println(exchange.Bounds(units.Litre.Of(8), units.Volume{}, []units.Volume{d, d}))
	// Output:
	// 56.2 to 62.5 % <nil>
	// 56.2 to 75.0 % <nil>
}

func ExampleSystem_Check() {
	fmt.Println(exchange.System{Capacity: units.Litre.Of(8)}.Check())
	fmt.Println(exchange.System{Capacity: units.Litre.Of(8), Sump: units.Litre.Of(9)}.Check())
	// Output:
	// <nil>
	// sump 9 L; want 0 (not known) to the capacity, 8 L
}

func ExampleSystem_Held() {
	fmt.Println(exchange.System{Capacity: units.Litre.Of(8), Sump: units.Litre.Of(3)}.Held())
	// Output: 5 L
}

func ExampleStart() {
	st, err := exchange.Start(exchange.System{Capacity: units.Litre.Of(8)})
	fmt.Println(st.Contents(), st.OldShare(), err)
	// Output: 8 L 1 <nil>
}

func ExampleStartFrom() {
	// It came in a litre low, half old after an earlier service.
	st, err := exchange.StartFrom(exchange.Arrival{
		System:   exchange.System{Capacity: units.Litre.Of(8)},
		Contents: units.Litre.Of(7),
		OldShare: 0.5,
	})
	fmt.Println(st.Contents(), st.OldShare(), err)
	// Output: 7 L 0.5 <nil>
}

// full8 is a full box of 8 L with a sump of 4 L.
func full8() exchange.State {
	st, err := exchange.Start(exchange.System{Capacity: units.Litre.Of(8), Sump: units.Litre.Of(4)})
	if err != nil {
		fmt.Println(err)
	}
	return st
}

func ExampleState_Drain() {
	st, err := full8().Drain(units.Litre.Of(2))
	fmt.Println(st.Contents(), err)
	st, err = st.Drain(units.Litre.Of(3)) // only 2 L stand above the plug now
	fmt.Println(st.Contents(), err)
	// Output:
	// 6 L <nil>
	// 6 L exchange: drain: 3 L; want 0 to the contents of the sump, 2 L
}

func ExampleState_Refill() {
	st, _ := full8().Drain(units.Litre.Of(2))
	st, err := st.Refill(units.Litre.Of(2), 0)
	fmt.Println(st.Contents(), st.OldShare(), err) // 6 of 8 L are old
	_, err = st.Refill(units.Litre.Of(1), 2)
	fmt.Println(err)
	// Output:
	// 8 L 0.75 <nil>
	// exchange: refill: old share 2; want 0 to 1
}

func ExampleState_Mix() {
	st, _ := full8().Drain(units.Litre.Of(2))
	st, _ = st.Refill(units.Litre.Of(2), 0)
	mixed, err := st.Mix(0.5)
	fmt.Println(st.DrainShare(), st.HeldShare(), "before, mean", st.OldShare())
	fmt.Println(mixed.DrainShare(), mixed.HeldShare(), "after, mean", mixed.OldShare(), err)
	// Output:
	// 0.5 1 before, mean 0.75
	// 0.625 0.875 after, mean 0.75 <nil>
}

func ExampleState_Settle() {
	// Overnight 4 L of all-old fluid run back on top of 4 L that are half old.
	st, _ := full8().Drain(units.Litre.Of(2))
	st, _ = st.Refill(units.Litre.Of(2), 0)
	st, err := st.Settle(units.Litre.Of(8))
	fmt.Println(st.SumpContents(), st.DrainShare(), st.OldShare(), err)
	// Output: 8 L 0.75 0.75 <nil>
}

func ExampleState_OldShare() {
	st, _ := full8().Drain(units.Litre.Of(4))
	st, _ = st.Refill(units.Litre.Of(4), 0)
	fmt.Println(st.OldShare()) // 4 of 8 L
	// Output: 0.5
}

func ExampleState_Contents() {
	st, _ := full8().Drain(units.Litre.Of(2.5))
	fmt.Println(st.Contents())
	// Output: 5.5 L
}

func ExampleState_System() {
	fmt.Println(full8().System().Capacity)
	// Output: 8 L
}

func ExampleState_DrainShare() {
	st, _ := full8().Drain(units.Litre.Of(4))
	st, _ = st.Refill(units.Litre.Of(4), 0)
	// The plug would run clean, yet half of the fluid is old.
	fmt.Println(st.DrainShare(), st.OldShare())
	// Output: 0 0.5
}

func ExampleState_HeldShare() {
	st, _ := full8().Drain(units.Litre.Of(4))
	st, _ = st.Refill(units.Litre.Of(4), 0)
	fmt.Println(st.HeldShare())
	// Output: 1
}

func ExampleState_SumpContents() {
	st, _ := full8().Drain(units.Litre.Of(1))
	fmt.Println(st.SumpContents())
	// Output: 3 L
}

func ExampleCycles() {
	// Half comes out each time: 80 -> 40 -> 20 ppm.
	n, err := exchange.Cycles(20.0/80, units.Litre.Of(8), units.Litre.Of(4))
	fmt.Println(n, err)
	// Output: 2 <nil>
}

func ExampleCyclesRange() {
	capacity, _ := units.NewRange(units.Litre.Of(8), units.Litre.Of(10))
	drain, _ := units.NewRange(units.Litre.Of(2), units.Litre.Of(4))
	// At best halves: 0.5, 0.25. At worst 0.8, 0.64, 0.512, 0.4096, 0.32768.
	fmt.Println(exchange.CyclesRange(0.4, capacity, drain))
	// Output: 2 5 <nil>
}

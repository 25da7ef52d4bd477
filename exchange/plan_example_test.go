package exchange_test

import (
	"fmt"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

// litres is a range of volumes in litres.
func litres(low, high float64) units.Range[units.VolumeDim] {
	r, err := units.NewRange(units.Litre.Of(low), units.Litre.Of(high))
	if err != nil {
		fmt.Println(err)
	}
	return r
}

func ExamplePlan() {
	p, err := exchange.Plan(exchange.Request{
		Capacity:       litres(8, 10), // the handbook gives a range
		Drain:          litres(2, 2),
		Target:         0.5,
		KeptOnce:       units.Litre.Of(0.3), // in the pump
		FinalAllowance: units.Litre.Of(0.5), // for the level check
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	// At best 0.75, 0.5625, 0.42; at worst 0.8, 0.64, 0.512, 0.4096.
	fmt.Println(p.Cycles.Low, "to", p.Cycles.High, "cycles;", p.Outcome)
	for _, row := range p.Rows[:p.Cycles.Chosen] {
		fmt.Printf("%d: %s, gains %.3f, fluid %s\n", row.Cycle, row.Share, row.Gain, row.Fluid.Text(units.Litre, 1))
	}
	fmt.Println(p.Fluid.Refills, "+", p.Fluid.KeptOnce, "+", p.Fluid.FinalAllowance, "=", p.Fluid.Total)
	// Output:
	// 3 to 4 cycles; met if mixed
	// 1: 75.0 to 80.0 %, gains 0.200, fluid 2.8 L
	// 2: 56.2 to 64.0 %, gains 0.160, fluid 4.8 L
	// 3: 42.2 to 51.2 %, gains 0.128, fluid 6.8 L
	// 4: 31.6 to 41.0 %, gains 0.102, fluid 8.8 L
	// 8 L + 0.3 L + 0.5 L = 8.8 L
}

func ExampleProposal_Advice() {
	r := exchange.Request{Capacity: litres(10, 10), Drain: litres(4, 4), Sump: units.Litre.Of(5), Target: 0.4}
	p, _ := exchange.Plan(r)
	fmt.Println(p.Advice()) // 0.6, 0.36; without mixing 0.5 + 0.5 × 0.2²
	r.Purpose = exchange.ChangeClass
	p, _ = exchange.Plan(r)
	fmt.Println(p.Advice())
	// Output:
	// 2 cycles leave 36.0 % old fluid, if the gears mix it fully. Have 8.00 L ready. If the gears never mixed, it could be 52.0 %.
	// The target cannot be met by draining: best is 50.0 % after 12 cycles. It would be met if the gears were sure to mix; if not, no number of drains is sure to go below 50.0 %.
}

func ExampleOutcome_String() {
	fmt.Println(exchange.MetIfMixed)
	// Output: met if mixed
}

func ExampleOutcome_MarshalText() {
	text, err := exchange.NotMet.MarshalText()
	fmt.Println(string(text), err)
	// Output: not met <nil>
}

func ExampleBestUse() {
	r := exchange.Request{Capacity: litres(10, 10), Drain: litres(2, 2), Target: 0.6, KeptOnce: units.Litre.Of(1)}
	// Six bottles of a litre, one litre stays in the pump.
	u, err := exchange.BestUse(r, exchange.Supply{Bottle: units.Litre.Of(1), Bottles: 6, BottlePrice: decimal.New(9, 0)})
	fmt.Println(u.Worst.Full, "full drains and one of", u.Worst.Part, "for", u.Cost, err)
	fmt.Printf("%.3f, against %.3f with equal drains\n", u.Share.High, u.Evenly) // 0.8 × 0.8 × 0.9
	// Output:
	// 2 full drains and one of 1 L for 54 <nil>
	// 0.576, against 0.579 with equal drains
}

func ExampleCaveat_String() {
	fmt.Println(exchange.DrainedSampleFlatters)
	// Output: drained-sample-flatters
}

func ExampleCaveat_Sentence() {
	fmt.Println(exchange.CleanOutletProvesNothing.Sentence())
	// Output: What leaves a flushed system is not what remains in it: a clean outlet does not prove a clean system.
}

func ExampleCaveat_MarshalText() {
	text, err := exchange.RestsOnMixing.MarshalText()
	fmt.Println(string(text), err)
	// Output: rests-on-mixing <nil>
}

func ExampleLosses_Check() {
	fmt.Println(exchange.Losses{FilmEachTime: units.Millilitre.Of(20)}.Check())
	fmt.Println(exchange.Losses{FilmEachTime: units.Millilitre.Of(-20)}.Check())
	// Output:
	// <nil>
	// film each time: -0.02 L; want 0 to 100 L
}

func ExampleLosses_EachTime() {
	l := exchange.Losses{KeptEachTime: units.Millilitre.Of(30), FilmEachTime: units.Millilitre.Of(20)}
	fmt.Println(l.EachTime())
	// Output: 0.05 L
}

func ExampleLosses_Shortfall() {
	q := units.USQuart.Of
	low, err := exchange.Losses{KeptEachTime: q(0.02), FilmEachTime: q(0.02)}.Shortfall(4)
	fmt.Println(low.Text(units.USQuart, 2), err)
	// Output: 0.16 US qt <nil>
}

func ExampleLosses_Acting() {
	l := exchange.Losses{LineReturns: units.Litre.Of(0.3)}
	fmt.Println(l.Acting(units.Litre.Of(2.5)))
	// Output: 2.2 L <nil>
}

func ExampleState_Swap() {
	// 2 L come out, 0.1 L of them stay in the hose and go back with the refill;
	// 0.05 L of film never reach the jug.
	st, _ := exchange.Start(exchange.System{Capacity: units.Litre.Of(10)})
	st, err := st.Swap(units.Litre.Of(2), exchange.Losses{LineReturns: units.Litre.Of(0.1), FilmEachTime: units.Litre.Of(0.05)})
	fmt.Println(st.Contents(), err)
	fmt.Printf("%.4f\n", st.OldShare()) // (7.95 + 0.1) / 9.95
	// Output:
	// 9.95 L <nil>
	// 0.8090
}

func ExamplePurpose_String() {
	fmt.Println(exchange.Refresh, "/", exchange.ChangeClass)
	// Output: refresh / change of class
}

func ExamplePurpose_MarshalText() {
	text, err := exchange.ChangeClass.MarshalText()
	fmt.Println(string(text), err)
	// Output: change of class <nil>
}

func ExamplePurpose_UnmarshalText() {
	var p exchange.Purpose
	err := p.UnmarshalText([]byte("change of class"))
	fmt.Println(p, err)
	// Output: change of class <nil>
}

package exchange_test

import (
	"fmt"
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
)

// oneDrain exchanges a fifth of the fluid every 30 000 miles.
func oneDrain() exchange.Schedule {
	return exchange.Schedule{Unit: "mi", Services: []exchange.Service{{After: 30000, Drains: []float64{0.2}}}}
}

// Three and five: a round of eight.
func ExampleSchedule_Round() {
	s := exchange.Schedule{Services: []exchange.Service{{After: 3}, {After: 5}}}
	fmt.Println(s.Round())
	// Output: 8
}

func ExampleSchedule_Check() {
	fmt.Println(oneDrain().Check())
	fmt.Println(exchange.Schedule{}.Check())
	// Output:
	// <nil>
	// exchange: schedule: 0 services; want 1 to 1000
}

// A fifth of the capacity every 30 000 miles: one capacity in 150 000.
func ExampleSchedule_Fluid() {
	f, err := oneDrain().Fluid()
	fmt.Printf("one capacity every %.0f mi %v\n", 1/f, err)
	// Output: one capacity every 150000 mi <nil>
}

func ExampleSchedule_Stretch() {
	s, err := oneDrain().Stretch(1.5)
	fmt.Println(s.Services[0].After, err)
	// Output: 45000 <nil>
}

// L = 30 000 and r = 1/5: just before service L/r = 150 000, just after a fifth
// of that is gone.
func ExampleSchedule_Steady() {
	a, err := oneDrain().Steady()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("just before %.0f, just after %.0f, on average %.0f\n", a.Highest, a.Lowest, a.Mean)
	fmt.Print(a.Steps.Text())
	// Output:
	// just before 150000, just after 120000, on average 135000
	// new share of service 1 = 1 - Π(1 - d/C) = 1 - (1 - 0.2) = 0.2
	// mean age just after service = L(1 - r)/r = 30000 × (1 - 0.2)/0.2 = 120000 mi
	// mean age just before service = L/r = 30000/0.2 = 150000 mi
	// mean age over the interval = L(1/r - 1/2) = 30000 × (1/0.2 - 1/2) = 135000 mi
}

// 30 000 old at the first service, 0.8 of that just after it; 54 000 and 43 200
// at the second, where 0.64 of the first fill is left.
func ExampleSchedule_FromNew() {
	stages, err := oneDrain().FromNew(2)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, v := range stages {
		fmt.Printf("%.0f: %.0f before, %.0f after, %.2f of the first fill\n", v.At, v.Before.Mean, v.After.Mean, v.FirstFill)
	}
	// Output:
	// 30000: 30000 before, 24000 after, 0.80 of the first fill
	// 60000: 54000 before, 43200 after, 0.64 of the first fill
}

// 0.8^10 is 0.107, 0.8^11 is 0.086: eleven services, 330 000 miles, to within a
// tenth.
func ExampleSchedule_Settled() {
	n, err := oneDrain().Settled(0.1)
	fmt.Println(n, err)
	// Output: 11 <nil>
}

// Just after a service, fluid that is 60 000 or more old has lived through the
// last two services: 0.8 × 0.8. Just before, only through one.
func ExampleSchedule_AtLeast() {
	old, err := oneDrain().AtLeast(60000)
	fmt.Printf("%.2f of the fluid just after service, %.2f just before %v\n", old.After[0], old.Before[0], err)
	// Output: 0.64 of the fluid just after service, 0.80 just before <nil>
}

// Four drains at once against the same four spread out.
func ExampleCompareSchedules() {
	bunched := exchange.Schedule{Unit: "mi", Services: []exchange.Service{{After: 60000, Drains: []float64{0.2, 0.2, 0.2, 0.2}}}}
	spread := exchange.Schedule{Unit: "mi", Services: []exchange.Service{{After: 15000, Drains: []float64{0.2}}}}
	c, err := exchange.CompareSchedules(bunched, spread)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("equal fluid:", c.EqualFluid)
	for _, r := range c.Rows {
		fmt.Printf("%.0f %.0f %s\n", r.First, r.Second, r.Younger)
	}
	// Output:
	// equal fluid: true
	// 41626 60000 first
	// 71626 67500 second
	// 101626 75000 second
}

func ExampleScheduleComparison_Text() {
	large := exchange.Schedule{Services: []exchange.Service{{After: 2, Drains: []float64{0.5}}}}
	small := exchange.Schedule{Services: []exchange.Service{{After: 1, Drains: []float64{0.25}}}}
	c, err := exchange.CompareSchedules(large, small)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(c.Text())
	// Output:
	// both use 0.5 capacities of new fluid every 2 units of length
	// mean age at its lowest, just after a service: 2 against 3, younger: first
	// mean age, averaged over the round: 3 against 3.5, younger: first
	// mean age at its highest, just before a service: 4 against 4, younger: neither
}

func ExampleDistanceRound_Schedule() {
	s, err := exchange.DistanceRound{
		Capacity: units.Litre.Of(10),
		Services: []exchange.DistanceService{{After: units.Kilometre.Of(50000), Drains: []units.Volume{units.Litre.Of(2.5)}}},
		Leak:     units.Litre.Of(0.1), LeakOver: units.Kilometre.Of(1000),
	}.Schedule()
	fmt.Println(s.Services[0].After, s.Services[0].Drains, s.TopUp, s.Unit, err)
	// Output: 50000 [0.25] 1e-05 km <nil>
}

func ExampleTimeRound_Schedule() {
	s, err := exchange.TimeRound{
		Capacity: units.Litre.Of(10),
		Services: []exchange.TimeService{{After: 365 * 24 * time.Hour, Drains: []units.Volume{units.Litre.Of(2.5)}}},
	}.Schedule()
	fmt.Println(s.Services[0].After, s.Unit, err)
	// Output: 365 days <nil>
}

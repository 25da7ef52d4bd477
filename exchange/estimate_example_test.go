package exchange_test

import (
	"fmt"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
)

// The dye falls by a fifth with every 2 L: 2/C = 1/5, so C = 10 L.
func ExampleEstimateCapacity() {
	two := units.Litre.Of(2)
	e, err := exchange.EstimateCapacity(exchange.Markers{
		Readings: []float64{100, 80, 64, 51.2},
		Drains:   []units.Volume{two, two, two, two},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(e.Capacity.Text(units.Litre, 3), e.Straightness)
	// Output: 10.000 L straight
}

// Two readings of 100 and 50 around a drain of 5 L say 10 L; with an error of
// 10 % each the capacity carries that doubt on as a cause of its own.
func ExampleCapacityEstimate_Measured() {
	five := units.Litre.Of(5)
	e, err := exchange.EstimateCapacity(exchange.Markers{
		Readings: []float64{100, 50}, Drains: []units.Volume{five, five}, ReadingU: 0.1,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	v, err := e.Measured("capacity/tern-6")
	// u(step) = 0.1·√2 and dC/C = u·(1/2)/(1/2): 14.1 % of 10 L.
	fmt.Println(v.Best().Text(units.Litre, 2), "±", v.U().Text(units.Litre, 2), err)
	// Output: 10.00 L ± 1.41 L <nil>
}

func ExampleUnsettledError_Error() {
	two := units.Litre.Of(2)
	_, err := exchange.EstimateCapacity(exchange.Markers{
		Readings: []float64{80, 80, 80}, Drains: []units.Volume{two, two, two},
	})
	fmt.Println(err)
	// Output: exchange: estimate: the marker does not fall: step 0; want readings that fall from drain to drain
}

func ExampleStraightness_String() {
	fmt.Println(exchange.StepsShrink)
	// Output: steps shrink
}

func ExampleStraightness_MarshalText() {
	text, err := exchange.Straight.MarshalText()
	fmt.Println(string(text), err)
	// Output: straight <nil>
}

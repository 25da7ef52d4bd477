package exchange_test

import (
	"fmt"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// two2 is two drains of 2 L read without doubt from a box of 8 to 12 L.
func two2() exchange.MeasuredService {
	d := measure.MeasuredExactly(units.Litre.Of(2))
	return exchange.MeasuredService{Capacity: litres(8, 12), Drains: []measure.Volume{d, d}}
}

func ExampleMeasuredService_Interval() {
	s := two2()
	s.Coverage = 0.5 // the middle half of the capacities: 9 to 11 L
	r, err := s.Interval()
	fmt.Printf("%.4f, %.4f to %.4f by %v %v\n", r.Best, r.Low, r.High, r.Method, err) // 0.8², (7/9)², (9/11)²

	// The same drains read in one jug, each with a doubt of 0.05 L: small beside
	// that of the capacity, and in the middle of the range it widens nothing.
	jug, _ := measure.NewCause("jug-a/scale", "scale of jug A", measure.Normal, 0)
	for i := range s.Drains {
		s.Drains[i], _ = measure.NewMeasured(units.Litre.Of(2), measure.Term{Cause: jug, Scale: 0.05})
	}
	r, err = s.Interval()
	fmt.Printf("%.4f to %.4f by %v; %v %v\n", r.Low, r.High, r.Method, r.Caveats[0], err)
	// Output:
	// 0.6400, 0.6049 to 0.6694 by definition <nil>
	// 0.6049 to 0.6694 by quadrature; capacity-dominates <nil>
}

func ExampleMeasuredService_Chance() {
	// At most 0.64 = 0.8² is left if the box holds 10 L or less: half of 8 to 12.
	p, err := two2().Chance(0.64)
	fmt.Printf("%.3f %v\n", p, err)
	// Output: 0.500 <nil>
}

func ExampleMeasuredService_Reading() {
	// u of 8 to 12 L is 2/√3; the share moves by 2 × 0.64 × (2/10)/8 per litre.
	r, err := two2().Reading()
	fmt.Printf("%.4f ± %.4f %v\n", r.Value(), r.U(), err) // 0.032 × 1.1547
	// Output: 0.6400 ± 0.0370 <nil>
}

func ExampleMeasuredService_Budget() {
	s := two2()
	own, _ := measure.NewCause("look-1", "reading of the line", measure.Normal, 0)
	s.Drains[0], _ = measure.NewMeasured(units.Litre.Of(2), measure.Term{Cause: own, Scale: 0.1})
	b, err := s.Budget()
	for _, row := range b.Rows { // 0.0370² and (0.1 × 0.64/8)²
		fmt.Printf("%s %.1f %%\n", row.Quantity, 100*row.Share)
	}
	fmt.Println(err)
	// Output:
	// capacity 95.5 %
	// drain 1 4.5 %
	// <nil>
}

func ExampleIntervalMethod_String() {
	fmt.Println(exchange.ByQuadrature)
	// Output: quadrature
}

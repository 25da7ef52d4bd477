package units_test

import (
	"fmt"

	"example.com/meniscus/units"
)

// A drain of two and a half quarts out of a case that holds ten litres.
func Example() {
	drained, err := units.ParseVolume("2 1/2 qt")
	if err != nil {
		fmt.Println(err)
		return
	}
	capacity := units.Litre.Of(10)
	fmt.Println(drained.Text(units.Millilitre, 0))
	fmt.Printf("%.4f of the fluid is out\n", drained.Ratio(capacity))
	fmt.Println(capacity.Sub(drained).Text(units.Litre, 3), "is left")
	// Output:
	// 2366 mL
	// 0.2366 of the fluid is out
	// 7.634 L is left
}

func ExampleUnit_Of() {
	fmt.Println(units.USQuart.Of(2.5))
	fmt.Println(units.PoundForceInch.Of(12) == units.PoundForceFoot.Of(1))
	fmt.Println(units.Litre.Of(1e6)) // no jug holds a million litres
	// Output:
	// 2.365882365 L
	// true
	// out of range
}

func ExampleUnit_TryOf() {
	_, err := units.Litre.TryOf(1e6)
	fmt.Println(err)
	// Output: units: 1e+06 L is out of range; want at most about 92234 L either way
}

func ExampleUnit_String() {
	fmt.Println(units.USQuart, units.ImperialQuart, units.PoundForceFoot)
	// Output: US qt imp qt lbf·ft
}

func ExampleQuantity_In() {
	fmt.Println(units.USGallon.Of(1).In(units.CubicInch))
	fmt.Println(units.USFluidOunce.Of(2.55).In(units.USFluidOunce))
	// Output:
	// 231
	// 2.55
}

func ExampleQuantity_Text() {
	t := units.NewtonMetre.Of(35)
	fmt.Println(t.Text(units.NewtonMetre, 0), "=", t.Text(units.PoundForceFoot, 1))
	// Output: 35 N·m = 25.8 lbf·ft
}

func ExampleQuantity_String() {
	fmt.Println(units.USPint.Of(1), units.Inch.Of(0.625), units.Pound.Of(1), units.FahrenheitDegree.Of(1))
	// Output: 0.473176473 L 15.875 mm 453.59237 g 1 °F
}

func ExampleQuantity_Add() {
	// Three drains of 0.1 L are 0.3 L, which floats deny.
	d := units.Litre.Of(0.1)
	fmt.Println(d.Add(d).Add(d) == units.Litre.Of(0.3))
	// Output: true
}

func ExampleQuantity_Sub() {
	fmt.Println(units.Litre.Of(2.4).Sub(units.Millilitre.Of(150)))
	// Output: 2.25 L
}

func ExampleQuantity_Neg() {
	fmt.Println(units.Millilitre.Of(150).Neg())
	// Output: -0.15 L
}

func ExampleQuantity_Abs() {
	fmt.Println(units.Litre.Of(2).Sub(units.Litre.Of(2.25)).Abs())
	// Output: 0.25 L
}

func ExampleQuantity_Sign() {
	fmt.Println(units.Litre.Of(-2).Sign(), units.Litre.Of(0).Sign(), units.Litre.Of(2).Sign())
	// Output: -1 0 1
}

func ExampleQuantity_Scale() {
	fmt.Println(units.Litre.Of(2.5).Scale(4), units.Litre.Of(2.5).Scale(0.1))
	// Output: 10 L 0.25 L
}

func ExampleQuantity_Ratio() {
	fmt.Println(units.Litre.Of(2.5).Ratio(units.Litre.Of(10)))
	fmt.Println(units.Litre.Of(2.5).Ratio(units.Litre.Of(0)) == units.Huge)
	// Output:
	// 0.25
	// true
}

func ExampleQuantity_Compare() {
	// A quart is less than a litre by 53.647054 mL.
	fmt.Println(units.USQuart.Of(1).Compare(units.Litre.Of(1)))
	// Output: -1
}

func ExampleQuantity_Equal() {
	fmt.Println(units.USQuart.Of(4).Equal(units.USGallon.Of(1)))
	// Output: true
}

func ExampleQuantity_IsZero() {
	var v units.Volume
	fmt.Println(v.IsZero(), v)
	// Output: true 0 L
}

func ExampleQuantity_Valid() {
	most := units.Litre.Of(92_000)
	sum := most.Add(most)
	fmt.Println(sum.Valid(), sum, sum.Sub(most))
	// Output: false out of range out of range
}

func ExampleQuantity_Decimal() {
	d, err := units.USQuart.Of(2.5).Decimal(units.Litre, 2, units.Up)
	fmt.Println(d.StringFixed(2), err)
	// Output: 2.37 <nil>
}

func ExampleRounding_String() {
	var r units.Rounding
	fmt.Println(r)
	// Output: half even
}

func ExampleSum() {
	fmt.Println(units.Sum(units.Litre.Of(2.4), units.Litre.Of(2.35), units.Millilitre.Of(250)))
	// Output: 5 L
}

func ExampleMean() {
	m, err := units.Mean(units.Litre.Of(2.4), units.Litre.Of(2.5))
	fmt.Println(m, err)
	// Output: 2.45 L <nil>
}

func ExampleMin() {
	fmt.Println(units.Min(units.Litre.Of(1), units.USQuart.Of(1), units.ImperialQuart.Of(1)).Text(units.USQuart, 0))
	// Output: 1 US qt
}

func ExampleMax() {
	fmt.Println(units.Max(units.Litre.Of(1), units.USQuart.Of(1), units.ImperialQuart.Of(1)).Text(units.ImperialQuart, 0))
	// Output: 1 imp qt
}

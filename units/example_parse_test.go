package units_test

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
)

func ExampleParse() {
	v, err := units.Parse[units.VolumeDim]("2½ qt")
	fmt.Println(v, err)
	// Output: 2.365882365 L <nil>
}

func ExampleParseExplicit() {
	_, err := units.ParseExplicit[units.VolumeDim]("1 gal")
	var pe *units.ParseError
	if errors.As(err, &pe) {
		fmt.Println(pe.Reason)
	}
	// Output: "gal" may be US or imperial: write US gal or imp gal
}

func ExampleParseVolume() {
	for _, s := range []string{"2.5 L", "1/2 US pt", "1,250.5 mL", "2,5 L"} {
		v, err := units.ParseVolume(s)
		if err != nil {
			fmt.Println("refused:", s)
			continue
		}
		fmt.Println(v)
	}
	// Output:
	// 2.5 L
	// 0.2365882365 L
	// 1.2505 L
	// refused: 2,5 L
}

func ExampleParseTorque() {
	a, _ := units.ParseTorque("312 in-lb")
	b, _ := units.ParseTorque("26 lbf·ft")
	fmt.Println(a == b)
	_, err := units.ParseTorque("26 ft")
	fmt.Println(err)
	// Output:
	// true
	// "26 ft": "ft" is a length, not a torque; want a number with N·m, lbf·ft, lbf·in, kgf·cm or kgf·m
}

func ExampleParseLength() {
	l, err := units.ParseLength("5/8 in")
	fmt.Println(l, err)
	// Output: 15.875 mm <nil>
}

func ExampleParseMass() {
	m, err := units.ParseMass("2.15 kg")
	fmt.Println(m, err)
	// Output: 2150 g <nil>
}

func ExampleParseDistance() {
	d, err := units.ParseDistance("100 mi")
	fmt.Println(d, err)
	// Output: 160.9344 km <nil>
}

func ExampleParseTemperature() {
	t, err := units.ParseTemperature("104 °F")
	fmt.Println(t, err)
	// Output: 40 °C <nil>
}

func ExampleParseTemperatureDelta() {
	d, err := units.ParseTemperatureDelta("9 °F")
	fmt.Println(d, err)
	// Output: 5 °C <nil>
}

func ExampleParseTemperatureRange() {
	low, high, err := units.ParseTemperatureRange("35 to 45 °C")
	fmt.Println(low, high, err)
	// Output: 35 °C 45 °C <nil>
}

func ExampleParseRange() {
	r, err := units.ParseRange[units.VolumeDim]("12-15 qt")
	fmt.Println(r.Text(units.USQuart, 0), err)
	// Output: 12 to 15 US qt <nil>
}

func ExampleParseExplicitRange() {
	_, err := units.ParseExplicitRange[units.VolumeDim]("12-15 qt")
	var pe *units.ParseError
	fmt.Println(errors.As(err, &pe) && pe.Token == "qt")
	// Output: true
}

func ExampleParseDensity() {
	d, err := units.ParseDensity("0.8675 kg/L")
	fmt.Println(d, err)
	// Output: 867.5 kg/m³ <nil>
}

func ExampleParseExplicitDensity() {
	_, err := units.ParseExplicitDensity("7.2 lb/gal")
	fmt.Println(err != nil)
	d, _ := units.ParseExplicitDensity("7.2 lb/US gal")
	fmt.Println(d)
	// Output:
	// true
	// 862.8 kg/m³
}

func ExampleParseError_Error() {
	_, err := units.ParseMass("2 qt")
	fmt.Println(err)
	// Output: "2 qt": "qt" is a volume, not a mass; want a number with g, kg, oz or lb
}

func ExampleParseError_Unwrap() {
	_, err := units.ParseTemperature("-300 °C")
	fmt.Println(errors.Is(err, units.ErrOutOfRange))
	// Output: true
}

package units_test

import (
	"fmt"

	"example.com/meniscus/units"
)

func ExampleCelsius() {
	fmt.Println(units.Celsius(40) == units.Fahrenheit(104), units.Celsius(-300))
	// Output: true out of range
}

func ExampleFahrenheit() {
	fmt.Println(units.Fahrenheit(104), units.Fahrenheit(97))
	// Output: 40 °C 97 °F
}

func ExampleTryCelsius() {
	_, err := units.TryCelsius(-300)
	fmt.Println(err)
	// Output: units: -300 °C is not a temperature: out of range; want a finite number at or above absolute zero (-273.15 °C, -459.67 °F)
}

func ExampleTryFahrenheit() {
	t, err := units.TryFahrenheit(212)
	fmt.Println(t, err)
	// Output: 100 °C <nil>
}

func ExampleMeanTemperature() {
	m, err := units.MeanTemperature(units.Celsius(39), units.Celsius(40), units.Celsius(44))
	fmt.Println(m, err)
	// Output: 41 °C <nil>
}

func ExampleTemperature_Celsius() {
	fmt.Println(units.Fahrenheit(104).Celsius())
	// Output: 40
}

func ExampleTemperature_Fahrenheit() {
	fmt.Println(units.Celsius(40).Fahrenheit())
	// Output: 104
}

func ExampleTemperature_Kelvin() {
	fmt.Println(units.Celsius(40).Kelvin())
	// Output: 313.15
}

func ExampleTemperature_Add() {
	fmt.Println(units.Celsius(20).Add(units.FahrenheitDegree.Of(36)))
	// Output: 40 °C
}

func ExampleTemperature_Sub() {
	fmt.Println(units.Celsius(40).Sub(units.Celsius(15)))
	// Output: 25 °C
}

func ExampleTemperature_Compare() {
	fmt.Println(units.Celsius(40).Compare(units.Fahrenheit(100))) // 100 °F is 37.8 °C
	// Output: 1
}

func ExampleTemperature_Equal() {
	fmt.Println(units.Celsius(-40).Equal(units.Fahrenheit(-40)))
	// Output: true
}

func ExampleTemperature_IsZero() {
	var forgotten units.Temperature
	fmt.Println(forgotten.IsZero(), units.Celsius(0).IsZero(), forgotten)
	// Output: true false -273.15 °C
}

func ExampleTemperature_Valid() {
	fmt.Println(units.Celsius(20).Valid(), units.Celsius(-274).Valid())
	// Output: true false
}

func ExampleTemperature_Text() {
	t := units.Fahrenheit(106)
	fmt.Println(t.Text(units.CelsiusScale, 1), "=", t.Text(units.FahrenheitScale, 0))
	// Output: 41.1 °C = 106 °F
}

func ExampleTemperature_String() {
	fmt.Println(units.Celsius(36.5), units.Fahrenheit(97))
	// Output: 36.5 °C 97 °F
}

func ExampleTemperature_AppendText() {
	b, err := units.Celsius(40).AppendText([]byte("pan "))
	fmt.Println(string(b), err)
	// Output: pan 40 °C <nil>
}

func ExampleTemperature_MarshalText() {
	b, err := units.Celsius(40).MarshalText()
	fmt.Println(string(b), err)
	// Output: 40 °C <nil>
}

func ExampleTemperature_UnmarshalText() {
	var t units.Temperature
	err := t.UnmarshalText([]byte("104 °F"))
	fmt.Println(t, err)
	// Output: 40 °C <nil>
}

func ExampleTemperature_UnmarshalJSON() {
	var t units.Temperature
	fmt.Println(t.UnmarshalJSON([]byte("40")))
	// Output: units: 40 in JSON is not a temperature; want a string with the unit, such as "36.5 °C"
}

func ExampleTemperature_Value() {
	v, err := units.Celsius(40).Value()
	fmt.Println(v, err)
	// Output: 40 °C <nil>
}

func ExampleTemperature_Scan() {
	var t units.Temperature
	err := t.Scan("40 °C")
	fmt.Println(t, err)
	// Output: 40 °C <nil>
}

func ExampleTemperature_GoString() {
	fmt.Printf("%#v\n", units.Celsius(40))
	// Output: units.Temperature("40 °C")
}

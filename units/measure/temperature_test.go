package measure_test

import (
	"fmt"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func TestTemperatureOutOfRange(t *testing.T) {
	bad := measure.TemperatureExactly(units.Celsius(-300))
	if bad.Valid() || bad.Best().Valid() || bad.U().Valid() || bad.Reading().Valid() || bad.Sub(measure.Temperature{}).Valid() {
		t.Error("below absolute zero passes as valid")
	}
	if _, err := measure.NewTemperature(units.Celsius(-300)); err == nil {
		t.Error("NewTemperature took a point below absolute zero")
	}
}

func ExampleTemperature_Sub() {
	offset, _ := measure.NewCause("probe-1/offset", "probe 1: offset", measure.Rectangular, 0)
	before, _ := measure.NewTemperature(units.Celsius(25), measure.Term{Cause: offset, Scale: 0.6})
	after, _ := measure.NewTemperature(units.Celsius(40), measure.Term{Cause: offset, Scale: 0.6})
	rise := after.Sub(before) // one probe: its offset drops out
	fmt.Println(rise.Best(), "u =", rise.U())
	// Output: 15 °C u = 0 °C
}

func ExampleTemperatureExactly() {
	fmt.Println(measure.TemperatureExactly(units.Celsius(41)))
	// Output: 41 °C
}

func ExampleNewTemperature() {
	offset, _ := measure.NewCause("probe-1/offset", "", measure.Rectangular, 0)
	t, _ := measure.NewTemperature(units.Celsius(41), measure.Term{Cause: offset, Scale: 0.6})
	fmt.Println(t)
	// Output: 41.00 °C (u = 0.60 °C)
}

func ExampleTemperature_Best() {
	fmt.Println(measure.TemperatureExactly(units.Fahrenheit(97)).Best() == units.Fahrenheit(97))
	// Output: true
}

func ExampleTemperature_U() {
	offset, _ := measure.NewCause("probe-1/offset", "", measure.Rectangular, 0)
	t, _ := measure.NewTemperature(units.Celsius(41), measure.Term{Cause: offset, Scale: 0.6})
	fmt.Println(t.U())
	// Output: 0.6 °C
}

func ExampleTemperature_Reading() {
	fmt.Println(measure.TemperatureExactly(units.Celsius(41)).Reading().Value()) // kelvin
	// Output: 314.15
}

func ExampleTemperature_Valid() {
	fmt.Println(measure.TemperatureExactly(units.Celsius(-300)).Valid())
	// Output: false
}

func ExampleTemperature_Err() {
	fmt.Println(measure.TemperatureExactly(units.Celsius(41)).Err())
	// Output: <nil>
}

func ExampleTemperature_Add() {
	offset, _ := measure.NewCause("probe-1/offset", "", measure.Rectangular, 0)
	t, _ := measure.NewTemperature(units.Celsius(41), measure.Term{Cause: offset, Scale: 0.6})
	fmt.Println(t.Add(measure.MeasuredExactly(units.CelsiusDegree.Of(5))))
	// Output: 46.00 °C (u = 0.60 °C)
}

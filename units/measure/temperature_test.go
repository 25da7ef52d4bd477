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

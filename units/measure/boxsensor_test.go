package measure_test

import (
	"fmt"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func TestBoxSensorRefuses(t *testing.T) {
	b := measure.BoxSensor{ID: "tern-6", Tolerance: units.CelsiusDegree.Of(-1), Placement: units.CelsiusDegree.Of(-1)}
	if _, err := b.Read(units.Celsius(40)); err == nil {
		t.Error("negative limits were taken")
	}
}

func ExampleBoxSensor_Read() {
	sensor := measure.BoxSensor{
		ID: "tern-6", Tolerance: units.CelsiusDegree.Of(2), Placement: units.CelsiusDegree.Of(3),
		Resolution: units.CelsiusDegree.Of(1),
	}
	at, _ := sensor.For("level").Read(units.Celsius(41))
	for _, t := range at.Reading().Terms() {
		fmt.Printf("%s %.2f K\n", t.Cause.ID(), t.Scale)
	}
	// Output:
	// tern-6/offset 1.15 K
	// tern-6/placement 1.73 K
	// tern-6/reading/level 0.29 K
}

func ExampleBoxSensor_For() {
	sensor := measure.BoxSensor{ID: "tern-6", Resolution: units.CelsiusDegree.Of(1)}
	fmt.Println(sensor.For("level").Entry)
	// Output: level
}

package measure_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func TestTextOfBadInput(t *testing.T) {
	v := readJug(t, shopJug("jug-a"), "x", 2)
	over := reading(t, math.MaxFloat64).Times(2)
	for name, got := range map[string]string{
		"no unit":     v.Text(0, 2),
		"k = 0":       v.Text(units.Litre, 0),
		"k = NaN":     v.Text(units.Litre, math.NaN()),
		"not valid":   over.Text(2),
		"String":      over.String(),
		"volume":      measure.MeasuredExactly(units.Litre.Of(1e9)).String(),
		"temperature": measure.TemperatureExactly(units.Celsius(-300)).String(),
	} {
		if got != "not valid" {
			t.Errorf("%s: %q", name, got)
		}
	}
}

func ExampleReading_String() {
	a, _ := measure.NewCause("a", "", measure.Normal, 0)
	r, _ := measure.New(2.4, measure.Term{Cause: a, Scale: 0.02})
	fmt.Println(r)
	// Output: 2.400 (u = 0.020)
}

func ExampleReading_Text() {
	a, _ := measure.NewCause("a", "", measure.Normal, 0)
	r, _ := measure.New(2.4, measure.Term{Cause: a, Scale: 0.02})
	fmt.Println(r.Text(2))
	// Output: 2.400 ± 0.040 (k = 2)
}

func ExampleMeasured_String() {
	jug := measure.Jug{ID: "jug-a", Graduation: units.Litre.Of(0.05)}
	v, _ := jug.For("drain-1").Read(units.Litre.Of(2.4))
	fmt.Println(v)
	// Output: 2.400 L (u = 0.014 L)
}

func ExampleMeasured_Text() {
	jug := measure.Jug{ID: "jug-a", Graduation: units.Litre.Of(0.05)}
	in, _ := jug.For("refill-1").Read(units.Litre.Of(2.382))
	out, _ := jug.For("drain-1").Read(units.Litre.Of(2.400))
	fmt.Println(in.Sub(out).Text(units.Millilitre, 2)) // 2·50/√12·√2
	// Output: -18 mL ± 41 mL (k = 2)
}

func ExampleTemperature_String() {
	probe := measure.ContactProbe{ID: "probe-1", Tolerance: units.CelsiusDegree.Of(1)}
	t, _ := probe.Read(units.Celsius(41))
	fmt.Println(t)
	// Output: 41.00 °C (u = 0.58 °C)
}

func ExampleTemperature_Text() {
	probe := measure.ContactProbe{ID: "probe-1", Tolerance: units.CelsiusDegree.Of(1)}
	t, _ := probe.Read(units.Fahrenheit(106))
	fmt.Println(t.Text(units.FahrenheitScale, 2))
	// Output: 106.0 °F ± 2.1 °F (k = 2)
}

package thermal_test

import (
	"errors"
	"fmt"
	"log"

	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// paintedPan is the pan of the co-operative's invented gearbox, painted, read
// in a workshop at 20 °C.
func paintedPan() thermal.Infrared {
	return thermal.Infrared{
		Reading: units.Celsius(40), Reflected: units.Celsius(20),
		Emissivity: 0.9, PlusMinus: 0.03, Set: 1, Reflection: thermal.ReflectionSubtracted,
	}
}

func ExampleInfrared_Surface() {
	s, err := paintedPan().Surface()
	if err != nil {
		log.Fatal(err)
	}
	// 293.15⁴ + (313.15⁴ - 293.15⁴)/0.9 = 9.8642e9 K⁴, the fourth power of 315.15.
	fmt.Println(s.Temperature.Text(units.CelsiusScale, 1), "±", s.EmissivityOff.Text(units.CelsiusDegree, 1))

	bare := paintedPan()
	bare.Emissivity = 0.1
	_, err = bare.Surface()
	fmt.Println(errors.Is(err, thermal.ErrReflective))
	fmt.Println(err)
	// Output:
	// 42.0 °C ± 0.7 °C
	// true
	// thermal: infrared: emissivity 0.1 is below 0.5: surface too reflective for an infrared thermometer; put masking tape or matt black paint on the spot (emissivity about 0.95), let it take up the temperature and read that, or use a contact probe
}

func ExampleInfrared_SurfaceMeasured() {
	gun := measure.Infrared{ID: "ir-1", Tolerance: units.CelsiusDegree.Of(2), Share: 0.02}
	reading, err := gun.Read(units.Celsius(40))
	if err != nil {
		log.Fatal(err)
	}
	t, err := paintedPan().SurfaceMeasured("pan", reading, measure.TemperatureExactly(units.Celsius(20)))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(t.Best().Text(units.CelsiusScale, 1), "u", t.U().Text(units.CelsiusDegree, 2))
	// Output: 42.0 °C u 1.32 °C
}

// The box's own sensor says 44 °C: can both be right?
func ExampleInfrared_SurfaceMeasured_agree() {
	gun := measure.Infrared{ID: "ir-1", Tolerance: units.CelsiusDegree.Of(2), Share: 0.02}
	reading, err := gun.Read(units.Celsius(40))
	if err != nil {
		log.Fatal(err)
	}
	surface, err := paintedPan().SurfaceMeasured("pan", reading, measure.TemperatureExactly(units.Celsius(20)))
	if err != nil {
		log.Fatal(err)
	}
	sensor, err := measure.BoxSensor{ID: "tern-6/sensor", Tolerance: units.CelsiusDegree.Of(2)}.Read(units.Celsius(44))
	if err != nil {
		log.Fatal(err)
	}
	a, err := measure.Agree(sensor.Reading(), surface.Reading())
	if err != nil {
		log.Fatal(err)
	}
	// 2.0 K apart; u = √(1.32² + (2/√3)²) = 1.75 K.
	fmt.Printf("zeta %.1f, compatible %v\n", a.Zeta, a.Compatible)
	// Output: zeta 1.1, compatible true
}

func ExampleSurface_Steps() {
	s, err := paintedPan().Surface()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(s.Steps().Text())
	// Output:
	// reading = 40.0 °C (104.0 °F) = 313.15 K
	// surface, fourth power = Refl⁴ + (Set/ε)·(Reading⁴ - Refl⁴) = 293.15⁴ + (1/0.9) × (313.15⁴ - 293.15⁴) = 315.15⁴ K⁴
	// surface temperature, not the fluid's = emissivity ±0.03: ±0.7 °C; form: ±0.1 °C = 42.0 °C (107.6 °F)
}

func ExampleReflection_String() {
	fmt.Println(thermal.ReflectionKept, thermal.Reflection(0))
	// Output: kept unknown
}

func ExampleEmissivities() {
	for _, e := range thermal.Emissivities() {
		if e.Surface == "steel, cold rolled" {
			fmt.Println(e.Low, e.High, e.Source)
		}
	}
	// Output:
	// 0.7 0.9 manual of an infrared thermometer, MI3, p. 116
	// 0.09 0.09 manual of an infrared sensor, TIF352
}

func ExampleEmissivity_Middle() {
	e := thermal.Emissivity{Low: 0.92, High: 0.98}
	middle, plusMinus := e.Middle()
	fmt.Printf("%.2f %.2f\n", middle, plusMinus)
	// Output: 0.95 0.03
}

func ExampleEmissivity_Usable() {
	fmt.Println(thermal.Emissivity{Low: 0.02, High: 0.1}.Usable(), thermal.Emissivity{Low: 0.92, High: 0.94}.Usable())
	// Output: false true
}

func ExampleWindow_JudgeMeasured() {
	reading, err := measure.ContactProbe{ID: "probe-1", Tolerance: units.CelsiusDegree.Of(1)}.Read(units.Celsius(41))
	if err != nil {
		log.Fatal(err)
	}
	d, err := ternWindow().JudgeMeasured(reading, 0.05)
	if err != nil {
		log.Fatal(err)
	}
	// u = 1/√3 = 0.577 K; 1.645 u = 0.95 K inside each end.
	fmt.Printf("%s, accepts %.2f to %.2f °C\n", d.Verdict, d.AcceptLow-273.15, d.AcceptHigh-273.15)
	// Output: inside, accepts 36.95 to 45.05 °C
}

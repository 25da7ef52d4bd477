package thermal_test

import (
	"fmt"
	"log"

	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

// ternWindow is the check window of the co-operative's invented gearbox.
func ternWindow() thermal.Window {
	return thermal.Window{Low: units.Celsius(36), High: units.Celsius(46), EngineIdling: true, Level: true}
}

func ExampleWindow_Check() {
	w := ternWindow()
	fmt.Println(w.Check())
	w.Low, w.High = w.High, w.Low
	fmt.Println(w.Check())
	// Output:
	// <nil>
	// thermal: window: low end 46 °C is not below high end 36 °C; want low below high
}

func ExampleWindow_Mid() {
	fmt.Println(ternWindow().Mid())
	// Output: 41 °C
}

// An infrared thermometer good to ±2 °C reads 45 °C: the fluid may be at 47 °C.
func ExampleWindow_Judge() {
	verdict, err := ternWindow().Judge(units.Celsius(45), units.CelsiusDegree.Of(2))
	fmt.Println(verdict, err)
	verdict, err = ternWindow().Judge(units.Celsius(41), units.CelsiusDegree.Of(2))
	fmt.Println(verdict, err)
	// Output:
	// undecided <nil>
	// inside <nil>
}

func ExampleWindow_Closing() {
	fluid, err := thermal.Exponential(7.5e-4, 0.06)
	if err != nil {
		log.Fatal(err)
	}
	// Closed 4 K too hot: 10 L × [exp(-0.00075 × 4) - 1] = -29.96 mL.
	c, err := ternWindow().Closing(fluid, units.Litre.Of(10), thermal.Uncorrected, units.Celsius(45))
	fmt.Println(c.Off.Text(units.Millilitre, 2), c.Away, err)
	// Output: -29.96 mL 4 °C <nil>
}

func ExampleClosing_Steps() {
	fluid, err := thermal.Exponential(7.5e-4, 0.06)
	if err != nil {
		log.Fatal(err)
	}
	c, err := ternWindow().Closing(fluid, units.Litre.Of(10), thermal.Aluminium, units.Celsius(45))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(c.Steps().Text())
	// Output:
	// mid-window = (low + high)/2 = (36.0 °C (96.8 °F) + 46.0 °C (114.8 °F))/2 = 41.0 °C (105.8 °F)
	// fluid left once at mid-window = F(at)/F(mid) = at 45.0 °C (113.0 °F) = 0.997004
	// growth of the case (aluminium) = 1 + γ·(at - mid) = 1 + 0.000069 × 4.00 = 1.000276
	// off at mid-window = C·(growth × fluid - 1) = 10.0000 L × (1.000276 × 0.997004 - 1) = -27.2 mL, worth 4.0 °C
}

// A tilt that leaves 20 mL too much is worth how many degrees?
func ExampleClosing_Worth() {
	fluid, err := thermal.Exponential(7.5e-4, 0.06)
	if err != nil {
		log.Fatal(err)
	}
	c, err := ternWindow().Closing(fluid, units.Litre.Of(10), thermal.Uncorrected, units.Celsius(41))
	if err != nil {
		log.Fatal(err)
	}
	// The window of 10 K is worth 10 L × 2 sinh(0.00375) = 75.0 mL: 20 mL are 2.67 K.
	d, err := c.Worth(units.Millilitre.Of(20))
	fmt.Println(c.Window.Text(units.Millilitre, 1), d.Text(units.CelsiusDegree, 2), err)
	// Output: 75.0 mL 2.67 °C <nil>
}

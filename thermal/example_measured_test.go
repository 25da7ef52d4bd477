package thermal_test

import (
	"fmt"
	"log"

	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// workshopFluid is 850 kg/m³ at 15 °C.
func workshopFluid() thermal.Fluid {
	fluid, err := thermal.Lubricant(850)
	if err != nil {
		log.Fatal(err)
	}
	return fluid
}

// probe reads a temperature to ± 1 °C, one offset for all its readings.
func probe(celsius float64) measure.Temperature {
	t, err := measure.ContactProbe{ID: "probe-1", Tolerance: units.CelsiusDegree.Of(1)}.Read(units.Celsius(celsius))
	if err != nil {
		log.Fatal(err)
	}
	return t
}

func show(r measure.Reading, unit string) {
	for _, term := range r.Terms() {
		fmt.Printf("%s: %.4f %s\n", term.Cause.ID(), term.Scale, unit)
	}
}

func ExampleFluid_ConvertMeasured() {
	v := measure.MeasuredExactly(units.Litre.Of(2.84))
	cold, err := workshopFluid().ConvertMeasured(v, probe(60), measure.TemperatureExactly(units.Celsius(20)))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(cold.Best().Text(units.Litre, 4))
	// Coefficient: 6 % of the 2.7549 L × 0.031313 between 60 and 20 °C;
	// probe: 2.7549 L × 7.78e-4 /K × 1 K/√3.
	show(cold.Reading(), "L")
	// Output:
	// 2.7549 L
	// lubricant-850/expansion: -0.0052 L
	// probe-1/offset: -0.0012 L
}

// Same jug, same temperature: what the jug, the probe and the coefficient get
// wrong goes out and comes back in, and drops out of the balance by itself.
func ExampleFluid_ConvertMeasured_likeForLike() {
	fluid := workshopFluid()
	jug := thermal.Vessel{ID: "jug-a", Material: thermal.Polypropylene, Graduation: units.Millilitre.Of(50), ScaleError: 0.02}
	reference := measure.TemperatureExactly(thermal.ReferenceTemperature())
	at15 := func(entry string, celsius float64) measure.Volume {
		read, err := jug.For(entry).Read(units.Litre.Of(2.4), probe(celsius))
		if err != nil {
			log.Fatal(err)
		}
		v, err := fluid.ConvertMeasured(read, probe(celsius), reference)
		if err != nil {
			log.Fatal(err)
		}
		return v
	}
	like := at15("refill", 40).Sub(at15("drain", 40))
	fmt.Println("like for like:", like.Best().Text(units.Millilitre, 1))
	show(like.Reading(), "L")
	unlike := at15("refill", 20).Sub(at15("drain", 60))
	fmt.Println("cold against hot:", unlike.Best().Text(units.Millilitre, 1))
	show(unlike.Reading(), "L")
	// Output:
	// like for like: 0.0 mL
	// jug-a/reading/drain: -0.0143 L
	// jug-a/reading/refill: 0.0143 L
	// cold against hot: 30.3 mL
	// jug-a/expansion: -0.0081 L
	// jug-a/reading/drain: -0.0142 L
	// jug-a/reading/refill: 0.0144 L
	// jug-a/scale: 0.0004 L
	// lubricant-850/expansion: 0.0044 L
	// probe-1/offset: 0.0001 L
}

func ExampleFluid_MassMeasured() {
	m, err := workshopFluid().MassMeasured(measure.MeasuredExactly(units.Litre.Of(2)), measure.TemperatureExactly(units.Celsius(15)))
	if err != nil {
		log.Fatal(err)
	}
	// 2 L × 0.85 kg/L, the density known to 0.5 %.
	fmt.Println(m.Best().Text(units.Gram, 0), "u", m.U().Text(units.Gram, 1))
	// Output: 1700 g u 8.5 g
}

// Weighed out and weighed back in, the density drops out of the balance.
func ExampleFluid_VolumeMeasured() {
	fluid, at := workshopFluid(), measure.TemperatureExactly(units.Celsius(15))
	out, err := fluid.VolumeMeasured(measure.MeasuredExactly(units.Gram.Of(1700)), at)
	if err != nil {
		log.Fatal(err)
	}
	in, err := fluid.VolumeMeasured(measure.MeasuredExactly(units.Gram.Of(1717)), at)
	if err != nil {
		log.Fatal(err)
	}
	net := in.Sub(out)
	fmt.Println(out.Best().Text(units.Litre, 3), "u", out.U().Text(units.Millilitre, 1))
	fmt.Println(net.Best().Text(units.Millilitre, 1), "u", net.U().Text(units.Millilitre, 1))
	// Output:
	// 2.000 L u 10.0 mL
	// 20.0 mL u 0.1 mL
}

func ExampleFluid_Named() {
	fluid, err := workshopFluid().Named("drum-3")
	fmt.Println(fluid.ID(), err)
	// Output: drum-3 <nil>
}

func ExampleFluid_ID() {
	fmt.Println(workshopFluid().ID(), thermal.UnknownDensity().ID())
	// Output: lubricant-850 unknown-density
}

func ExampleFluid_Cause() {
	fmt.Println(workshopFluid().Cause().ID())
	// Output: lubricant-850/expansion
}

func ExampleFluid_DensityCause() {
	fmt.Println(workshopFluid().DensityCause().ID())
	// Output: lubricant-850/density
}

func ExampleVessel_For() {
	jug := thermal.Vessel{ID: "jug-a", Material: thermal.HDPE}
	fmt.Println(jug.For("drain-1").Entry)
	// Output: drain-1
}

func ExampleVessel_Read() {
	jug := thermal.Vessel{ID: "jug-a", Material: thermal.Polypropylene, Graduation: units.Millilitre.Of(50), ScaleError: 0.02}
	v, err := jug.For("drain-1").Read(units.Litre.Of(2.5), measure.TemperatureExactly(units.Celsius(60)))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(v.Best().Text(units.Litre, 4))
	// Expansion: 2.5 L × 40 K × 8.7e-5 /K; mark: 50 mL/√12; scale: 2 %/√3 of
	// 2.5 L; the last two grow with the jug, by 1.0178.
	show(v.Reading(), "L")
	// Output:
	// 2.5445 L
	// jug-a/expansion: 0.0087 L
	// jug-a/reading/drain-1: 0.0147 L
	// jug-a/scale: 0.0294 L
}

func ExampleWindow_ClosingMeasured() {
	w := thermal.Window{Low: units.Celsius(36), High: units.Celsius(46)}
	off, err := w.ClosingMeasured(workshopFluid(), measure.MeasuredExactly(units.Litre.Of(12.8)), thermal.Aluminium, probe(45))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(off.Best().Text(units.Millilitre, 1))
	show(off.Reading(), "L")
	// Output:
	// -35.5 mL
	// case-aluminium/expansion: 0.0001 L
	// lubricant-850/expansion: -0.0024 L
	// probe-1/offset: -0.0051 L
}

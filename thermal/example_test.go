package thermal_test

import (
	"fmt"
	"log"

	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

// The workshop of the Saltmarsh community bus co-operative knows one figure of
// its fluid: 850 kg/m³ at 15 °C.
func ExampleLubricant() {
	fluid, err := thermal.Lubricant(850)
	if err != nil {
		log.Fatal(err)
	}
	// α = 0.6278/850 = 7.386e-4 per K; at 40 °C, Δt = 25 K: α·Δt = 0.018465,
	// F = exp[-0.018465 × (1 + 0.8 × 0.018465)] = exp(-0.018737) = 0.98144.
	f, err := fluid.Factor(units.Celsius(40))
	fmt.Printf("%.5f %v\n", f, err)
	// Output: 0.98144 <nil>
}

func ExampleUnknownDensity() {
	// 0.00076 × 25 = 0.019; exp(-0.019) = 0.98118.
	f, err := thermal.UnknownDensity().Factor(units.Celsius(40))
	fmt.Printf("%.5f %v\n", f, err)
	// Output: 0.98118 <nil>
}

func ExampleExponential() {
	fluid, err := thermal.Exponential(7e-4, 0.10)
	if err != nil {
		log.Fatal(err)
	}
	// 100 L warmed by 20 K: 100 × exp(0.014) = 101.4098 L.
	v, err := fluid.Convert(units.Litre.Of(100), units.Celsius(20), units.Celsius(40))
	fmt.Println(v.Text(units.Litre, 4), err)
	// Output: 101.4098 L <nil>
}

func ExampleTabulated() {
	// The engine oil of a heat-transfer handbook, three of its rows.
	fluid, err := thermal.Tabulated([]thermal.DensityPoint{
		{At: units.Celsius(6.85), Density: 895.3},
		{At: units.Celsius(26.85), Density: 884.1},
		{At: units.Celsius(46.85), Density: 871.8},
	})
	if err != nil {
		log.Fatal(err)
	}
	// 2 L × 871.8/884.1 = 1.9722 L.
	v, err := fluid.Convert(units.Litre.Of(2), units.Celsius(46.85), units.Celsius(26.85))
	fmt.Println(v.Text(units.Litre, 4), err)
	// Output: 1.9722 L <nil>
}

func ExampleReferenceTemperature() {
	fmt.Println(thermal.ReferenceTemperature())
	// Output: 15 °C
}

func ExampleVesselReference() {
	fmt.Println(thermal.VesselReference())
	// Output: 20 °C
}

func ExampleFluid_Factor() {
	// α·Δt = 0.00076 × 45 = 0.0342; exp(-0.0342) = 0.96638.
	f, err := thermal.UnknownDensity().Factor(units.Celsius(60))
	fmt.Printf("%.5f %v\n", f, err)

	_, err = thermal.UnknownDensity().Factor(units.Celsius(130))
	fmt.Println(err)
	// Output:
	// 0.96638 <nil>
	// thermal: 130 °C is outside the range of the law (one coefficient, 0.00076 per kelvin); want -20 °C to 120 °C
}

// Drained at 60 °C, measured; how much is that at 20 °C?
func ExampleFluid_Convert() {
	fluid, err := thermal.Lubricant(850)
	if err != nil {
		log.Fatal(err)
	}
	// 2.84 L × 0.966455/0.996303 = 2.7549 L: put back to the same mark, the
	// box would be 85 mL too full.
	v, err := fluid.Convert(units.Litre.Of(2.84), units.Celsius(60), units.Celsius(20))
	fmt.Println(v.Text(units.Litre, 4), err)
	// Output: 2.7549 L <nil>
}

func ExampleFluid_ConvertWorking() {
	fluid, err := thermal.Exponential(7.5e-4, 0.06)
	if err != nil {
		log.Fatal(err)
	}
	steps, err := fluid.ConvertWorking(units.Litre.Of(2), units.Celsius(55), units.Celsius(15))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(steps.Text())
	// Output:
	// factor F to 15 °C at 55.0 °C = exp(-c·Δt) = exp(-0.00075 × 40.000) = 0.970446
	// factor F to 15 °C at 15.0 °C = exp(-c·Δt) = exp(-0.00075 × 0.000) = 1.000000
	// volume at 15.0 °C = V·F(from)/F(to) = 2.0000 L × 0.970446 / 1.000000 = 1.9409 L
}

func ExampleFluid_Density() {
	fluid, err := thermal.Lubricant(850)
	if err != nil {
		log.Fatal(err)
	}
	// 850 × 0.98144 = 834.2.
	rho, err := fluid.Density(units.Celsius(40))
	fmt.Println(rho, err)
	// Output: 834.2 kg/m³ <nil>
}

func ExampleFluid_Mass() {
	fluid, err := thermal.Lubricant(850)
	if err != nil {
		log.Fatal(err)
	}
	// At 15 °C a litre weighs 850 g; warm or cold it stays the same mass.
	m, err := fluid.Mass(units.Litre.Of(2), units.Celsius(15))
	fmt.Println(m.Text(units.Gram, 1), err)
	// Output: 1700.0 g <nil>
}

func ExampleFluid_Volume() {
	fluid, err := thermal.Lubricant(850)
	if err != nil {
		log.Fatal(err)
	}
	v, err := fluid.Volume(units.Kilogram.Of(1.7), units.Celsius(15))
	fmt.Println(v.Text(units.Litre, 3), err)
	// Output: 2.000 L <nil>
}

func ExampleFluid_WithDensity() {
	fluid, err := thermal.UnknownDensity().WithDensity(840)
	if err != nil {
		log.Fatal(err)
	}
	rho, err := fluid.Density(units.Celsius(15))
	fmt.Println(rho, err)
	// Output: 840.0 kg/m³ <nil>
}

func ExampleFluid_WithDoubt() {
	fluid, err := thermal.Lubricant(850)
	if err != nil {
		log.Fatal(err)
	}
	fluid, err = fluid.WithDoubt(thermal.Doubt{Expansion: 0.03, Density: 0.001})
	fmt.Println(fluid.Doubt(), err)
	// Output: {0.03 0.001} <nil>
}

func ExampleFluid_Doubt() {
	d := thermal.UnknownDensity().Doubt()
	fmt.Println(d.Expansion, d.Density)
	// Output: 0.12 0.005
}

func ExampleFluid_Limits() {
	low, high := thermal.UnknownDensity().Limits()
	fmt.Println(low, high)
	// Output: -20 °C 120 °C
}

func ExampleFluid_Describe() {
	fluid, err := thermal.Lubricant(850)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(fluid.Describe())
	// Output: generalised lubricating-oil equation, 850 kg/m³ at 15 °C, -50 °C to 150 °C, coefficient ±6 % (standard uncertainty)
}

// A sheet gives 834.2 kg/m³ at 40 °C.
func ExampleDensity15() {
	rho, err := thermal.Density15(834.2, units.Celsius(40))
	fmt.Println(rho, err)
	// Output: 850.0 kg/m³ <nil>
}

func ExampleLubricatingCTL() {
	c := thermal.LubricatingCTL(860)
	fmt.Println(c.Density60, c.K0, c.K1, c.K2)
	// Output: 860.0 kg/m³ 0 0.34878 0
}

// The sixth worked example of the 2004 standard, a light product: 657.3 kg/m³
// at 60 °F, 27.3 °F.
func ExampleCTL2004_Evaluate() {
	c := thermal.CTL2004{Density60: 657.3, K0: 192.4571, K1: 0.2438}
	p, err := c.Evaluate(units.Fahrenheit(27.3))
	fmt.Printf("%.6f °F, %.6f kg/m³, %.6f %v\n", p.Scale68, float64(p.DensityStar), p.Factor, err)
	// Output: 27.298899 °F, 657.303689 kg/m³, 1.026476 <nil>
}

func ExampleMaterial_Expansion() {
	gamma, u, source := thermal.Polypropylene.Expansion()
	fmt.Println(gamma, u, source)
	// Output: 0.000445 8.7e-05 laboratory constants file (seen); range 2.4e-4 to 5.4e-4, matmake.com and Callister App. B.6 (seen)
}

func ExampleMaterial_Check() {
	var m thermal.Material
	fmt.Println(m.Check() != nil, thermal.Uncorrected.Check())
	// Output: true <nil>
}

func ExampleMaterial_String() {
	fmt.Println(thermal.HDPE, thermal.Material(0))
	// Output: HDPE unknown
}

func ExampleMaterials() {
	for _, m := range thermal.Materials()[:3] {
		fmt.Println(m)
	}
	// Output:
	// uncorrected
	// borosilicate glass
	// soda-lime glass
}

func ExampleParseMaterial() {
	m, err := thermal.ParseMaterial("polypropylene")
	fmt.Println(m == thermal.Polypropylene, err)
	// Output: true <nil>
}

func ExampleVessel_Contents() {
	jug := thermal.Vessel{ID: "jug-a", Material: thermal.Polypropylene}
	// 2.5 L × (1 + 4.45e-4 × 40) = 2.5445 L.
	v, err := jug.Contents(units.Litre.Of(2.5), units.Celsius(60))
	fmt.Println(v.Text(units.Litre, 4), err)
	// Output: 2.5445 L <nil>
}

// To which mark must the jug be filled at 60 °C to hold 2.5445 L?
func ExampleVessel_Mark() {
	jug := thermal.Vessel{ID: "jug-a", Material: thermal.Polypropylene}
	v, err := jug.Mark(units.Litre.Of(2.5445), units.Celsius(60))
	fmt.Println(v.Text(units.Litre, 4), err)
	// Output: 2.5000 L <nil>
}

func ExampleVessel_Check() {
	jug := thermal.Vessel{ID: "jug-a", Material: thermal.HDPE, ScaleError: 2}
	fmt.Println(jug.Check())
	// Output: thermal: vessel "jug-a": scale error 2; want a share of the reading, 0 to 0.5
}

// Drained warm into a plastic jug; to which mark of the same jug must the cold
// fluid be poured?
func ExampleFluid_PutBack() {
	fluid, err := thermal.Lubricant(850)
	if err != nil {
		log.Fatal(err)
	}
	jug := thermal.Vessel{ID: "jug-a", Material: thermal.Polypropylene}
	mark, err := fluid.PutBack(thermal.Measurement{Vessel: jug, Mark: units.Litre.Of(2.84), At: units.Celsius(60)}, jug, units.Celsius(20))
	fmt.Println(mark.Text(units.Litre, 3), err)
	// Output: 2.804 L <nil>
}

func ExampleFluid_PutBackWorking() {
	fluid, err := thermal.Exponential(7.5e-4, 0.06)
	if err != nil {
		log.Fatal(err)
	}
	jug := thermal.Vessel{ID: "jug-a", Material: thermal.Polypropylene}
	out := thermal.Measurement{Vessel: jug, Mark: units.Litre.Of(2), At: units.Celsius(60)}
	steps, err := fluid.PutBackWorking(out, jug, units.Celsius(20))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(steps.Text())
	// Output:
	// came out, jug-a = mark·[1 + γ·(t - 20 °C)] = 2.0000 L × [1 + 0.000445 × 40.00] = 2.0356 L
	// factor F to 15 °C at 60.0 °C = exp(-c·Δt) = exp(-0.00075 × 45.000) = 0.966813
	// factor F to 15 °C at 20.0 °C = exp(-c·Δt) = exp(-0.00075 × 5.000) = 0.996257
	// volume at 20.0 °C = V·F(from)/F(to) = 2.0356 L × 0.966813 / 0.996257 = 1.9754 L
	// fill to the mark, jug-a = V/[1 + γ·(t - 20 °C)] = 1.9754 L / [1 + 0.000445 × 0.00] = 1.9754 L
}

package units

// Unit is a unit of dimension D. Units are constants, so nobody can change
// one. The zero value is no unit: quantities made with it are out of range.
type Unit[D Dimension] uint8

// code is a unit without its dimension: the number of the dimension in the
// high four bits, that of the unit in the low four. A unit converted by force
// to another dimension is thereby known as foreign.
type code uint8

// Units of volume.
const (
	Millilitre         Unit[VolumeDim] = iota + 0x11 // mL, exact
	Litre                                            // L, exact
	CubicInch                                        // in³, 16.387064 mL exactly
	USFluidOunce                                     // US fl oz, 29.5735295625 mL exactly
	USPint                                           // US pt, 473.176473 mL exactly
	USQuart                                          // US qt, 946.352946 mL exactly
	USGallon                                         // US gal, 231 in³ exactly
	ImperialFluidOunce                               // imp fl oz, 28.4130625 mL exactly
	ImperialPint                                     // imp pt, 568.26125 mL exactly
	ImperialQuart                                    // imp qt, 1136.5225 mL exactly
	ImperialGallon                                   // imp gal, 4546.09 mL exactly
)

// Units of torque.
const (
	NewtonMetre             Unit[TorqueDim] = iota + 0x21 // N·m, exact
	PoundForceFoot                                        // lbf·ft, 1.3558179483314004 N·m, rounded once to a tick
	PoundForceInch                                        // lbf·in, a twelfth of lbf·ft, rounded once to a tick
	KilogramForceCentimetre                               // kgf·cm, 0.0980665 N·m exactly
	KilogramForceMetre                                    // kgf·m, 9.80665 N·m exactly
)

// Units of length.
const (
	Millimetre Unit[LengthDim] = iota + 0x31 // mm, exact
	Metre                                    // m, exact
	Inch                                     // in, 25.4 mm exactly
)

// Units of mass.
const (
	Gram     Unit[MassDim] = iota + 0x41 // g, exact
	Kilogram                             // kg, exact
	Ounce                                // oz (avoirdupois), 28.349523125 g exactly
	Pound                                // lb (avoirdupois), 453.59237 g exactly
)

// Units of temperature difference.
const (
	CelsiusDegree    Unit[TemperatureDeltaDim] = iota + 0x51 // a step of 1 °C, which is 1 K, exact
	FahrenheitDegree                                         // a step of 1 °F, 5/9 K exactly
)

// Units of road distance.
const (
	Kilometre Unit[DistanceDim] = iota + 0x61 // km, exact
	Mile                                      // mi, 1609.344 m exactly
)

// lastCode is the highest code in use.
const lastCode = code(Mile)

// ratio is how many ticks make one unit: num/den. The zero ratio is no unit.
type ratio struct{ num, den uint64 }

// ticksPer anchors every unit on its definition.
//
// Sources: inch 25.4 mm and pound 0.45359237 kg (international yard and pound
// agreement, 1959); standard gravity 9.80665 m/s² (3rd CGPM, 1901); US gallon
// 231 in³ (NIST Handbook 44 App. C, seen in a reprint); imperial gallon
// 4.54609 dm³ (UK Weights and Measures Act 1985, seen second-hand). The pound
// force foot is 0.45359237 × 9.80665 × 0.3048 N·m, the pound force inch a
// twelfth of it; neither is a whole number of ticks.
func ticksPer(c code) ratio {
	if c > lastCode {
		return ratio{}
	}
	return [lastCode + 1]ratio{
		Millilitre:         {100_000_000_000, 1},
		Litre:              {100_000_000_000_000, 1},
		CubicInch:          {1_638_706_400_000, 1},
		USFluidOunce:       {2_957_352_956_250, 1},
		USPint:             {47_317_647_300_000, 1},
		USQuart:            {94_635_294_600_000, 1},
		USGallon:           {378_541_178_400_000, 1},
		ImperialFluidOunce: {2_841_306_250_000, 1},
		ImperialPint:       {56_826_125_000_000, 1},
		ImperialQuart:      {113_652_250_000_000, 1},
		ImperialGallon:     {454_609_000_000_000, 1},

		NewtonMetre:             {1_000_000_000_000_000, 1},
		PoundForceFoot:          {13_558_179_483_314_004, 10},
		PoundForceInch:          {1_129_848_290_276_167, 10},
		KilogramForceCentimetre: {98_066_500_000_000, 1},
		KilogramForceMetre:      {9_806_650_000_000_000, 1},

		Millimetre: {1_000_000, 1},
		Metre:      {1_000_000_000, 1},
		Inch:       {25_400_000, 1},

		Gram:     {10_000_000_000, 1},
		Kilogram: {10_000_000_000_000, 1},
		Ounce:    {283_495_231_250, 1},
		Pound:    {4_535_923_700_000, 1},

		CelsiusDegree:    {9_000_000_000, 1},
		FahrenheitDegree: {5_000_000_000, 1},

		Kilometre: {1_000_000, 1},
		Mile:      {1_609_344, 1},
	}[c]
}

// symbol is the unit as printed: US and imperial always named.
func symbol(c code) string {
	if ticksPer(c) == (ratio{}) {
		return "?"
	}
	return [lastCode + 1]string{
		Millilitre:         "mL",
		Litre:              "L",
		CubicInch:          "in³",
		USFluidOunce:       "US fl oz",
		USPint:             "US pt",
		USQuart:            "US qt",
		USGallon:           "US gal",
		ImperialFluidOunce: "imp fl oz",
		ImperialPint:       "imp pt",
		ImperialQuart:      "imp qt",
		ImperialGallon:     "imp gal",

		NewtonMetre:             "N·m",
		PoundForceFoot:          "lbf·ft",
		PoundForceInch:          "lbf·in",
		KilogramForceCentimetre: "kgf·cm",
		KilogramForceMetre:      "kgf·m",

		Millimetre: "mm",
		Metre:      "m",
		Inch:       "in",

		Gram:     "g",
		Kilogram: "kg",
		Ounce:    "oz",
		Pound:    "lb",

		CelsiusDegree:    "°C",
		FahrenheitDegree: "°F",

		Kilometre: "km",
		Mile:      "mi",
	}[c]
}

// dimensioned says whether the unit belongs to dimension D.
func dimensioned[D Dimension](c code) bool {
	return ratioOf[D](c).num != 0
}

// ratioOf is ticksPer for a unit of D, and the zero ratio for any other.
func ratioOf[D Dimension](c code) ratio {
	if int(c>>4) != numberOf[D]() {
		return ratio{}
	}
	return ticksPer(c)
}

// String returns the unit's symbol, such as "US qt"; "?" for no unit.
func (u Unit[D]) String() string { return symbol(code(u)) }

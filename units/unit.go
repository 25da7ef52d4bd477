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

// ratio is how many ticks make one unit: num/den.
type ratio struct{ num, den uint64 }

// ticksPer anchors every unit on its definition.
//
// Sources: inch 25.4 mm and pound 0.45359237 kg (international yard and pound
// agreement, 1959); standard gravity 9.80665 m/s² (3rd CGPM, 1901); US gallon
// 231 in³ (NIST Handbook 44 App. C, seen in a reprint); imperial gallon
// 4.54609 dm³ (UK Weights and Measures Act 1985, seen second-hand).
func ticksPer(c code) ratio {
	switch c {
	case code(Millilitre):
		return ratio{100_000_000_000, 1}
	case code(Litre):
		return ratio{100_000_000_000_000, 1}
	case code(CubicInch):
		return ratio{1_638_706_400_000, 1}
	case code(USFluidOunce):
		return ratio{2_957_352_956_250, 1}
	case code(USPint):
		return ratio{47_317_647_300_000, 1}
	case code(USQuart):
		return ratio{94_635_294_600_000, 1}
	case code(USGallon):
		return ratio{378_541_178_400_000, 1}
	case code(ImperialFluidOunce):
		return ratio{2_841_306_250_000, 1}
	case code(ImperialPint):
		return ratio{56_826_125_000_000, 1}
	case code(ImperialQuart):
		return ratio{113_652_250_000_000, 1}
	case code(ImperialGallon):
		return ratio{454_609_000_000_000, 1}
	case code(NewtonMetre):
		return ratio{1_000_000_000_000_000, 1}
	case code(PoundForceFoot):
		return ratio{13_558_179_483_314_004, 10}
	case code(PoundForceInch):
		return ratio{1_129_848_290_276_167, 10} // a twelfth of lbf·ft, exactly
	case code(KilogramForceCentimetre):
		return ratio{98_066_500_000_000, 1}
	case code(KilogramForceMetre):
		return ratio{9_806_650_000_000_000, 1}
	case code(Millimetre):
		return ratio{1_000_000, 1}
	case code(Metre):
		return ratio{1_000_000_000, 1}
	case code(Inch):
		return ratio{25_400_000, 1}
	case code(Gram):
		return ratio{10_000_000_000, 1}
	case code(Kilogram):
		return ratio{10_000_000_000_000, 1}
	case code(Ounce):
		return ratio{283_495_231_250, 1}
	case code(Pound):
		return ratio{4_535_923_700_000, 1}
	case code(CelsiusDegree):
		return ratio{9_000_000_000, 1}
	case code(FahrenheitDegree):
		return ratio{5_000_000_000, 1}
	case code(Kilometre):
		return ratio{1_000_000, 1}
	case code(Mile):
		return ratio{1_609_344, 1}
	}
	return ratio{}
}

// symbol is the unit as printed: US and imperial always named.
func symbol(c code) string {
	switch c {
	case code(Millilitre):
		return "mL"
	case code(Litre):
		return "L"
	case code(CubicInch):
		return "in³"
	case code(USFluidOunce):
		return "US fl oz"
	case code(USPint):
		return "US pt"
	case code(USQuart):
		return "US qt"
	case code(USGallon):
		return "US gal"
	case code(ImperialFluidOunce):
		return "imp fl oz"
	case code(ImperialPint):
		return "imp pt"
	case code(ImperialQuart):
		return "imp qt"
	case code(ImperialGallon):
		return "imp gal"
	case code(NewtonMetre):
		return "N·m"
	case code(PoundForceFoot):
		return "lbf·ft"
	case code(PoundForceInch):
		return "lbf·in"
	case code(KilogramForceCentimetre):
		return "kgf·cm"
	case code(KilogramForceMetre):
		return "kgf·m"
	case code(Millimetre):
		return "mm"
	case code(Metre):
		return "m"
	case code(Inch):
		return "in"
	case code(Gram):
		return "g"
	case code(Kilogram):
		return "kg"
	case code(Ounce):
		return "oz"
	case code(Pound):
		return "lb"
	case code(CelsiusDegree):
		return "°C"
	case code(FahrenheitDegree):
		return "°F"
	case code(Kilometre):
		return "km"
	case code(Mile):
		return "mi"
	}
	return "?"
}

// dimensioned says whether the unit belongs to dimension D.
func dimensioned[D Dimension](c code) bool {
	return int(c>>4) == numberOf[D]() && ticksPer(c).num != 0
}

// String returns the unit's symbol, such as "US qt"; "?" for no unit.
func (u Unit[D]) String() string { return symbol(code(u)) }

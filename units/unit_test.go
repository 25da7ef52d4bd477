package units

import (
	"math/big"
	"reflect"
	"strconv"
	"strings"
	"testing"
)

func rat(s string) *big.Rat {
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		panic("not a number: " + s)
	}
	return r
}

// product multiplies decimals as text, so that the test has no factor of ours.
func product(factors ...string) *big.Rat {
	p := big.NewRat(1, 1)
	for _, f := range factors {
		p.Mul(p, rat(f))
	}
	return p
}

// ticksOf is how many ticks a unit has, as a rational.
func ticksOf(c code) *big.Rat {
	r := ticksPer(c)
	return new(big.Rat).SetFrac(new(big.Int).SetUint64(r.num), new(big.Int).SetUint64(r.den))
}

// Each ratio, built up again from the definitions in the base unit of its tick.
func TestUnitsAgreeWithTheirDefinitions(t *testing.T) {
	const (
		inch     = "0.0254"     // m; international yard and pound agreement, 1959
		foot     = "0.3048"     // m; the same
		pound    = "0.45359237" // kg; the same
		gravity  = "9.80665"    // m/s²; 3rd CGPM, 1901
		impGal   = "4.54609"    // L; UK Weights and Measures Act 1985, seen second-hand
		cubicInM = "1000"       // L in a cubic metre, by definition of the litre (12th CGPM, 1964)
	)
	gallon := product("231", inch, inch, inch, cubicInM) // NIST Handbook 44 App. C, seen in a reprint
	of := func(r *big.Rat, per string) *big.Rat { return new(big.Rat).Quo(r, rat(per)) }
	for _, c := range []struct {
		unit code
		want *big.Rat // in the base unit
		tick string
	}{
		{code(Millilitre), rat("0.001"), "1e-14"},
		{code(Litre), rat("1"), "1e-14"},
		{code(CubicInch), product(inch, inch, inch, cubicInM), "1e-14"},
		{code(USGallon), gallon, "1e-14"},
		{code(USQuart), of(gallon, "4"), "1e-14"},
		{code(USPint), of(gallon, "8"), "1e-14"},
		{code(USFluidOunce), of(gallon, "128"), "1e-14"},
		{code(ImperialGallon), rat(impGal), "1e-14"},
		{code(ImperialQuart), of(rat(impGal), "4"), "1e-14"},
		{code(ImperialPint), of(rat(impGal), "8"), "1e-14"},
		{code(ImperialFluidOunce), of(rat(impGal), "160"), "1e-14"},
		{code(NewtonMetre), rat("1"), "1e-15"},
		{code(PoundForceFoot), product(pound, gravity, foot), "1e-15"},
		{code(PoundForceInch), product(pound, gravity, inch), "1e-15"},
		{code(KilogramForceCentimetre), product(gravity, "0.01"), "1e-15"},
		{code(KilogramForceMetre), rat(gravity), "1e-15"},
		{code(Millimetre), rat("0.001"), "1e-9"},
		{code(Metre), rat("1"), "1e-9"},
		{code(Inch), rat(inch), "1e-9"},
		{code(Gram), rat("0.001"), "1e-13"},
		{code(Kilogram), rat("1"), "1e-13"},
		{code(Pound), rat(pound), "1e-13"},
		{code(Ounce), of(rat(pound), "16"), "1e-13"},
		{code(CelsiusDegree), rat("1"), "1/9000000000"},
		{code(FahrenheitDegree), rat("5/9"), "1/9000000000"},
		{code(Kilometre), rat("1000"), "0.001"},
		{code(Mile), product("5280", foot), "0.001"},
	} {
		if got := new(big.Rat).Mul(ticksOf(c.unit), rat(c.tick)); got.Cmp(c.want) != 0 {
			t.Errorf("1 %s is %s base units, want %s", symbol(c.unit), got.FloatString(20), c.want.FloatString(20))
		}
	}
}

// Factors as printed, to all their digits. NIST SP 811 App. B.8 is from
// memory; what was seen, and where, is said in the row.
func TestUnitsAgreeWithPrintedFactors(t *testing.T) {
	for _, c := range []struct {
		name    string
		got     float64
		printed string
		source  string
	}{
		{"US fl oz in mL", USFluidOunce.Of(1).In(Millilitre), "29.57353", "NIST SP 811 App. B.8, from memory"},
		{"US fl oz in mL", USFluidOunce.Of(1).In(Millilitre), "29.5735", "naval facilities handbook 1004/6 App. B, seen"},
		{"US pt in L", USPint.Of(1).In(Litre), "0.4731765", "NIST SP 811 App. B.8, from memory"},
		{"US qt in L", USQuart.Of(1).In(Litre), "0.9463529", "NIST SP 811 App. B.8, from memory"},
		{"US qt in L", USQuart.Of(1).In(Litre), "0.946352946", "NIST Handbook 44 App. C, from memory"},
		{"US gal in L", USGallon.Of(1).In(Litre), "3.785412", "NIST SP 811 App. B.8, from memory"},
		{"US gal in L", USGallon.Of(1).In(Litre), "3.78541", "naval facilities handbook 1004/6 App. B, seen"},
		{"US gal in in³", USGallon.Of(1).In(CubicInch), "231", "NIST Handbook 44 App. C, seen in a reprint"},
		{"imp fl oz in mL", ImperialFluidOunce.Of(1).In(Millilitre), "28.41306", "NIST SP 811 App. B.8, from memory"},
		{"imp qt in L", ImperialQuart.Of(1).In(Litre), "1.1365225", "UK SI 1995/1804, seen second-hand"},
		{"imp gal in L", ImperialGallon.Of(1).In(Litre), "4.54609", "UK Weights and Measures Act 1985, seen second-hand"},
		{"in³ in mL", CubicInch.Of(1).In(Millilitre), "16.38706", "NIST SP 811 App. B.8, from memory"},
		{"in³ in mL", CubicInch.Of(1).In(Millilitre), "16.3871", "naval facilities handbook 1004/6 App. B, seen"},
		{"lbf·ft in N·m", PoundForceFoot.Of(1).In(NewtonMetre), "1.355818", "NIST SP 811 App. B.8, seen second-hand"},
		{"lbf·in in N·m", PoundForceInch.Of(1).In(NewtonMetre), "0.1129848", "NIST SP 811 App. B.8, seen second-hand"},
		{"lbf·in in N·m", PoundForceInch.Of(1).In(NewtonMetre), "0.112985", "naval facilities handbook 1004/6 App. B, seen"},
		{"kgf·m in N·m", KilogramForceMetre.Of(1).In(NewtonMetre), "9.80665", "NIST SP 811 App. B.8, exact there, from memory"},
		{"in in mm", Inch.Of(1).In(Millimetre), "25.4", "NIST SP 811 App. B.8, exact there, from memory"},
		{"oz in g", Ounce.Of(1).In(Gram), "28.34952", "NIST SP 811 App. B.8, from memory"},
		{"oz in g", Ounce.Of(1).In(Gram), "28.3495", "naval facilities handbook 1004/6 App. B, seen"},
		{"lb in kg", Pound.Of(1).In(Kilogram), "0.4535924", "NIST SP 811 App. B.8, from memory"},
		{"lb in kg", Pound.Of(1).In(Kilogram), "0.453592", "naval facilities handbook 1004/6 App. B, seen"},
		{"mi in km", Mile.Of(1).In(Kilometre), "1.609344", "naval facilities handbook 1004/6 App. B, seen (as mile per hour)"},
		{"°F step in K", FahrenheitDegree.Of(1).In(CelsiusDegree), "0.5555556", "NIST SP 811 App. B.8, from memory"},
		{"0 °F in °C", Fahrenheit(0).Celsius(), "-17.77778", "°C = (°F - 32)/1.8, NIST SP 811 App. B.8, from memory"},
		{"212 °F in °C", Fahrenheit(212).Celsius(), "100", "the same"},
		{"-40 °C in °F", Celsius(-40).Fahrenheit(), "-40", "the same"},
		{"100 °C in K", Celsius(100).Kelvin(), "373.15", "the same"},
	} {
		_, decimals, _ := strings.Cut(c.printed, ".")
		if got := strconv.FormatFloat(c.got, 'f', len(decimals), 64); got != c.printed {
			t.Errorf("%s: %s, want %s (%s)", c.name, got, c.printed, c.source)
		}
	}
}

func TestTwelvePoundForceInchesAreAFoot(t *testing.T) {
	if PoundForceInch.Of(12) != PoundForceFoot.Of(1) {
		t.Error("12 lbf·in is not 1 lbf·ft")
	}
	for i := range 6001 {
		x := float64(i) / 10
		if PoundForceInch.Of(12*float64(i)/10) != PoundForceFoot.Of(x) && 12*float64(i)/10 == float64(12*i)/10 {
			t.Fatalf("%v lbf·ft is not twelve times as many lbf·in", x)
		}
	}
}

// In relies on this: a division of two exact floats rounds once.
func TestRatiosAreExactFloats(t *testing.T) {
	for c := range lastCode + 1 {
		r := ticksPer(c)
		if uint64(float64(r.num)) != r.num {
			t.Errorf("%s: %d is not a float64", symbol(c), r.num)
		}
		if r.den > 10 {
			t.Errorf("%s: %d is too large for scaleDigits", symbol(c), r.den)
		}
	}
}

func TestUnitCodesKnowTheirDimension(t *testing.T) {
	var known int
	for c := range code(255) {
		dims := 0
		for _, in := range []bool{
			dimensioned[VolumeDim](c), dimensioned[TorqueDim](c), dimensioned[LengthDim](c),
			dimensioned[MassDim](c), dimensioned[TemperatureDeltaDim](c), dimensioned[DistanceDim](c),
		} {
			if in {
				dims++
			}
		}
		if dims > 1 || (dims == 1) != (symbol(c) != "?") {
			t.Errorf("code %#x has %d dimensions and prints %q", c, dims, symbol(c))
		}
		known += dims
	}
	if known != 27 {
		t.Errorf("%d units, want 27", known)
	}
}

func TestEverySymbolNamesItsUnit(t *testing.T) {
	seen := map[string]bool{}
	for c := range lastCode + 1 {
		if ticksPer(c).num == 0 {
			continue
		}
		got, how := unitNamed(symbol(c))
		if got != c || how != named {
			t.Errorf("%s reads as %s", symbol(c), symbol(got))
		}
		if seen[symbol(c)] {
			t.Errorf("%s is used twice", symbol(c))
		}
		seen[symbol(c)] = true
	}
}

func TestZeroAndForeignUnits(t *testing.T) {
	foreign := Unit[VolumeDim](NewtonMetre)
	for _, u := range []Unit[VolumeDim]{0, foreign, 0x1C, 255} {
		q, err := u.TryOf(1)
		if q.Valid() || err == nil || u.Of(1).Valid() {
			t.Errorf("unit %d makes %v", u, q)
		}
		if got := Litre.Of(1).In(u); got != Huge {
			t.Errorf("1 L in unit %d is %v", u, got)
		}
		if got := Litre.Of(1).Text(u, 2); got != "out of range" {
			t.Errorf("1 L in unit %d prints %q", u, got)
		}
	}
	if Unit[VolumeDim](0).String() != "?" {
		t.Error("no unit prints a symbol")
	}
}

// What does not compile cannot go wrong; reflection knows what would.
func TestKindsDoNotMix(t *testing.T) {
	kinds := []any{Volume{}, Torque{}, Length{}, Mass{}, TemperatureDelta{}, Distance{}, Temperature{}, int64(0), 0.0}
	for i, a := range kinds {
		for j, b := range kinds {
			ta, tb := reflect.TypeOf(a), reflect.TypeOf(b)
			numbers := i >= len(kinds)-2 && j >= len(kinds)-2
			if i != j && !numbers && ta.ConvertibleTo(tb) {
				t.Errorf("%v converts to %v", ta, tb)
			}
		}
		if size := reflect.TypeOf(a).Size(); size != 8 {
			t.Errorf("%T has %d bytes", a, size)
		}
	}
	if add := reflect.ValueOf(Temperature.Add).Type(); add.In(1) != reflect.TypeFor[TemperatureDelta]() {
		t.Errorf("a temperature adds %v", add.In(1))
	}
}

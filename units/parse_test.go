package units

import (
	"math/big"
	"math/rand/v2"
	"strconv"
	"testing"
)

func TestParseVolume(t *testing.T) {
	qt := func(x float64) Volume { return USQuart.Of(x) }
	for _, c := range []struct {
		in   string
		want Volume
	}{
		{"2.5 qt", qt(2.5)},
		{"2.5qt", qt(2.5)},
		{"  2.5   qt ", qt(2.5)},
		{"2.5 US qt", qt(2.5)},
		{"2.5 quarts", qt(2.5)},
		{"2.5 US quarts", qt(2.5)},
		{"+2.5 qt", qt(2.5)},
		{"-2.5 qt", qt(-2.5)},
		{"\u22122.5 qt", qt(-2.5)},
		{"2.5\u00a0qt", qt(2.5)},
		{"2.5\u202fUS\u2009qt\u00a0", qt(2.5)},
		{"2½ qt", qt(2.5)},
		{"2 ½ qt", qt(2.5)},
		{"½ qt", qt(0.5)},
		{"-½ qt", qt(-0.5)},
		{"2 1/2 qt", qt(2.5)},
		{"-2 1/2 qt", qt(-2.5)},
		{"5/2 qt", qt(2.5)},
		{"1/3 qt", fromTicks[VolumeDim](31_545_098_200_000)},
		{"⅓ qt", fromTicks[VolumeDim](31_545_098_200_000)},
		{"1⅞ qt", qt(1.875)},
		{"1¼ qt", qt(1.25)},
		{"1¾ qt", qt(1.75)},
		{"1⅛ qt", qt(1.125)},
		{"1⅜ qt", qt(1.375)},
		{"1⅝ qt", qt(1.625)},
		{"1⅔ qt", fromTicks[VolumeDim](157_725_491_000_000)},
		{"123456789012345678/123456789012345678 qt", qt(1)},
		{"1e-18 L", Volume{}},
		{"999999999999999999.999999999999999999e-18 L", Litre.Of(1)},
		{".5 L", Litre.Of(0.5)},
		{"0.5 l", Litre.Of(0.5)},
		{"2.5e-3 L", Millilitre.Of(2.5)},
		{"2.5E3 ml", Litre.Of(2.5)},
		{"25e-1L", Litre.Of(2.5)},
		{"2 litres", Litre.Of(2)},
		{"1 liter", Litre.Of(1)},
		{"150 cc", Millilitre.Of(150)},
		{"2,500 mL", Litre.Of(2.5)},
		{"2,500.5 mL", Millilitre.Of(2500.5)},
		{"2,500.5 US qt", qt(2500.5)},
		{"1,234,567 mL", Millilitre.Of(1234567)},
		{"1,000,000 US fl oz", USFluidOunce.Of(1e6)},
		{"231 in³", USGallon.Of(1)},
		{"231 in3", USGallon.Of(1)},
		{"231 cu in", USGallon.Of(1)},
		{"1 imp gal", ImperialGallon.Of(1)},
		{"1 imperial quart", ImperialQuart.Of(1)},
		{"20 imp fl oz", ImperialPint.Of(1)},
		{"16 fl oz", USPint.Of(1)},
		{"0 mL", Volume{}},
		{"-0 mL", Volume{}},
		{"000000000000000001.000000000000000000 L", Litre.Of(1)},
		{"0.000000000000005 L", Volume{}},                              // half a tick, to even
		{"0.000000000000015 L", fromTicks[VolumeDim](2)},               // one and a half, to even
		{"0.000000000000005001 L", fromTicks[VolumeDim](1)},            // just above half
		{"92233.72036854775807 L", fromTicks[VolumeDim](maxTicks)},     // the largest
		{"92233.720368547758074999 L", fromTicks[VolumeDim](maxTicks)}, // and what rounds to it
		{"-92233.72036854775807 L", fromTicks[VolumeDim](-maxTicks)},
	} {
		got, err := ParseVolume(c.in)
		if err != nil || got != c.want {
			t.Errorf("ParseVolume(%q) = %v, %v; want %v", c.in, got, err, c.want)
		}
	}
}

func TestParseTorque(t *testing.T) {
	for _, c := range []struct {
		in   string
		want Torque
	}{
		{"26 lbf·ft", PoundForceFoot.Of(26)},
		{"26 lbf.ft", PoundForceFoot.Of(26)},
		{"26 lbf-ft", PoundForceFoot.Of(26)},
		{"26 lbf ft", PoundForceFoot.Of(26)},
		{"26 lbf ⋅ ft", PoundForceFoot.Of(26)},
		{"26 ft·lbf", PoundForceFoot.Of(26)},
		{"26 ft-lbf", PoundForceFoot.Of(26)},
		{"26 lb-ft", PoundForceFoot.Of(26)},
		{"26 ft-lb", PoundForceFoot.Of(26)},
		{"26 ft lb", PoundForceFoot.Of(26)},
		{"312 lbf·in", PoundForceFoot.Of(26)},
		{"312 in-lb", PoundForceFoot.Of(26)},
		{"35 N·m", NewtonMetre.Of(35)},
		{"35 N.m", NewtonMetre.Of(35)},
		{"35 N m", NewtonMetre.Of(35)},
		{"35 Nm", NewtonMetre.Of(35)},
		{"35Nm", NewtonMetre.Of(35)},
		{"3½ kgf·m", KilogramForceMetre.Of(3.5)},
		{"350 kgf.cm", KilogramForceMetre.Of(3.5)},
	} {
		got, err := ParseTorque(c.in)
		if err != nil || got != c.want {
			t.Errorf("ParseTorque(%q) = %v, %v; want %v", c.in, got, err, c.want)
		}
	}
}

func TestParseTemperature(t *testing.T) {
	for _, c := range []struct {
		in   string
		want Temperature
	}{
		{"97 °F", Fahrenheit(97)},
		{"97°F", Fahrenheit(97)},
		{"97 degF", Fahrenheit(97)},
		{"97 deg F", Fahrenheit(97)},
		{"97 F", Fahrenheit(97)},
		{"97 ℉", Fahrenheit(97)},
		{"36.5 °C", Celsius(36.5)},
		{"36½ ℃", Celsius(36.5)},
		{"-40 °C", Fahrenheit(-40)},
		{"273.15 K", Celsius(0)},
		{"0 K", Temperature{}},
		{"-459.67 °F", Temperature{}},
		{"325/9 °C", Fahrenheit(97)},
	} {
		got, err := ParseTemperature(c.in)
		if err != nil || got != c.want {
			t.Errorf("ParseTemperature(%q) = %v, %v; want %v", c.in, got, err, c.want)
		}
	}
	if d, err := ParseTemperatureDelta("9 °F"); err != nil || d != CelsiusDegree.Of(5) {
		t.Errorf("a step of 9 °F is %v, %v; want 5 °C", d, err)
	}
	if d, err := ParseTemperatureDelta("5 K"); err != nil || d != CelsiusDegree.Of(5) {
		t.Errorf("a step of 5 K is %v, %v; want 5 °C", d, err)
	}
}

func TestParseOthers(t *testing.T) {
	if q, err := ParseLength("5/8 in"); err != nil || q != Millimetre.Of(15.875) {
		t.Errorf("5/8 in = %v, %v; want 15.875 mm", q, err)
	}
	if q, err := ParseMass("1,000 g"); err != nil || q != Kilogram.Of(1) {
		t.Errorf("1,000 g = %v, %v; want 1 kg", q, err)
	}
	if q, err := ParseMass("16 oz"); err != nil || q != Pound.Of(1) {
		t.Errorf("16 oz = %v, %v; want 1 lb", q, err)
	}
	if q, err := ParseDistance("30000 mi"); err != nil || q != Kilometre.Of(48280.32) {
		t.Errorf("30000 mi = %v, %v; want 48280.32 km", q, err)
	}
}

func TestParseExplicitTakesNamedSystem(t *testing.T) {
	for _, s := range []string{"2.5 US qt", "2.5 imp qt", "2.5 L", "2.5 US gallons", "1 US fl oz"} {
		if _, err := ParseExplicit[VolumeDim](s); err != nil {
			t.Error(err)
		}
	}
}

// A whole number and a fraction of 18 digits each make a numerator of two words; the
// ticks against big.Rat, rounded half to even.
func TestParseLongFractionsAgainstRat(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 32))
	per := new(big.Rat).SetInt64(Millilitre.Of(1).ticks)
	for range 5_000 {
		whole, den := rng.Uint64N(90_000_000), 1e17+rng.Uint64N(9e17)
		num := rng.Uint64N(den)
		text := strconv.FormatUint(whole, 10) + " " + strconv.FormatUint(num, 10) + "/" + strconv.FormatUint(den, 10) + " mL"
		got, err := ParseVolume(text)
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		x := new(big.Rat).SetFrac(new(big.Int).SetUint64(num), new(big.Int).SetUint64(den))
		x.Add(x, new(big.Rat).SetInt(new(big.Int).SetUint64(whole))).Mul(x, per)
		off := x.Sub(x, new(big.Rat).SetInt64(got.ticks))
		if off.Abs(off).Cmp(big.NewRat(1, 2)) > 0 {
			t.Fatalf("%s is read as %d ticks, off by %s", text, got.ticks, off.FloatString(3))
		}
	}
}

func TestParseFractionsThatAreNone(t *testing.T) {
	for _, text := range []string{"2 /3 qt", "2 1/ qt", "2 1", "2 1/0 qt", "2 3/3 qt", "2 1000000000000000000/2000000000000000000 qt"} {
		if v, err := ParseVolume(text); err == nil {
			t.Errorf("%q is read as %s", text, v)
		}
	}
	if v, err := ParseVolume("2 100000000000000000/200000000000000000 qt"); err != nil || v != USQuart.Of(2.5) {
		t.Errorf("18 digits: %s, %v", v, err)
	}
}

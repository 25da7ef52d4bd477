package units

import (
	"errors"
	"strings"
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

func parseVolume(s string) error      { _, err := ParseVolume(s); return err }
func parseTorque(s string) error      { _, err := ParseTorque(s); return err }
func parseMass(s string) error        { _, err := ParseMass(s); return err }
func parsePoint(s string) error       { _, err := ParseTemperature(s); return err }
func parseExplicit(s string) error    { _, err := ParseExplicit[VolumeDim](s); return err }
func parseLength(s string) error      { _, err := ParseLength(s); return err }
func parseVolumeRange(s string) error { _, err := ParseRange[VolumeDim](s); return err }
func parsePoints(s string) error      { _, _, err := ParseTemperatureRange(s); return err }

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		name  string
		parse func(string) error
		in    string
		want  string // part of the message
	}{
		{"empty", parseVolume, "", "is empty"},
		{"only space", parseVolume, " \u00a0", "is empty"},
		{"no unit", parseVolume, "2.5", "no unit; want a number with mL, L, in³, US fl oz"},
		{"no number", parseVolume, "qt", "does not start with a number"},
		{"only a sign", parseVolume, "- qt", "does not start with a number"},
		{"two signs", parseVolume, "--2 qt", "does not start with a number"},
		{"point alone", parseVolume, ". qt", "no digit after the decimal point"},
		{"no digit after point", parseVolume, "2. qt", "no digit after the decimal point"},
		{"two points", parseVolume, "1.2.3 qt", `goes on with ".3 qt"`},
		{"two numbers", parseVolume, "2 500 mL", `goes on with "500 mL"`},
		{"hyphenated fraction", parseVolume, "2-1/2 qt", `goes on with "-1/2 qt"`},
		{"decimal comma", parseVolume, "2,5 qt", "a comma is ambiguous here: write 2500 or 2.5"},
		{"one comma, quarts", parseVolume, "2,500 qt", "a comma is ambiguous"},
		{"one comma, litres", parseVolume, "2,500 L", "a comma is ambiguous"},
		{"leading zero", parseVolume, "0,500 mL", "a comma is ambiguous"},
		{"short group", parseVolume, "1,23,456 mL", "a comma is ambiguous"},
		{"long first group", parseVolume, "1234,567 mL", "a comma is ambiguous"},
		{"comma first", parseVolume, ",500 mL", "a comma is ambiguous"},
		{"one comma, kilograms", parseMass, "2,500 kg", "a comma is ambiguous"},
		{"one comma, degrees", parsePoint, "1,000 °C", "a comma is ambiguous"},
		{"no exponent", parseVolume, "2e L", "no digit in the exponent"},
		{"exponent 19", parseVolume, "2e19 L", "the exponent is outside -18 to 18"},
		{"exponent -19", parseVolume, "2e-19 L", "the exponent is outside -18 to 18"},
		{"exponent 1000000000", parseVolume, "2e1000000000 L", "the exponent is outside -18 to 18"},
		{"zero below", parseVolume, "1/0 qt", "zero under the fraction bar"},
		{"nothing below", parseVolume, "1/ qt", "no whole number under the fraction bar"},
		{"fraction above one", parseVolume, "2 3/2 qt", "not below 1"},
		{"decimal and fraction", parseVolume, "2.5 1/2 qt", `goes on with "1/2 qt"`},
		{"19 digits over", parseVolume, "1234567890123456789/2 mL", "more than 18 digits"},
		{"19 digits under", parseVolume, "1/1234567890123456789 mL", "more than 18 digits"},
		{"19 digits in a fraction", parseVolume, "2 1234567890123456789/2 mL", "more than 18 digits"},
		{"19 digits in groups", parseVolume, "1,234,567,890,123,456,789 mL", "more than 18 digits"},
		{"zero below a mixed number", parseVolume, "2 1/0 mL", "zero under the fraction bar"},
		{"exponent alone", parseVolume, "e5 mL", "does not start with a number"},
		{"imperial nothing", parseVolume, "2 imp frobs", "is not a unit of volume"},
		{"decilitres", parseVolume, "2 dL", "a volume, but not one used here"},
		{"a force", parseTorque, "26 lbf", "a force, not a torque"},
		{"a force in newtons", parseTorque, "26 N", "a force, not a torque"},
		{"a time", parseVolume, "5 min", "a time, not a volume"},
		{"a density", parseMass, "867 kg/m³", "a density, not a mass"},
		{"a speed", parseTorque, "700 rpm", "a speed, not a torque"},
		{"a share", parseVolume, "50 %", "a share, not a volume"},
		{"a torque", parseVolume, "5 N·m", "a torque, not a volume"},
		{"a temperature", parseVolume, "5 °C", "a temperature, not a volume"},
		{"kelvin", parseVolume, "5 K", "a temperature, not a volume"},
		{"kgf.cm as kg.cm", parseTorque, "350 kg·cm", "write kgf·cm"},
		{"a long word", parseVolume, "5 ½½½½½½½½½½½½½½½½½½½½½½½½½½½½", "…\" is not a unit of volume"},
		{"19 digits", parseVolume, "1234567890123456789 mL", "more than 18 digits"},
		{"19 decimals", parseVolume, "1.1234567890123456789 mL", "more than 18 digits"},
		{"65 bytes", parseVolume, strings.Repeat("0", 63) + " L", "longer than 64 bytes"},
		{"too large", parseVolume, "92233.720368547758075 L", "past the range of a volume"},
		{"megalitres", parseVolume, "2 ML", "write mL"},
		{"capital quarts", parseVolume, "2 QT", "capitals matter, write qt"},
		{"a mass", parseVolume, "2 oz", "write US fl oz or imp fl oz"},
		{"a length", parseTorque, "26 ft", `"26 ft": "ft" is a length, not a torque; want a number with N·m, lbf·ft, lbf·in, kgf·cm or kgf·m`},
		{"nanometres", parseTorque, "26 nm", "write N·m"},
		{"capital NM", parseTorque, "26 NM", "write N·m"},
		{"nM", parseTorque, "26 nM", "write N·m"},
		{"kilogram metres", parseTorque, "3 kg-m", "write kgf·m"},
		{"a pressure", parseTorque, "26 psi", "a pressure, not a torque"},
		{"a volume", parseTorque, "26 L", "a volume, not a torque"},
		{"unknown", parseTorque, "26 frobs", `"frobs" is not a unit of torque`},
		{"a road distance", parseLength, "3 mi", "a road distance, not a length"},
		{"below absolute zero", parsePoint, "-273.16 °C", "below absolute zero"},
		{"small c", parsePoint, "20 °c", "write °C"},
		{"bare quarts", parseExplicit, "2.5 qt", "may be US or imperial: write US qt or imp qt"},
		{"bare ounces", parseExplicit, "2.5 fl oz", "write US fl oz or imp fl oz"},
		{"full-width digit", parseVolume, "２ qt", "a full-width digit"},
		{"bidi", parseVolume, "2\u202e qt", "a writing-direction mark"},
		{"zero width", parseVolume, "2\u200b qt", "a zero-width character"},
		{"byte-order mark", parseVolume, "\ufeff2 qt", "a zero-width character"},
		{"tab", parseVolume, "2\tqt", "a control character"},
		{"not UTF-8", parseVolume, "2 \xff", "not UTF-8"},
		{"ordinal", parsePoint, "20 \u00baC", "a look-alike of the degree sign"},
		{"upside down", parseVolumeRange, "15 to 12 qt", "the low end is above the high end"},
		{"range without unit", parseVolumeRange, "12 to 15", "no unit"},
		{"hyphen and fraction", parseVolumeRange, "2-1/2 qt", "the hyphen is ambiguous"},
		{"hyphen and sign", parseVolumeRange, "-2-5 qt", "the hyphen is ambiguous"},
		{"three ends", parseVolumeRange, "1..2..3 L", "no digit after the decimal point"},
		{"three dots", parseVolumeRange, "0...2 L", "more than two dots"},
		{"run together", parseVolumeRange, "12to15 qt", ""},
		{"points upside down", parsePoints, "45 to 35 °C", "the low end is above the high end"},
	} {
		err := c.parse(c.in)
		var pe *ParseError
		if !errors.As(err, &pe) {
			t.Errorf("%s: %q: error %v, want a *ParseError", c.name, c.in, err)
			continue
		}
		if !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %q: error %q, want it to hold %q", c.name, c.in, err, c.want)
		}
		if len(pe.Input) > 40 || len(pe.Token) > 40 {
			t.Errorf("%s: %q: echoes more than 40 bytes", c.name, c.in)
		}
	}
}

func TestParseExplicitTakesNamedSystem(t *testing.T) {
	for _, s := range []string{"2.5 US qt", "2.5 imp qt", "2.5 L", "2.5 US gallons", "1 US fl oz"} {
		if _, err := ParseExplicit[VolumeDim](s); err != nil {
			t.Error(err)
		}
	}
}

func TestParseRange(t *testing.T) {
	for _, c := range []struct {
		in        string
		low, high Volume
	}{
		{"9.6..10.4 L", Litre.Of(9.6), Litre.Of(10.4)},
		{"9.6 .. 10.4 L", Litre.Of(9.6), Litre.Of(10.4)},
		{"9.6 L..10.4 L", Litre.Of(9.6), Litre.Of(10.4)},
		{"12 to 15 qt", USQuart.Of(12), USQuart.Of(15)},
		{"12 qt to 15 qt", USQuart.Of(12), USQuart.Of(15)},
		{"12 qt to 15 L", USQuart.Of(12), Litre.Of(15)},
		{"12-15 qt", USQuart.Of(12), USQuart.Of(15)},
		{"12 - 15 qt", USQuart.Of(12), USQuart.Of(15)},
		{"12–15 qt", USQuart.Of(12), USQuart.Of(15)},
		{"2½-3 qt", USQuart.Of(2.5), USQuart.Of(3)},
		{"1/4-1/2 qt", USQuart.Of(0.25), USQuart.Of(0.5)},
		{"2 1/4 to 2 1/2 qt", USQuart.Of(2.25), USQuart.Of(2.5)},
		{"-2 to 5 mL", Millilitre.Of(-2), Millilitre.Of(5)},
		{"1e-3-2e-3 L", Millilitre.Of(1), Millilitre.Of(2)},
		{"2,000 to 2,500 mL", Litre.Of(2), Litre.Of(2.5)},
		{"10 L", Litre.Of(10), Litre.Of(10)},
	} {
		got, err := ParseRange[VolumeDim](c.in)
		if err != nil || got.Low() != c.low || got.High() != c.high {
			t.Errorf("ParseRange(%q) = %v, %v; want %v to %v", c.in, got, err, c.low, c.high)
		}
	}
	r, err := ParseRange[TorqueDim]("22-26 ft-lb")
	if err != nil || r.Low() != PoundForceFoot.Of(22) || r.High() != PoundForceFoot.Of(26) {
		t.Errorf("22-26 ft-lb = %v, %v", r, err)
	}
	low, high, err := ParseTemperatureRange("35 to 45 °C")
	if err != nil || low != Celsius(35) || high != Celsius(45) {
		t.Errorf("35 to 45 °C = %v, %v, %v", low, high, err)
	}
	if _, err := ParseExplicitRange[VolumeDim]("12 to 15 qt"); err == nil {
		t.Error("an explicit range takes a bare qt")
	}
}

func TestParseTooLargeIsOutOfRange(t *testing.T) {
	for _, err := range []error{parseVolume("1e18 L"), parsePoint("-300 °C")} {
		if !errors.Is(err, ErrOutOfRange) {
			t.Errorf("%v does not wrap ErrOutOfRange", err)
		}
	}
}

package units

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"
)

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
		{"leading zero of three", parseVolume, "012,500 mL", "a comma is ambiguous"},
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
		{"fraction of one", parseVolume, "2 2/2 qt", "not below 1"},
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
		{"too large by a tick", parseVolume, "92233.72036854775808 L", "past the range"},
		{"too low by a tick", parseVolume, "-92233.72036854775808 L", "past the range"},
		{"rounds to 2^64 ticks", parseVolume, "184467.440737095516155 L", "past the range"},
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
		{"hyphen and half", parseVolumeRange, "2-½ qt", "the hyphen is ambiguous"},
		{"hyphen and second sign", parseVolumeRange, "2-+5 qt", "the hyphen is ambiguous"},
		{"hyphen and minus", parseVolumeRange, "2--5 qt", "the hyphen is ambiguous"},
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
		if utf8.ValidString(c.in) && !utf8.ValidString(pe.Input+pe.Token) {
			t.Errorf("%s: %q: cuts a character in two: %q, %q", c.name, c.in, pe.Input, pe.Token)
		}
	}
}

func TestParseTooLargeIsOutOfRange(t *testing.T) {
	for _, err := range []error{parseVolume("1e18 L"), parsePoint("-300 °C")} {
		if !errors.Is(err, ErrOutOfRange) {
			t.Errorf("%v does not wrap ErrOutOfRange", err)
		}
	}
}

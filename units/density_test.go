package units

import (
	"strings"
	"testing"
)

func TestParseDensity(t *testing.T) {
	for _, c := range []struct {
		in   string
		want Density
	}{
		{"867.5 kg/m³", 867.5},
		{"867.5 kg/m3", 867.5},
		{"0.8675 kg/L", 867.5},
		{"0.8675 g/mL", 867.5},
		{"0.8675 g/cm³", 867.5},
		{"3.785411784 lb/gal", 453.59237},
	} {
		got, err := ParseDensity(c.in)
		if err != nil || got != c.want {
			t.Errorf("ParseDensity(%q) = %v, %v; want %v", c.in, float64(got), err, float64(c.want))
		}
	}
	for in, want := range map[string]string{
		"867.5":       "no unit; want a number with kg/m³",
		"0 kg/m³":     "not a density above zero",
		"-1 kg/m³":    "not a density above zero",
		"867 kg":      "a mass, not a density",
		"1,000 kg/m³": "a comma is ambiguous",
	} {
		if _, err := ParseDensity(in); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("ParseDensity(%q): error %v, want %q", in, err, want)
		}
	}
	if _, err := ParseExplicitDensity("7.2 lb/gal"); err == nil {
		t.Error("an explicit density takes lb/gal")
	}
}

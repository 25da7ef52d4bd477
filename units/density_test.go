package units

import (
	"math"
	"strconv"
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
		{"3.785411784 lb/US\u00a0gal", 453.59237},
		{"8.675e2 kg/m³", 867.5},
		{"8675/10 kg/m³", 867.5},
	} {
		got, err := ParseDensity(c.in)
		if err != nil || got != c.want {
			t.Errorf("ParseDensity(%q) = %v, %v; want %v", c.in, float64(got), err, float64(c.want))
		}
	}
	for in, want := range map[string]string{
		"867.5":       "no unit; want a number with kg/m³",
		"0 kg/m³":     "outside 1e-6 to 1e6 kg/m³",
		"-1 kg/m³":    "outside 1e-6 to 1e6 kg/m³",
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

func TestDensityConversions(t *testing.T) {
	// Definitions: 1 lb/US gal is 0.45359237 kg over 3.785411784 L. NIST SP 811
	// App. B prints 119.8264 kg/m³ (from memory).
	if got := PoundsPerUSGallon(1).String(); got != "119.8 kg/m³" {
		t.Errorf("1 lb/US gal = %s", got)
	}
	if got := strconv.FormatFloat(PoundsPerUSGallon(1).KilogramsPerCubicMetre(), 'f', 4, 64); got != "119.8264" {
		t.Errorf("1 lb/US gal = %s kg/m³", got)
	}
	for i := 1; i <= 20_000; i++ {
		x := float64(i) / 1000
		if got := PoundsPerUSGallon(x).PoundsPerUSGallon(); got != x {
			t.Fatalf("%v lb/US gal comes back as %v", x, got)
		}
		if got := KilogramsPerLitre(x).KilogramsPerLitre(); got != x {
			t.Fatalf("%v kg/L comes back as %v", x, got)
		}
	}
	for _, x := range []float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e9, 1e-12, math.MaxFloat64, 5e-324} {
		if d := PoundsPerUSGallon(x); d != 0 {
			t.Errorf("%v lb/US gal is %v", x, float64(d))
		}
		d := Density(x)
		if x != 1e9 && (d.KilogramsPerCubicMetre() != 0 || d.PoundsPerUSGallon() != 0 || d.KilogramsPerLitre() != 0) {
			t.Errorf("Density(%v) gives a number", x)
		}
	}
}

func TestDensityEnds(t *testing.T) {
	for _, c := range []struct {
		got, want Density
	}{
		{KilogramsPerLitre(1e-9), leastDensity}, {KilogramsPerLitre(9e-10), 0}, {KilogramsPerLitre(1e3), mostDensity}, {KilogramsPerLitre(1001), 0},
		{PoundsPerUSGallon(1e5), 0}, {KilogramsPerLitre(0.8), 800},
	} {
		if c.got != c.want {
			t.Errorf("%v, want %v", float64(c.got), float64(c.want))
		}
	}
	if text, err := Density(0.1).MarshalText(); err != nil || string(text) != "0.1 kg/m³" {
		t.Errorf("%s, %v", text, err)
	}
}

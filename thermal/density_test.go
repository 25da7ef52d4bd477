package thermal

import (
	"errors"
	"math"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

// TestDensity15Vectors checks the computed vectors of the 2004 route; the two
// forms differ by at most 6.1e-6 of the density.
func TestDensity15Vectors(t *testing.T) {
	for _, row := range published.Load(t, "thermal_vectors").Where("quantity", "rho15_from_observed 2004 route") {
		got, err := Density15(units.Density(input(t, row, "rho_obs")), units.Celsius(input(t, row, "t")))
		if err != nil {
			t.Fatal(err)
		}
		near(t, row.Text("inputs"), float64(got), row.Float("expected"), 6.1e-6*row.Float("expected"))
	}
}

// TestDensity15Inverts: the density observed at a temperature leads back to the
// density at 15 °C it came from.
func TestDensity15Inverts(t *testing.T) {
	r := rand01(11)
	for range 5000 {
		rho := r.between(801, 1163)
		at := units.Celsius(r.between(-50, 150))
		f := mustLubricant(t, rho)
		observed, err := f.Density(at)
		if err != nil {
			t.Fatal(err)
		}
		got, err := Density15(observed, at)
		if err != nil {
			t.Fatal(err)
		}
		near(t, at.String(), float64(got), rho, 1e-15*rho*4)
	}
}

func TestDensity15Refuses(t *testing.T) {
	for _, c := range []struct {
		name     string
		observed units.Density
		at       units.Temperature
	}{
		{"too light", 780, units.Celsius(20)},
		{"too heavy", 1200, units.Celsius(20)},
		{"not a number", units.Density(math.NaN()), units.Celsius(20)},
		{"kg/L", 0.85, units.Celsius(20)},
		{"too hot", 850, units.Celsius(151)},
		{"no temperature", 850, units.Temperature{}},
		{"out of range", 850, units.Celsius(math.Inf(1))},
	} {
		if got, err := Density15(c.observed, c.at); err == nil || got != 0 {
			t.Errorf("%s: %v, %v", c.name, got, err)
		}
	}
	if _, err := Density15(780, units.Celsius(20)); !errors.Is(err, ErrOutsideLaw) {
		t.Error("a light oil is outside the law")
	}
}

// TestMassAndVolume: the mass does not depend on the temperature the volume was
// read at, and mass and volume invert each other.
func TestMassAndVolume(t *testing.T) {
	r := rand01(5)
	table := handbookTable(t)
	withDensity, err := UnknownDensity().WithDensity(850)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []Fluid{mustLubricant(t, 850), table, withDensity} {
		for range 500 {
			a, b := units.Celsius(r.between(0, 100)), units.Celsius(r.between(0, 100))
			v := units.Millilitre.Of(math.Round(r.between(1, 20000)))
			m, err := f.Mass(v, a)
			if err != nil {
				t.Fatal(err)
			}
			back, err := f.Volume(m, a)
			if err != nil {
				t.Fatal(err)
			}
			// A tick of mass, 0.1 ng, is more than a tick of volume.
			near(t, "volume of its mass", back.Sub(v).In(units.Litre), 0, 1e-13)
			m2, err := f.Mass(convert(t, f, v, a, b), b)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "mass at another temperature", m2.Sub(m).In(units.Gram), 0, 2.1e-10)
		}
	}
	rho, err := withDensity.Density(units.Celsius(15))
	if err != nil || rho != 850 {
		t.Errorf("at 15 °C: %v, %v", rho, err)
	}
	// The handbook's engine oil: 884.1 kg/m³ at 26.85 °C, so 2 L weigh 1768.2 g.
	m, err := table.Mass(units.Litre.Of(2), units.Celsius(26.85))
	if err != nil || m.Text(units.Gram, 3) != "1768.200 g" {
		t.Errorf("2 L of engine oil: %s, %v", m, err)
	}
}

func TestDensityRefuses(t *testing.T) {
	at := units.Celsius(20)
	if _, err := UnknownDensity().Density(at); err == nil {
		t.Error("a density nobody gave")
	}
	if _, err := UnknownDensity().Mass(units.Litre.Of(1), at); err == nil {
		t.Error("a mass without a density")
	}
	if _, err := UnknownDensity().Volume(units.Gram.Of(1), at); err == nil {
		t.Error("a volume without a density")
	}
	f := mustLubricant(t, 850)
	if _, err := f.Mass(units.Litre.Of(math.NaN()), at); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
	if _, err := f.Volume(units.Gram.Of(math.NaN()), at); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
	if _, err := f.Volume(units.Kilogram.Of(900_000), at); err == nil {
		t.Error("a volume past the range")
	}
	if _, err := f.WithDensity(850); err == nil {
		t.Error("a second density")
	}
	for _, rho := range []units.Density{0, 0.85, 7, units.Density(math.NaN())} {
		if _, err := UnknownDensity().WithDensity(rho); err == nil {
			t.Errorf("density %v", float64(rho))
		}
	}
	if _, err := (Fluid{}).WithDensity(850); err == nil {
		t.Error("zero fluid")
	}
}

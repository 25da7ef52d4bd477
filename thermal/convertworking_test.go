package thermal

import (
	"strings"
	"testing"

	"example.com/meniscus/units"
)

// TestConvertWorking: the lines hold the figures of the calculation, for each
// law; the coefficient and both factors can be followed on a pocket calculator.
func TestConvertWorking(t *testing.T) {
	table, err := Tabulated([]DensityPoint{{units.Celsius(0), 860}, {units.Celsius(100), 790}})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name  string
		fluid Fluid
		want  string
	}{
		// 0.6278/850 = 738.588e-6; × 45 = 0.0332365; × -5 = -0.0036929.
		{"equation", mustLubricant(t, 850), `coefficient α at 15 °C = K1/ρ15 = 0.6278 / 850 = 738.59e-6 /K
factor F to 15 °C at 60.0 °C = exp[-α·Δt·(1 + 0.8·α·Δt)] = exp[-0.0332365 × (1 + 0.8 × 0.0332365)], Δt = 45.000 K = 0.966455
factor F to 15 °C at 10.0 °C = exp[-α·Δt·(1 + 0.8·α·Δt)] = exp[-(-0.0036929) × (1 + 0.8 × (-0.0036929))], Δt = -5.000 K = 1.003689
volume at 10.0 °C = V·F(from)/F(to) = 2.0000 L × 0.966455 / 1.003689 = 1.9258 L
`},
		{"coefficient", UnknownDensity(), `factor F to 15 °C at 60.0 °C = exp(-c·Δt) = exp(-0.00076 × 45.000) = 0.966378
factor F to 15 °C at 10.0 °C = exp(-c·Δt) = exp(-0.00076 × (-5.000)) = 1.003807
volume at 10.0 °C = V·F(from)/F(to) = 2.0000 L × 0.966378 / 1.003807 = 1.9254 L
`},
		// 860 - 0.7 × 60 = 818; 860 - 0.7 × 10 = 853; 2 × 818/853 = 1.9179.
		{"table", table, `density at 60.0 °C = straight between the rows = -0.7000 kg/m³ per K there = 818.00 kg/m³
density at 10.0 °C = straight between the rows = -0.7000 kg/m³ per K there = 853.00 kg/m³
volume at 10.0 °C = V·ρ(from)/ρ(to) = 2.0000 L × 818.00 / 853.00 = 1.9179 L
`},
	} {
		steps, err := c.fluid.ConvertWorking(units.Litre.Of(2), units.Celsius(60), units.Celsius(10))
		if err != nil {
			t.Fatal(err)
		}
		if got := steps.Text(); got != c.want {
			t.Errorf("%s:\n%swant\n%s", c.name, got, c.want)
		}
	}
	if s, err := mustLubricant(t, 850).ConvertWorking(units.Litre.Of(2), units.Celsius(160), units.Celsius(10)); err == nil || s != nil {
		t.Error("steps outside the law")
	}
}

// TestForecastWorking: what has no moment of its own says so.
func TestForecastWorking(t *testing.T) {
	tr := follow(t, Course{PlateauLow: units.Celsius(43)})
	for i, c := range []float64{38, 39.2, 40.1} {
		tr = added(t, tr, float64(5*i), units.Celsius(c).Fahrenheit())
	}
	f, err := tr.Forecast(Window{Low: units.Celsius(36), High: units.Celsius(46)})
	if err != nil {
		t.Fatal(err)
	}
	text := f.Steps().Text()
	for _, want := range []string{"passed at the start", "the course settles before it", "fitted to 3 readings", "Tinf = 43.0 °C (109.4 °F) given"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in\n%s", want, text)
		}
	}
}

// TestSurfaceWorking: the other way of the reflection has its own formula.
func TestSurfaceWorking(t *testing.T) {
	s, err := Infrared{Reading: units.Celsius(40), Reflected: units.Celsius(20), Emissivity: 0.9, Set: 1, Reflection: ReflectionKept}.Surface()
	if err != nil {
		t.Fatal(err)
	}
	want := "surface, fourth power = [Set·Reading⁴ - (1 - ε)·Refl⁴]/ε = [1 × 313.15⁴ - (1 - 0.9) × 293.15⁴]/0.9 = 315.15⁴ K⁴\n"
	if text := s.Steps().Text(); !strings.Contains(text, want) {
		t.Errorf("%q is missing in\n%s", want, text)
	}
}

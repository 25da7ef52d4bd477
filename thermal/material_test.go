package thermal

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

// TestMaterialTable ties every figure to its row of the outside table.
func TestMaterialTable(t *testing.T) {
	rows := map[string]Material{
		"borosilicate 3.3 glass": BorosilicateGlass,
		"soda-lime glass":        SodaLimeGlass,
		"PP (labware value)":     Polypropylene,
		"PMP (labware value)":    Polymethylpentene,
		"HDPE":                   HDPE,
		"LDPE":                   LDPE,
		"carbon steel":           CarbonSteel,
		"stainless 304":          StainlessSteel,
		"aluminium":              Aluminium,
	}
	table := published.Load(t, "vessel_expansion")
	for name, m := range rows {
		row := table.Find("material", name)
		gamma, u, source := m.Expansion()
		near(t, name, gamma, row.Float("cubic_gamma_per_K"), 0)
		if source == "" || u <= 0 {
			t.Errorf("%s: source %q, u %v", name, source, u)
		}
		memory := strings.Contains(row.Text("mark"), "from memory")
		if memory != strings.Contains(source, "from memory") {
			t.Errorf("%s: source says %q, the table is marked %s", name, source, row.Text("mark"))
		}
		// What the material makes of 2.5 L at 60 °C, to half the last digit printed.
		v, err := Vessel{ID: "x", Material: m}.Contents(units.Litre.Of(2.5), units.Celsius(60))
		if err != nil {
			t.Fatal(err)
		}
		near(t, name+" at 60 °C", v.In(units.Millilitre)-2500, row.Float("effect_2.5L_at_60C_mL"), 0.0501)
	}
	if len(rows) != len(Materials())-1 {
		t.Errorf("%d materials have a row, there are %d and Uncorrected", len(rows), len(Materials())-1)
	}
}

// TestPolypropyleneRange: the published range taken as rectangular gives the u
// stated: width/√12.
func TestPolypropyleneRange(t *testing.T) {
	table := published.Load(t, "vessel_expansion")
	low := table.Find("material", "PP low").Float("cubic_gamma_per_K")
	high := table.Find("material", "PP high").Float("cubic_gamma_per_K")
	gamma, u, _ := Polypropylene.Expansion()
	near(t, "u", u, (high-low)/math.Sqrt(12), 0.05e-5)
	if gamma < low || gamma > high {
		t.Errorf("%g is outside %g to %g", gamma, low, high)
	}
	for m, width := range map[Material]float64{HDPE: 3.0e-4, LDPE: 6.6e-4} {
		_, u, source := m.Expansion()
		near(t, source, u, width/math.Sqrt(12), 0.05e-4)
	}
}

// TestHydrometerGlass: ISO 1768's conventional 25e-6 per °C for glass (seen)
// lies between the two glasses of the table, nearest the ordinary one.
func TestHydrometerGlass(t *testing.T) {
	row := published.Load(t, "thermal_vectors").Find("quantity", "hydrometer_glass")
	text, _, _ := strings.Cut(strings.TrimPrefix(row.Text("expected"), "K=1-"), "*")
	conventional, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	soda, u, _ := SodaLimeGlass.Expansion()
	near(t, "soda-lime", soda, conventional, 2*u)
}

func TestMaterialNames(t *testing.T) {
	for _, m := range Materials() {
		back, err := ParseMaterial(m.String())
		if err != nil || back != m {
			t.Errorf("%s: %v, %v", m, back, err)
		}
		g := growthOf(m)
		if !(g.low < 20 && g.high > 20) || g.source == "" {
			t.Errorf("%s: %+v", m, g)
		}
	}
	for _, s := range []string{"", "unknown", "pp", strings.Repeat("x", 1000)} {
		m, err := ParseMaterial(s)
		if err == nil || m != UnknownMaterial {
			t.Errorf("%q: %v", clip(s), m)
		} else if len(err.Error()) > 300 {
			t.Errorf("%q: error of %d bytes", clip(s), len(err.Error()))
		}
	}
	for _, m := range []Material{UnknownMaterial, materialEnd, 255} {
		if gamma, u, source := m.Expansion(); m.Check() == nil || m.String() != "unknown" || gamma != 0 || u != 0 || source != "" {
			t.Errorf("%d passes for a material", m)
		}
	}
}

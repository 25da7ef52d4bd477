package thermal

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

// TestLevelSensitivity checks every row of the computed table: what the window
// 97 to 115 °F is worth, per °F and less the growth of an aluminium case. The
// table came from the 2004 form and from the expansion of a fixed mass rather
// than of a full case, together at most 7e-7 of the capacity; the rest is half
// a unit of the last digit.
func TestLevelSensitivity(t *testing.T) {
	w := exampleWindow()
	rows := published.Load(t, "level_sensitivity").Rows()
	for _, row := range rows {
		f := mustLubricant(t, row.Float("rho15"))
		capacity := units.Litre.Of(row.Float("system_L"))
		rigid, err := w.Closing(f, capacity, Uncorrected, units.Fahrenheit(115))
		if err != nil {
			t.Fatal(err)
		}
		name := row.Text("system_L") + " L, " + row.Text("rho15")
		forms := 7e-7 * capacity.In(units.Millilitre)
		near(t, name, rigid.Window.In(units.Millilitre), row.Float("dV_over_97_115F_mL"), 0.0501+forms)
		near(t, name+", US qt", rigid.Window.In(units.USQuart), row.Float("dV_window_USqt"), 0.000501)
		near(t, name+", per °F", rigid.Window.In(units.Millilitre)/18, row.Float("mL_per_degF"), 0.00501)
		e, err := f.at(w.Mid())
		if err != nil {
			t.Fatal(err)
		}
		near(t, name+", local coefficient", -e.perKelvin, row.Float("alpha_local_at_106F_per_K"), 0.000501e-4)

		cased, err := w.Closing(f, capacity, Aluminium, units.Fahrenheit(115))
		if err != nil {
			t.Fatal(err)
		}
		near(t, name+", aluminium", cased.Window.In(units.Millilitre), row.Float("same_less_aluminium_case_growth_mL_window"), 0.0501+forms)
	}
	if len(rows) < 15 {
		t.Errorf("only %d rows", len(rows))
	}
}

// TestWindowVectors: 97.46 mL for 12.8 L, 108.12 mL for 14.2 L at 850 kg/m³.
func TestWindowVectors(t *testing.T) {
	for _, row := range published.Load(t, "thermal_vectors").Where("quantity", "expansion over 97-115F") {
		c, err := exampleWindow().Closing(mustLubricant(t, input(t, row, "rho15")), units.Litre.Of(input(t, row, "V(106F)")), Uncorrected, units.Fahrenheit(106))
		if err != nil {
			t.Fatal(err)
		}
		text, _, _ := strings.Cut(row.Text("expected"), " ")
		want, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatal(err)
		}
		near(t, row.Text("inputs"), c.Window.In(units.Millilitre), want, tolerance(t, row))
	}
}

// TestClosingSlow does it the long way: fill the warm case to the hole, cool
// the fluid to mid-window, and compare with the case at mid-window.
func TestClosingSlow(t *testing.T) {
	w := exampleWindow()
	r := rand01(4)
	for range 2000 {
		f := mustLubricant(t, math.Round(r.between(801, 950)))
		capacity := units.Millilitre.Of(math.Round(r.between(500, 20000)))
		at := units.Celsius(math.Round(r.between(0, 120)))
		c, err := w.Closing(f, capacity, Aluminium, at)
		if err != nil {
			t.Fatal(err)
		}
		gamma, _, _ := Aluminium.Expansion()
		warmCase := capacity.Scale(1 + gamma*at.Sub(w.Mid()).In(units.CelsiusDegree))
		cooled := convert(t, f, warmCase, at, w.Mid())
		near(t, "off", c.Off.In(units.Litre), cooled.Sub(capacity).In(units.Litre), 1e-14*capacity.In(units.Litre)+3e-14)
		if hot := at.Compare(w.Mid()); hot*c.Off.Sign() > 0 {
			t.Fatalf("closed at %s the box is off by %s", at, c.Off)
		}
	}
}

// TestClosingAtMid: closing at mid-window costs nothing.
func TestClosingAtMid(t *testing.T) {
	c, err := exampleWindow().Closing(mustLubricant(t, 850), units.Litre.Of(12.8), Aluminium, units.Fahrenheit(106))
	if err != nil || !c.Off.IsZero() || !c.Away.IsZero() {
		t.Errorf("off %s, away %s, %v", c.Off, c.Away, err)
	}
	if c.Low.Sub(c.High) != c.Window || c.Low.Sign() <= 0 || c.High.Sign() >= 0 {
		t.Errorf("low %s, high %s, window %s", c.Low, c.High, c.Window)
	}
}

// TestWorth: the volume of one whole window is worth the whole window, and what
// closing 4 °F away costs is worth 4 °F, but for the bend of the curve.
func TestWorth(t *testing.T) {
	w := exampleWindow()
	f := mustLubricant(t, 850)
	c, err := w.Closing(f, units.Litre.Of(12.8), Aluminium, units.Fahrenheit(102))
	if err != nil {
		t.Fatal(err)
	}
	whole, err := c.Worth(c.Window)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "whole window", whole.In(units.FahrenheitDegree), 18, 1e-9)
	four, err := c.Worth(c.Off)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "4 °F", four.In(units.FahrenheitDegree), 4, 0.04)
	if _, err := (Closing{}).Worth(c.Off); err == nil {
		t.Error("zero Closing")
	}
	if _, err := c.Worth(units.Litre.Of(math.NaN())); !errors.Is(err, units.ErrOutOfRange) {
		t.Error("out of range volume")
	}
}

func TestClosingRefuses(t *testing.T) {
	w, f, c, at := exampleWindow(), mustLubricant(t, 850), units.Litre.Of(12.8), units.Celsius(40)
	for name, do := range map[string]func() (Closing, error){
		"no window":      func() (Closing, error) { return Window{}.Closing(f, c, Aluminium, at) },
		"no fluid":       func() (Closing, error) { return w.Closing(Fluid{}, c, Aluminium, at) },
		"no capacity":    func() (Closing, error) { return w.Closing(f, units.Volume{}, Aluminium, at) },
		"bad capacity":   func() (Closing, error) { return w.Closing(f, units.Litre.Of(math.NaN()), Aluminium, at) },
		"no material":    func() (Closing, error) { return w.Closing(f, c, UnknownMaterial, at) },
		"too hot":        func() (Closing, error) { return w.Closing(f, c, Aluminium, units.Celsius(151)) },
		"case too hot":   func() (Closing, error) { return w.Closing(f, c, LDPE, units.Celsius(81)) },
		"no temperature": func() (Closing, error) { return w.Closing(f, c, Aluminium, units.Temperature{}) },
	} {
		if got, err := do(); err == nil || got != (Closing{}) {
			t.Errorf("%s: %v, %v", name, got, err)
		}
	}
	if (Closing{}).Steps() != nil {
		t.Error("the zero Closing has steps")
	}
}

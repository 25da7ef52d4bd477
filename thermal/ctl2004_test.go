package thermal

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

// TestOfficialExamples reproduces the six worked examples of the 2004 standard
// (seen second-hand). It is the only outside evidence for the equation; the
// constants are those of other product groups.
func TestOfficialExamples(t *testing.T) {
	checked := map[string]int{}
	for _, row := range published.Load(t, "thermal_vectors").Rows() {
		quantity, _, _ := strings.Cut(row.Text("quantity"), " ")
		var pick func(CTLParts) float64
		switch quantity {
		case "temp_IPTS68_F":
			pick = func(p CTLParts) float64 { return p.Scale68 }
		case "rho60_star_kgm3":
			pick = func(p CTLParts) float64 { return float64(p.DensityStar) }
		case "alpha60_per_F":
			pick = func(p CTLParts) float64 { return p.Alpha60 }
		case "CTL_60F_unrounded":
			pick = func(p CTLParts) float64 { return p.Factor }
		default:
			continue
		}
		c, at := officialInput(t, row)
		parts, err := c.Evaluate(at)
		if err != nil {
			t.Fatal(err)
		}
		near(t, quantity+" "+row.Text("inputs"), pick(parts), row.Float("expected"), tolerance(t, row))
		checked[quantity]++
	}
	if fmt.Sprint(checked) != "map[CTL_60F_unrounded:4 alpha60_per_F:4 rho60_star_kgm3:4 temp_IPTS68_F:4]" {
		t.Errorf("checked %v", checked)
	}
}

// officialInput reads "api60=…", "rd60=…" or "rho60=…", "t=…F" and "K=(…)".
func officialInput(t *testing.T, row published.Row) (CTL2004, units.Temperature) {
	t.Helper()
	const water60 = 999.016 // kg/m³ at 60 °F, as the examples use it
	var c CTL2004
	var at units.Temperature
	for _, part := range row.List("inputs") {
		key, text, _ := strings.Cut(part, "=")
		text, _, _ = strings.Cut(text, " ")
		x, _ := strconv.ParseFloat(strings.TrimSuffix(text, "F"), 64)
		switch key {
		case "api60":
			c.Density60 = units.Density(141.5 / (131.5 + x) * water60)
		case "rd60":
			c.Density60 = units.Density(x * water60)
		case "rho60":
			c.Density60 = units.Density(x)
		case "t":
			at = units.Fahrenheit(x)
		case "K":
			if _, err := fmt.Sscanf(text, "(%g,%g,%g)", &c.K0, &c.K1, &c.K2); err != nil {
				t.Fatal(err)
			}
		}
	}
	return c, at
}

// TestLubricatingVectors checks the computed 60 °F vectors of the lubricating group.
func TestLubricatingVectors(t *testing.T) {
	for _, row := range published.Load(t, "thermal_vectors").Where("quantity", "CTL_60F_lube (rho60 known)") {
		parts, err := LubricatingCTL(units.Density(input(t, row, "rho60"))).Evaluate(units.Fahrenheit(input(t, row, "t")))
		if err != nil {
			t.Fatal(err)
		}
		near(t, row.Text("inputs"), parts.Factor, row.Float("expected"), tolerance(t, row))
	}
}

// factor2004 is the 2004 route to 15 °C: find the density at 60 °F whose value
// at 15 °C is rho15, then divide the two corrections.
func factor2004(t testing.TB, rho15 float64, at units.Temperature) float64 {
	t.Helper()
	rho60 := rho15
	var to15 CTLParts
	var err error
	for range 30 {
		if to15, err = LubricatingCTL(units.Density(rho60)).Evaluate(units.Celsius(15)); err != nil {
			t.Fatal(err)
		}
		rho60 = rho15 / to15.Factor
	}
	parts, err := LubricatingCTL(units.Density(rho60)).Evaluate(at)
	if err != nil {
		t.Fatal(err)
	}
	return parts.Factor / to15.Factor
}

// TestTwoForms: the metric form agrees with the 2004 form within 6.1e-6 over
// 820 to 890 kg/m³ and 0 to 110 °C; over the whole range of the law within 8.8e-6.
func TestTwoForms(t *testing.T) {
	near820, whole := 0.0, 0.0
	for rho := 805.0; rho <= 1160; rho += 5 {
		f := mustLubricant(t, rho)
		for c := -50.0; c <= 150; c += 2.5 {
			got, err := f.Factor(units.Celsius(c))
			if err != nil {
				t.Fatal(err)
			}
			diff := math.Abs(got - factor2004(t, rho, units.Celsius(c)))
			whole = math.Max(whole, diff)
			if rho >= 820 && rho <= 890 && c >= 0 && c <= 110 {
				near820 = math.Max(near820, diff)
			}
		}
	}
	if near820 > 6.1e-6 || whole > 8.8e-6 {
		t.Errorf("forms differ by %g, over the whole range %g", near820, whole)
	}
	t.Logf("forms differ by %.3g, over the whole range %.3g", near820, whole)
}

// TestK1 ties the two constants together: 0.34878 per °F is 0.627804 per K
// (published metric constant 0.6278, seen).
func TestK1(t *testing.T) {
	table := published.Load(t, "thermal_vectors")
	row := table.Find("quantity", "K1 metric/customary")
	near(t, "K1", lubricantK160*1.8, row.Float("expected"), tolerance(t, row))
	near(t, "K1 rounded", math.Round(lubricantK160*1.8*1e4)/1e4, lubricantK1, 0)
	near(t, "K1 customary", lubricantK160, table.Find("quantity", "K1 lube customary").Float("expected"), 0)
	if got := table.Find("quantity", "temperature limits").Text("expected"); got != "-58..302 F (-50..150 C)" {
		t.Errorf("the limits are now %q", got)
	}
	if units.Fahrenheit(ctlLow) != units.Celsius(lubricantLow) || units.Fahrenheit(ctlHigh) != units.Celsius(lubricantHigh) {
		t.Error("the limits of the two forms differ")
	}
}

// TestCTLOracle compares the last step with 200-bit arithmetic.
func TestCTLOracle(t *testing.T) {
	r := rand01(9)
	for range 2000 {
		c := LubricatingCTL(units.Density(r.between(801, 1163)))
		parts, err := c.Evaluate(units.Fahrenheit(math.Round(r.between(-58, 302))))
		if err != nil {
			t.Fatal(err)
		}
		d := sub(bigF(parts.Scale68), bigS(t, "60.0068749"))
		bend := add(bigF(1), mul(bigS(t, "0.8"), bigF(parts.Alpha60), add(d, bigS(t, "0.01374979547"))))
		want := bigExp(mul(bigF(-parts.Alpha60), d, bend))
		if e := relative(parts.Factor, want); e > 1e-15 {
			t.Fatalf("relative error %g", e)
		}
	}
}

// TestDensityStarOracle compares the step before it, with all three constants, with
// 200-bit arithmetic: ρ* = ρ{1 + [exp(A(1+0.8A)) - 1]/[1 + A(1+1.6A)B]}.
func TestDensityStarOracle(t *testing.T) {
	r := rand01(10)
	for range 2000 {
		rho := r.between(700, 1100)
		c := CTL2004{Density60: units.Density(rho), K0: r.between(0, 300), K1: r.between(0.05, 0.3), K2: r.between(-1e-4, 2e-4)}
		parts, err := c.Evaluate(units.Fahrenheit(80))
		if err != nil {
			continue // no expansion within the limits
		}
		k0, k1, k2, x := bigF(c.K0), bigF(c.K1), bigF(c.K2), bigF(rho)
		a := mul(div(bigS(t, "0.01374979547"), bigF(2)), add(div(add(div(k0, x), k1), x), k2))
		b := div(add(mul(bigF(2), k0), mul(k1, x)), add(k0, mul(add(k1, mul(k2, x)), x)))
		top := sub(bigExp(mul(a, add(bigF(1), mul(bigS(t, "0.8"), a)))), bigF(1))
		bottom := add(bigF(1), mul(a, add(bigF(1), mul(bigS(t, "1.6"), a)), b))
		want := mul(x, add(bigF(1), div(top, bottom)))
		if e := relative(float64(parts.DensityStar), want); e > 5e-16 {
			t.Fatalf("%+v: %v, relative error %g", c, parts.DensityStar, e)
		}
	}
}

func TestCTLRefuses(t *testing.T) {
	at := units.Fahrenheit(100)
	for name, c := range map[string]CTL2004{
		"zero":         {},
		"no constants": {Density60: 850},
		"too light":    {Density60: 600, K1: 0.3},
		"too heavy":    {Density60: 1164, K1: 0.3},
		"NaN":          {Density60: units.Density(math.NaN()), K1: 0.3},
		"NaN K0":       {Density60: 850, K0: math.NaN()},
		"Inf K2":       {Density60: 850, K2: math.Inf(1)},
		"shrinking":    {Density60: 850, K1: -0.3},
		"cancelling":   {Density60: 850, K0: 850, K1: -1},
	} {
		if p, err := c.Evaluate(at); err == nil || p != (CTLParts{}) {
			t.Errorf("%s: %v, %v", name, p, err)
		}
	}
	if _, err := (CTL2004{Density60: 850, K2: ctlMostAlpha}).Evaluate(at); err != nil {
		t.Errorf("the largest expansion allowed: %v", err)
	}
	for _, temp := range []units.Temperature{{}, units.Fahrenheit(-58.001), units.Fahrenheit(302.001), units.Celsius(math.NaN())} {
		if _, err := LubricatingCTL(850).Evaluate(temp); !errors.Is(err, ErrOutsideLaw) {
			t.Errorf("%s: %v", temp, err)
		}
	}
}

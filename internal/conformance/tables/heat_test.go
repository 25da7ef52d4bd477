package tables

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/internal/published"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

// worked: examples of the 2004 standard, other product groups.
func worked(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Rows() {
		quantity, _, _ := strings.Cut(r.Text("quantity"), " ")
		var pick func(thermal.CTLParts) float64
		switch quantity {
		case "temp_IPTS68_F":
			pick = func(p thermal.CTLParts) float64 { return p.Scale68 }
		case "rho60_star_kgm3":
			pick = func(p thermal.CTLParts) float64 { return float64(p.DensityStar) }
		case "alpha60_per_F":
			pick = func(p thermal.CTLParts) float64 { return p.Alpha60 }
		case "CTL_60F_unrounded":
			pick = func(p thermal.CTLParts) float64 { return p.Factor }
		default:
			continue
		}
		form, at := product(t, r)
		c.see(r, pick(must[thermal.CTLParts](t)(form.Evaluate(at))), r.Float("expected"), r.Float("tolerance"))
	}
}

// product reads "api60=…", "rd60=…" or "rho60=…", "t=…F" and "K=(…)".
func product(t *testing.T, r published.Row) (form thermal.CTL2004, at units.Temperature) {
	t.Helper()
	const water60 = 999.016 // kg/m³ at 60 °F, as the examples use it
	for _, p := range r.List("inputs") {
		key, text, _ := strings.Cut(p, "=")
		text, _, _ = strings.Cut(text, " ")
		switch key {
		case "api60":
			form.Density60 = units.Density(141.5 / (131.5 + number(t, text)) * water60)
		case "rd60":
			form.Density60 = units.Density(number(t, text) * water60)
		case "rho60":
			form.Density60 = units.Density(number(t, text))
		case "t":
			at = units.Fahrenheit(lead(t, text))
		case "K":
			if _, err := fmt.Sscanf(text, "(%g,%g,%g)", &form.K0, &form.K1, &form.K2); err != nil {
				t.Fatal(err)
			}
		}
	}
	return form, at
}

func lubricating(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Where("quantity", "CTL_60F_lube (rho60 known)") {
		form := thermal.LubricatingCTL(units.Density(part(t, r, "rho60")))
		c.see(r, must[thermal.CTLParts](t)(form.Evaluate(units.Fahrenheit(part(t, r, "t")))).Factor, r.Float("expected"), r.Float("tolerance"))
	}
}

func factor(t *testing.T, rho15, celsius float64) float64 {
	t.Helper()
	return must[float64](t)(must[thermal.Fluid](t)(thermal.Lubricant(units.Density(rho15))).Factor(units.Celsius(celsius)))
}

// grid: the metric form to the digits of the grid, and against the 2004 form to
// what the two forms differ by.
func grid(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Rows() {
		got := factor(t, r.Float("rho15_kgm3"), r.Float("temp_C"))
		c.see(r, got, r.Float("vcf15_1980eq_K1_0.6278_unrounded"), 5.1e-10)
		c.see(r, got, r.Float("vcf15_2004_unrounded"), 6.1e-6)
	}
}

func metric(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Where("quantity", "VCF_15C_lube 2004 route") {
		c.see(r, factor(t, part(t, r, "rho15"), part(t, r, "t")), r.Float("expected"), 6.1e-6)
	}
}

func observed(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Where("quantity", "rho15_from_observed 2004 route") {
		got := must[units.Density](t)(thermal.Density15(units.Density(part(t, r, "rho_obs")), units.Celsius(part(t, r, "t"))))
		c.see(r, float64(got), r.Float("expected"), 6.1e-6*r.Float("expected"))
	}
}

func warming(t *testing.T, table *published.Table, c *comparison) {
	rows := table.Where("quantity", "lumped")
	thermocouple := thermal.Lumped{Start: units.Celsius(20), Plateau: units.Celsius(200), Tau: 1116 * time.Millisecond}
	c.see(rows[0], must[units.Temperature](t)(thermocouple.At(5*time.Second)).Celsius(), lead(t, rows[0].Text("expected")), rows[0].Float("tolerance"))
	// A bead of 0.706 mm, τ = ρ·cp·D/(6h): the book has 5.2 s.
	tau := 8500 * 400 * 0.706e-3 / (6 * 400)
	bead := thermal.Lumped{Start: units.Celsius(25), Plateau: units.Celsius(200), Tau: time.Duration(tau * 1e9)}
	c.see(rows[1], must[time.Duration](t)(bead.Reach(units.Celsius(199))).Seconds(), 5.2, rows[1].Float("tolerance"))
	r := table.Find("quantity", "time to target")
	box := thermal.Lumped{Start: units.Fahrenheit(75), Plateau: units.Fahrenheit(180), Tau: 25 * time.Minute}
	for i, target := range []float64{97, 115} {
		_, text, _ := strings.Cut(r.List("expected")[i], "=")
		c.see(r, must[time.Duration](t)(box.Reach(units.Fahrenheit(target))).Minutes(), lead(t, text), r.Float("tolerance"))
	}
}

func infrared(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Where("quantity", "IR correction, total-radiation T^4 form") {
		if part(t, r, "eps") < 0.5 {
			continue // refused
		}
		i := thermal.Infrared{
			Reading: units.Fahrenheit(part(t, r, "reading")), Reflected: units.Celsius(20),
			Emissivity: part(t, r, "eps"), Set: part(t, r, "set"), Reflection: thermal.ReflectionSubtracted,
		}
		c.see(r, must[thermal.Surface](t)(i.Surface()).Temperature.Fahrenheit(), lead(t, r.Text("expected")), r.Float("tolerance"))
	}
	r := table.Find("quantity", "IR T^4 exact check")
	i := thermal.Infrared{Reading: units.Celsius(36.85), Reflected: units.Celsius(20), Emissivity: 0.5, Set: 1, Reflection: thermal.ReflectionSubtracted}
	c.see(r, must[thermal.Surface](t)(i.Surface()).Temperature.Kelvin(), lead(t, r.Text("expected")), r.Float("tolerance"))
}

func window(t *testing.T, table *published.Table, c *comparison) {
	w := thermal.Window{Low: units.Fahrenheit(97), High: units.Fahrenheit(115)}
	for _, r := range table.Rows() {
		fluid := must[thermal.Fluid](t)(thermal.Lubricant(units.Density(r.Float("rho15"))))
		capacity := litres(r.Float("system_L"))
		forms := 7e-4 * r.Float("system_L") // mL: the table is of the 2004 form
		closing := must[thermal.Closing](t)
		rigid := closing(w.Closing(fluid, capacity, thermal.Uncorrected, units.Fahrenheit(115)))
		cased := closing(w.Closing(fluid, capacity, thermal.Aluminium, units.Fahrenheit(115)))
		c.see(r, rigid.Window.In(units.Millilitre), r.Float("dV_over_97_115F_mL"), 0.0501+forms)
		c.see(r, rigid.Window.In(units.USQuart), r.Float("dV_window_USqt"), 0.000501)
		c.see(r, rigid.Window.In(units.Millilitre)/18, r.Float("mL_per_degF"), 0.00501)
		c.see(r, cased.Window.In(units.Millilitre), r.Float("same_less_aluminium_case_growth_mL_window"), 0.0501+forms)
	}
}

func adapters(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Rows() {
		if !r.Has("published_setting") {
			continue // computed, no outside value
		}
		a := sealing.Adapter{
			Wanted: units.NewtonMetre.Of(r.Float("T_wanted")), // the formula has no unit of its own
			Lever:  units.Inch.Of(r.Float("L")), Extension: units.Inch.Of(r.Float("E")), AngleDegrees: r.Float("angle_deg"),
		}
		set := must[sealing.Setting](t)(a.Setting()).Set.In(units.NewtonMetre)
		if !r.Bool("agrees") {
			c.wrong(r, set, r.Float("published_setting"), r.Float("tolerance"))
			continue
		}
		c.see(r, set, r.Float("published_setting"), r.Float("tolerance"))
	}
}

func threads(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Rows() {
		th := must[sealing.Thread](t)(sealing.ParseThread(r.Text("thread")))
		c.see(r, th.Diameter().In(units.Millimetre), r.Float("d_mm"), 0)
		c.see(r, th.Pitch().In(units.Millimetre), r.Float("pitch_mm"), 0)
		c.see(r, th.Minor().In(units.Millimetre), r.Float("d3_mm"), 0.0006)
	}
}

package scientific

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// Volume correction against the same equation at 60 digits.
func TestFactorAgainstMpmath(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 20))
	var all [][2]float64
	for range 3000 {
		all = append(all, [2]float64{rounded(r, 801, 1163), rounded(r, -50, 150)})
	}
	var factor, density, there worst
	for i, want := range ask[[]float64](t, "factors", map[string]any{"cases": all}) {
		rho, at := units.Density(all[i][0]), units.Celsius(all[i][1])
		fluid, err := thermal.Lubricant(rho)
		if err != nil {
			t.Fatal(err)
		}
		got, err := fluid.Factor(at)
		if err != nil {
			t.Fatal(err)
		}
		factor.see(relative(got, want), "%v", all[i])
		d, err := fluid.Density(at)
		if err != nil {
			t.Fatal(err)
		}
		density.see(relative(float64(d), want*all[i][0]), "%v", all[i])
		v := units.Litre.Of(3)
		at15, err := fluid.Convert(v, at, thermal.ReferenceTemperature())
		if err != nil {
			t.Fatal(err)
		}
		there.see(relative(at15.In(units.Litre), 3*want), "%v", all[i])
	}
	factor.within(t, 5e-16, "factor")
	density.within(t, 1e-15, "density")
	there.within(t, 1e-14, "volume at 15 °C")
}

// A measured volume between two measured temperatures: the doubt of the one
// coefficient is shared by both corrections.
func TestConvertMeasuredAgainstMpmath(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 60))
	var all [][8]float64
	var got []measure.Volume
	for range 400 {
		rho, v, from, to := rounded(r, 801, 1100), rounded(r, 0.5, 8), rounded(r, -10, 120), rounded(r, -10, 120)
		fluid, err := thermal.Lubricant(units.Density(rho))
		if err != nil {
			t.Fatal(err)
		}
		uv, ua, ub := spread(r, 1e-4, 0.05), between(r, 0.1, 3), between(r, 0.1, 3)
		volume, errV := measure.MeasuredFrom[units.VolumeDim](reading(t, "volume", "normal", v, uv))
		a, errA := temperature("from", from, ua)
		b, errB := temperature("to", to, ub)
		out, err := fluid.ConvertMeasured(volume, a, b)
		if err := errors.Join(errV, errA, errB, err); err != nil {
			t.Fatal(err)
		}
		all = append(all, [8]float64{rho, fluid.Doubt().Expansion, v, uv, from, ua, to, ub})
		got = append(got, out)
	}
	var best, u worst
	for i, want := range ask[[][2]float64](t, "converted", map[string]any{"cases": all}) {
		best.see(relative(got[i].Reading().Value(), want[0]), "%v", all[i])
		u.see(relative(got[i].Reading().U(), want[1]), "%v", all[i])
	}
	best.within(t, 1e-13, "volume")
	u.within(t, 1e-10, "its standard uncertainty")
}

func temperature(id string, celsius, u float64) (measure.Temperature, error) {
	c, err := measure.NewCause(id, "", measure.Normal, 0)
	if err != nil {
		return measure.Temperature{}, err
	}
	return measure.NewTemperature(units.Celsius(celsius), measure.Term{Cause: c, Scale: u})
}

// The density at 15 °C from one observed, against a general root finder.
func TestDensity15AgainstRootFinder(t *testing.T) {
	r := rand.New(rand.NewPCG(85, 15))
	var all [][2]float64
	for range 500 {
		all = append(all, [2]float64{rounded(r, 870, 1050), rounded(r, -20, 100)})
	}
	var w worst
	for i, want := range ask[[]float64](t, "density15", map[string]any{"cases": all}) {
		got, err := thermal.Density15(units.Density(all[i][0]), units.Celsius(all[i][1]))
		if err != nil {
			t.Fatal(err)
		}
		w.see(relative(float64(got), want), "%v", all[i])
	}
	w.within(t, 1e-12, "density at 15 °C")
}

// The 2004 form, for product groups of all three kinds of constants.
func TestCTL2004AgainstMpmath(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 4))
	groups := [][3]float64{{0, 0.34878, 0}, {341.0957, 0, 0}, {192.4571, 0.2438, 0}, {1489.067, 0, -0.00186840}, {103.872, 0.2701, 0}}
	var all [][5]float64
	for range 1000 {
		g := groups[r.IntN(len(groups))]
		all = append(all, [5]float64{rounded(r, 800, 1160), g[0], g[1], g[2], rounded(r, -58, 302)})
	}
	var scale, star, alpha, factor worst
	refused := 0
	for i, want := range ask[[][4]float64](t, "ctl2004", map[string]any{"cases": all}) {
		c := all[i]
		got, err := thermal.CTL2004{Density60: units.Density(c[0]), K0: c[1], K1: c[2], K2: c[3]}.Evaluate(units.Fahrenheit(c[4]))
		if err != nil {
			refused++ // constants that do not expand at this density
			if want[2] > 0 && want[2] < 1.9e-3 {
				t.Errorf("%v: %v", c, err)
			}
			continue
		}
		scale.see(math.Abs(got.Scale68-want[0])/300, "%v", c)
		star.see(relative(float64(got.DensityStar), want[1]), "%v", c)
		alpha.see(relative(got.Alpha60, want[2]), "%v", c)
		factor.see(relative(got.Factor, want[3]), "%v", c)
	}
	t.Logf("%d refused", refused)
	scale.within(t, 5e-16, "temperature on the scale of 1968, over 300 °F")
	star.within(t, 1e-15, "density at the base")
	alpha.within(t, 1e-12, "coefficient") // K1/rho + K2 all but cancel
	factor.within(t, 2e-15, "factor")
}

// A lumped body against an integrator, and its time constant fitted to noisy
// readings against numpy's weighted line.
func TestWarmingAgainstNumpy(t *testing.T) {
	type course struct {
		Plateau  float64   `json:"plateau"`
		Seconds  []float64 `json:"seconds"`
		Readings []float64 `json:"readings"`
	}
	r := rand.New(rand.NewPCG(97, 115))
	var bodies [][4]float64
	var courses []course
	for range 200 {
		start, plateau, tau := rounded(r, 5, 30), rounded(r, 70, 100), math.Round(between(r, 300, 3000))
		bodies = append(bodies, [4]float64{start, plateau, tau, math.Round(between(r, 1, 5000))})
		c := course{Plateau: plateau}
		for k := range 6 + r.IntN(10) {
			at := float64(k * 60)
			c.Seconds = append(c.Seconds, at)
			c.Readings = append(c.Readings, math.Round((plateau-(plateau-start)*math.Exp(-at/tau)+0.05*r.NormFloat64())*100)/100)
		}
		courses = append(courses, c)
	}
	var body worst
	for i, want := range ask[[]float64](t, "lumped", map[string]any{"cases": bodies}) {
		b := bodies[i]
		got, err := thermal.Lumped{Start: units.Celsius(b[0]), Plateau: units.Celsius(b[1]), Tau: time.Duration(b[2]) * time.Second}.At(time.Duration(b[3]) * time.Second)
		if err != nil {
			t.Fatal(err)
		}
		body.see(math.Abs(got.Celsius()-want), "%v", b)
	}
	body.within(t, 1e-8, "kelvin, lumped body")
	var tau worst
	for i, want := range ask[[][2]float64](t, "warming", map[string]any{"cases": courses}) {
		tau.see(relative(fitted(t, courses[i].Plateau, courses[i].Seconds, courses[i].Readings), want[0]), "%+v", courses[i])
	}
	tau.within(t, 1e-9, "time constant")
}

func fitted(t *testing.T, plateau float64, seconds, readings []float64) float64 {
	t.Helper()
	trend, err := thermal.Follow(thermal.Course{PlateauLow: units.Celsius(plateau)})
	for i, at := range seconds {
		if err == nil {
			trend, err = trend.Add(time.Duration(at)*time.Second, units.Celsius(readings[i]))
		}
	}
	fit, errFit := trend.Fit()
	if err := errors.Join(err, errFit); err != nil {
		t.Fatal(err)
	}
	return fit.Tau.Seconds()
}

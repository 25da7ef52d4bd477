package measure_test

import (
	"math"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units/measure"
)

// uncertain is a reading with one cause of its own.
func uncertain(tb testing.TB, id string, x, u float64, shape measure.Shape, dof float64) measure.Reading {
	tb.Helper()
	c, err := measure.NewCause(id, "", shape, dof)
	if err != nil {
		tb.Fatal(err)
	}
	return reading(tb, x, measure.Term{Cause: c, Scale: u})
}

// endGauge is the calibration of a gauge block, JCGM 100:2008 H.1, in nm.
func endGauge(tb testing.TB) measure.Propagation {
	tb.Helper()
	d := uncertain(tb, "d/repeat", 215, 5.8, measure.Normal, 24).
		Plus(uncertain(tb, "d/random", 0, 3.9, measure.Normal, 5)).
		Plus(uncertain(tb, "d/systematic", 0, 6.7, measure.Normal, 8))
	return measure.Propagation{
		Inputs: []measure.Input{
			{Name: "l_s", Of: uncertain(tb, "l_s", 50000623, 25, measure.Normal, 18)},
			{Name: "d", Of: d},
			{Name: "δα", Of: uncertain(tb, "delta-alpha", 0, 1e-6/math.Sqrt(3), measure.Rectangular, 50)},
			{Name: "θ", Of: uncertain(tb, "theta", -0.1, 0.41, measure.Arcsine, 0)},
			{Name: "α_s", Of: uncertain(tb, "alpha-s", 11.5e-6, 2e-6/math.Sqrt(3), measure.Rectangular, 0)},
			{Name: "δθ", Of: uncertain(tb, "delta-theta", 0, 0.05/math.Sqrt(3), measure.Rectangular, 2)},
		},
		Model: func(x []float64) float64 { return x[0] + x[1] - x[0]*(x[2]*x[3]+x[4]*x[5]) },
	}
}

func TestGUMH1(t *testing.T) {
	p := endGauge(t)
	r, err := measure.Propagate(p)
	if err != nil {
		t.Fatal(err)
	}
	e, err := r.Expanded(0.99)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]float64{
		"u_c(l) first order nm": r.U(), "nu_eff": r.DoF(), "u(d) nm": p.Inputs[1].Of.U(), "U99 nm": e.U,
	}
	checked := 0
	for _, row := range published.Load(t, "uncertainty_vectors").Where("id", "GUM-H1") {
		what := row.Text("quantity")
		if what == "u_c incl. 2nd-order nm" {
			if math.Abs(r.U()-row.Float("published")) < 2 {
				t.Errorf("u = %v is the second-order figure; a linear engine must not give it", r.U())
			}
			continue
		}
		if what == "nu_eff" {
			near(t, what+" truncated", math.Floor(got[what]), 16, 0) // published as "16 (truncated)"
			near(t, what, got[what], row.Float("recomputed"), 1e-3)  // there ν(d) is rounded to 25.6 first
			checked++
			continue
		}
		near(t, what, got[what], row.Float("published"), row.Float("tolerance"))
		if what != "U99 nm" { // recomputed there from u rounded to 32
			near(t, what+" recomputed", got[what], row.Float("recomputed"), 1e-5)
		}
		checked++
	}
	if checked != 4 {
		t.Errorf("checked %d figures, want 4", checked)
	}
	near(t, "l", r.Value(), 50000838, 1e-6)
}

// The same result with the sensitivities of H.1.3 given by hand.
func TestGUMH1GivenSensitivities(t *testing.T) {
	p := endGauge(t)
	numeric, err := measure.Propagate(p)
	if err != nil {
		t.Fatal(err)
	}
	p.Sensitivities = []float64{1, 1, 50000623 * 0.1, 0, 0, -50000623 * 11.5e-6}
	given, err := measure.Propagate(p)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "numeric against given u", numeric.U(), given.U(), 1e-6)
	near(t, "numeric against given ν", numeric.DoF(), given.DoF(), 1e-6)
}

// NIST TN 1900 E13: the coefficient of expansion of a copper bar.
func TestTN1900E13(t *testing.T) {
	row := published.Load(t, "uncertainty_vectors").Find("id", "TN1900-E13")
	student := func(id string, x, u float64) measure.Input {
		return measure.Input{Name: id, Of: uncertain(t, id, x, u, measure.Student, 3)}
	}
	r, err := measure.Propagate(measure.Propagation{
		Inputs: []measure.Input{student("L0", 1.4999, 1e-4), student("L1", 1.5021, 2e-4), student("T0", 288.15, 0.02), student("T1", 373.10, 0.05)},
		Model:  func(x []float64) float64 { return (x[1] - x[0]) / (x[0] * (x[3] - x[2])) },
	})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "alpha", r.Value(), row.Float("published"), row.Float("tolerance"))
	near(t, "alpha recomputed", r.Value(), row.Float("recomputed"), 1e-17)
	// By hand: u(α) is u(L1-L0) over L0·ΔT but for a few per mille.
	near(t, "u(alpha)", r.U(), math.Hypot(1e-4, 2e-4)/(1.4999*84.95), 1e-8)
}

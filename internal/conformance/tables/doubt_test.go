package tables

import (
	"context"
	"math"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units/measure"
)

func reading(t *testing.T, id string, x, u float64, shape measure.Shape, dof float64) measure.Reading {
	t.Helper()
	cause := must[*measure.Cause](t)(measure.NewCause(id, "", shape, dof))
	return must[measure.Reading](t)(measure.New(x, measure.Term{Cause: cause, Scale: u}))
}

// linear: the gauge block of JCGM 100 H.1, in nm, and the copper bar of NIST TN
// 1900 E13. A linear engine must not give the second-order figure of H.1.
func linear(t *testing.T, table *published.Table, c *comparison) {
	thin := math.Sqrt(3)
	d := reading(t, "d/repeat", 215, 5.8, measure.Normal, 24).
		Plus(reading(t, "d/random", 0, 3.9, measure.Normal, 5)).Plus(reading(t, "d/systematic", 0, 6.7, measure.Normal, 8))
	r := must[measure.Reading](t)(measure.Propagate(measure.Propagation{
		Inputs: []measure.Input{
			{Of: reading(t, "l_s", 50000623, 25, measure.Normal, 18)}, {Of: d},
			{Of: reading(t, "delta-alpha", 0, 1e-6/thin, measure.Rectangular, 50)}, {Of: reading(t, "theta", -0.1, 0.41, measure.Arcsine, 0)},
			{Of: reading(t, "alpha-s", 11.5e-6, 2e-6/thin, measure.Rectangular, 0)}, {Of: reading(t, "delta-theta", 0, 0.05/thin, measure.Rectangular, 2)},
		},
		Model: func(x []float64) float64 { return x[0] + x[1] - x[0]*(x[2]*x[3]+x[4]*x[5]) },
	}))
	got := map[string]float64{
		"u_c(l) first order nm": r.U(), "nu_eff": r.DoF(), "u(d) nm": d.U(), "U99 nm": must[measure.Expanded](t)(r.Expanded(0.99)).U,
	}
	for _, row := range table.Where("id", "GUM-H1") {
		what := row.Text("quantity")
		switch x, ok := got[what]; {
		case ok && what == "nu_eff": // printed as "16 (truncated)"
			c.see(row, math.Floor(x), lead(t, row.Text("published")), 0)
		case ok:
			c.see(row, x, row.Float("published"), row.Float("tolerance"))
		default:
			c.wrong(row, r.U(), row.Float("published"), 2)
		}
	}
	row := table.Find("id", "TN1900-E13")
	bar := must[measure.Reading](t)(measure.Propagate(measure.Propagation{
		Inputs: []measure.Input{
			{Of: reading(t, "L0", 1.4999, 1e-4, measure.Student, 3)}, {Of: reading(t, "L1", 1.5021, 2e-4, measure.Student, 3)},
			{Of: reading(t, "T0", 288.15, 0.02, measure.Student, 3)}, {Of: reading(t, "T1", 373.10, 0.05, measure.Student, 3)},
		},
		Model: func(x []float64) float64 { return (x[1] - x[0]) / (x[0] * (x[3] - x[2])) },
	}))
	c.see(row, bar.Value(), row.Float("published"), row.Float("tolerance"))
}

// simulated: sums of four of JCGM 101, 9.2.2 to 9.2.4.
func simulated(t *testing.T, table *published.Table, c *comparison) {
	for _, k := range []struct {
		id    string
		shape measure.Shape
		last  float64
	}{{"S1-9.2.2", measure.Normal, 1}, {"S1-9.2.3", measure.Rectangular, 1}, {"S1-9.2.4", measure.Rectangular, 10}} {
		var inputs []measure.Input
		for i, u := range []float64{1, 1, 1, k.last} {
			inputs = append(inputs, measure.Input{Of: reading(t, string(rune('a'+i)), 0, u, k.shape, 0)})
		}
		o := must[*measure.Outcome](t)(measure.Simulate(context.Background(), measure.Simulation{
			Inputs: inputs, Model: func(x []float64) float64 { return x[0] + x[1] + x[2] + x[3] }, Trials: 1 << 21, Seed: 1, Workers: 2,
		}))
		row := table.Where("id", k.id)[0]
		interval := must[measure.Interval](t)(o.Interval(0.95))
		c.see(row, interval.Width()/2, row.Float("published"), row.Float("tolerance"))
	}
}

// conformity: distance from a limit for a conformance probability, JCGM 106
// table 1, and the risks of guard bands, ILAC-G8.
func conformity(t *testing.T, table *published.Table, c *comparison) {
	for _, row := range table.Where("id", "106-T1") {
		p := number(t, strings.TrimPrefix(row.Text("inputs"), "p_c="))
		d := must[measure.Decision](t)(measure.Decide(measure.AtLeast(40), reading(t, "a", 50, 2, measure.Normal, 0), 1-p))
		c.see(row, (d.AcceptLow-40)/2, row.Float("published"), row.Float("tolerance"))
	}
	guards := map[string]float64{"A=TL-2u, y=A": 2, "A=TL-1.645u": 1.645}
	for _, row := range table.Where("id", "ILAC-G8") {
		d := must[measure.Decision](t)(measure.Decide(measure.AtMost(10), reading(t, "a", 10-guards[row.Text("inputs")], 1, measure.Normal, 0), 0.05))
		c.see(row, d.Above, row.Float("recomputed"), 1e-12)
	}
}

// doubt: five drains of N(2.4, 0.05) L from a box of 11.36 to 14.2 L.
func doubt(t *testing.T, table *published.Table, c *comparison) {
	m := measure.Mixture{Low: 11.36, High: 14.2, Given: func(capacity float64) measure.Component {
		x := 1 - 2.4/capacity
		e := 0.05 / capacity / x
		mean := math.Pow(x, 5)
		return measure.Component{Mean: mean, SD: mean * math.Sqrt(math.Pow(1+e*e, 5)-1)}
	}}
	p := map[string]float64{"q2.5": 0.025, "q50": 0.5, "q97.5": 0.975}
	for _, row := range table.Where("id", "EXCH-ref") {
		c.see(row, must[float64](t)(m.Quantile(p[row.Text("quantity")])), row.Float("recomputed"), 5e-6)
	}
}

package tables

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/meniscus/exchange"
	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"github.com/shopspring/decimal"
)

func remaining(t *testing.T, capacity float64, drains ...float64) float64 {
	t.Helper()
	var all []units.Volume
	for _, d := range drains {
		all = append(all, litres(d))
	}
	return must[float64](t)(exchange.Remaining(exchange.System{Capacity: litres(capacity)}, all))
}

func repeated(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Where("law", "repeated") {
		capacity, d, scale, inputs := 1.0, 0.0, 1.0, r.Text("inputs")
		switch {
		case strings.HasPrefix(inputs, "C="):
			capacity, d = r.Input("inputs", "C"), r.Input("inputs", "d")
			if strings.Contains(inputs, "amount=") {
				scale = r.Input("inputs", "amount")
			}
		case strings.HasPrefix(inputs, "r="):
			d, scale = r.Input("inputs", "r"), r.Input("inputs", "start")
		case strings.HasPrefix(inputs, "d/C=2/3"):
			capacity, d = 3, 2
		default:
			t.Fatalf("line %d: inputs %q are in no known form", r.Line(), inputs)
		}
		c.row(r, scale*remaining(t, capacity, slices.Repeat([]float64{d}, int(r.Input("inputs", "n")))...))
	}
	// Factors 1/3, 1/5, 1/5, 1/5, 1/5 and then 1/11: of 165.
	series := map[string][]float64{"rep-14": {110, 132, 132, 132, 132}, "rep-15": {110, 132, 132, 132, 132, 150}}
	for _, r := range table.Where("law", "repeated unequal") {
		c.row(r, remaining(t, 165, series[r.Text("id")]...))
	}
	r := table.Find("law", "repeated with impure refill")
	start, d := r.Input("inputs", "start"), litres(r.Input("inputs", "d"))
	st := must[exchange.State](t)(exchange.Start(exchange.System{Capacity: litres(r.Input("inputs", "C"))}))
	st = must[exchange.State](t)(st.Drain(d))
	st = must[exchange.State](t)(st.Refill(d, r.Input("inputs", "fill")/start))
	c.wrong(r, start*st.OldShare(), r.Float("published"), 1)
	r = table.Find("law", "pressure swing") // 20 % at 7.8, let down to 1
	c.row(r, 20*remaining(t, 7.8, 6.8))
}

func cycles(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Where("law", "cycles") {
		n := must[int](t)(exchange.Cycles(r.Input("inputs", "target")/r.Input("inputs", "start"), litres(1), litres(r.Input("inputs", "r"))))
		c.see(r, float64(n), r.Float("published"), 0)
	}
	for _, r := range table.Where("law", "cycles real") {
		c.row(r, must[float64](t)(exchange.RealCycles(r.Input("inputs", "share"), litres(1), litres(r.Input("inputs", "r")))))
	}
	purges := map[string][4]float64{"rep-17": {0.21, 0.01, 1, 0.5}, "rep-18": {0.21, 5e-6, 760, 6}} // from, to, high, low
	for _, r := range table.Where("law", "vacuum swing cycles real") {
		p := purges[r.Text("id")]
		c.row(r, must[float64](t)(exchange.RealCycles(p[1]/p[0], litres(p[2]/2), litres((p[2]-p[3])/2))))
	}
}

func washout(t *testing.T, table *published.Table, c *comparison) {
	volumeTo := func(capacity, target float64) float64 {
		f := exchange.ThroughFlow{Capacity: litres(capacity), Flow: exchange.FlowMixed}
		return must[units.Volume](t)(f.VolumeTo(target)).In(units.Litre)
	}
	for _, r := range table.Where("law", "washout") {
		inputs := r.Text("inputs")
		switch {
		case strings.HasPrefix(inputs, "ACH="):
			per, removal, _ := strings.Cut(strings.TrimPrefix(inputs, "ACH="), ";removal=")
			left := 1 - number(t, strings.TrimSuffix(removal, "%"))/100
			c.row(r, 60*volumeTo(1, left)/number(t, per))
		case inputs == "V=3.4;21%->1%":
			c.row(r, volumeTo(3.4, 1.0/21))
		case inputs == "21%->1%":
			c.row(r, volumeTo(1, 1.0/21))
		case inputs == "20%->5%":
			c.row(r, volumeTo(1, 0.25))
		case strings.HasPrefix(inputs, "theta="):
			f := exchange.ThroughFlow{Capacity: litres(1), Volume: litres(r.Input("inputs", "theta")), Flow: exchange.FlowMixed}
			c.row(r, 100*(1-must[exchange.Flushed](t)(f.Flush()).Share.High))
		default:
			t.Fatalf("line %d: inputs %q are in no known form", r.Line(), inputs)
		}
	}
}

func tanks(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Where("law", "tanks in series") {
		f := exchange.ThroughFlow{
			Capacity: litres(1), Volume: litres(r.Input("inputs", "theta")), Flow: exchange.FlowTanks, Tanks: int(r.Input("inputs", "N")),
		}
		c.row(r, must[exchange.Flushed](t)(f.Flush()).Share.High)
	}
}

// mixing: salt water between two tanks, 10 and 40 lb, as shares of the saltier.
func mixing(t *testing.T, table *published.Table, c *comparison) {
	state := must[exchange.State](t)
	for _, r := range table.Where("law", "two zones") {
		s, h := r.Input("inputs", "S"), r.Input("inputs", "H")
		run := exchange.MixingRun{Flow: litres(r.Input("inputs", "q")), Minutes: r.Input("inputs", "t"), Sump: litres(s), Held: litres(h)}
		m := must[float64](t)(run.Share())
		most := 40 / h
		st := state(exchange.Start(exchange.System{Capacity: litres(s + h), Sump: litres(s)}))
		st = state(st.Drain(litres(s)))
		st = state(st.Refill(litres(s), 10/s/most))
		st = state(st.Mix(m))
		if strings.HasSuffix(r.Text("id"), "-B") {
			c.row(r, st.HeldShare()*most*h)
			continue
		}
		c.row(r, st.DrainShare()*most*s)
	}
	r := table.Find("law", "mixing rate q(1/S+1/H)")
	run := exchange.MixingRun{Flow: litres(r.Input("inputs", "q")), Minutes: 1, Sump: litres(r.Input("inputs", "S")), Held: litres(r.Input("inputs", "H"))}
	c.row(r, -math.Log1p(-must[float64](t)(run.Share())))
}

func twoZones(t *testing.T, table *published.Table, c *comparison) {
	state := must[exchange.State](t)
	for _, r := range table.Rows() {
		s, h, d := litres(r.Float("V_sump")), litres(r.Float("V_held")), litres(r.Float("drain"))
		sys := exchange.System{Capacity: s.Add(h), Sump: s, Mixing: r.Float("m")}
		st := state(exchange.Start(sys))
		for range r.Int("n") {
			st = state(st.Drain(d))
			st = state(st.Refill(d, 0))
			st = state(st.Mix(sys.Mixing))
		}
		c.see(r, st.OldShare(), r.Float("total_old"), 1e-12)
		c.see(r, st.DrainShare(), r.Float("sump_old"), 1e-12)
		c.see(r, st.HeldShare(), r.Float("held_old"), 1e-12)
		f := must[exchange.LongRun](t)(exchange.LongRunFactor(sys, d))
		c.see(r, f.PerCycle, r.Float("lambda_plus"), 1e-14)
		c.see(r, f.Fading, r.Float("lambda_minus"), 1e-14)
	}
}

func bounds(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Rows() {
		drains := slices.Repeat([]units.Volume{litres(r.Float("drain"))}, r.Int("n"))
		b := must[exchange.Share](t)(exchange.Bounds(litres(r.Float("C")), litres(r.Float("V_sump")), drains))
		c.see(r, b.Low, r.Float("lower_well_mixed"), 1e-14)
		c.see(r, b.High, r.Float("upper_no_mixing"), 1e-14)
	}
}

func ranges(t *testing.T, table *published.Table, c *comparison) {
	span := must[units.Range[units.VolumeDim]](t)
	for _, r := range table.Rows() {
		capacity := span(units.NewRange(litres(r.Float("C_lo")), litres(r.Float("C_hi"))))
		drain := span(units.NewRange(litres(r.Float("d_lo")), litres(r.Float("d_hi"))))
		s := must[exchange.Share](t)(exchange.RemainingRange(capacity, slices.Repeat([]units.Range[units.VolumeDim]{drain}, r.Int("n"))))
		c.see(r, s.Low, r.Float("old_lo"), 1e-14)
		c.see(r, s.High, r.Float("old_hi"), 1e-14)
	}
}

func inverse(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Rows() {
		target, capacity, d := r.Float("target"), litres(r.Float("C")), litres(r.Float("d"))
		n := must[float64](t)(exchange.RealCycles(target, capacity, d))
		c.see(r, n, r.Float("n_real"), 2e-14*n)
		c.see(r, float64(must[int](t)(exchange.Cycles(target, capacity, d))), r.Float("n_ceil"), 0)
		c.see(r, must[units.Volume](t)(exchange.DrainFor(target, capacity, 4)).In(units.Litre), r.Float("drain_for_4_exchanges"), 1e-13)
		c.see(r, must[units.Volume](t)(exchange.CapacityFor(target, d, 4)).In(units.Litre), r.Float("capacity_at_which_4_suffice"), 1e-12)
	}
}

func every(length float64, drains int, share float64) exchange.Schedule {
	return exchange.Schedule{Services: []exchange.Service{{After: length, Drains: slices.Repeat([]float64{share}, drains)}}}
}

func ages(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Rows() {
		s := every(r.Float("T_kmi"), r.Int("drains_per_service"), r.Float("d_over_C"))
		a := must[exchange.Ages](t)(s.Steady())
		old := must[exchange.OldFluid](t)(s.AtLeast(100))
		v := a.Services[0]
		for _, k := range []struct {
			column string
			got    float64
		}{
			{"f", v.Exchanged}, {"mean_before", v.Before.Mean}, {"mean_after", v.After.Mean}, {"time_avg", a.Mean}, {"sd", v.Before.SD},
			{"older_than_100k_before", old.Before[0]}, {"older_than_100k_after", old.After[0]}, {"older_100k_time_avg", old.Mean},
		} {
			c.see(r, k.got, r.Float(k.column), 1e-12*max(1, r.Float(k.column)))
		}
	}
}

// accumulation: what is added at a steady rate and thinned at regular intervals
// has the level rate × age.
func accumulation(t *testing.T, table *published.Table, c *comparison) {
	level := func(rate, length, r float64) (before, after, mean float64) {
		a := must[exchange.Ages](t)(every(length, 1, r).Steady())
		return rate * a.Highest, rate * a.Lowest, rate * a.Mean
	}
	see := func(id string, got float64) { c.row(table.Find("id", id), got) }
	before, after, _ := level(1, 1, 0.4)
	see("age-01-0.4-before", before)
	see("age-01-0.4-after", after)
	_, after, _ = level(1, 1, 0.2)
	see("age-01-0.2-after", after)
	_, after, _ = level(1, 1, 0.8)
	see("age-01-0.8-after", after)
	before, _, mean := level(2.5, 4, 0.5)
	see("age-02", before)
	see("age-03", mean)
	for _, k := range []struct {
		id              string
		rate, length, r float64
	}{
		{"age-04", 2.5, 1, 0.125}, {"age-06a", 5, 1, 0.25}, {"age-06b", 10, 1, 0.5}, {"age-06c", 10, 1, 0.2},
		{"age-09-20-0.1", 20, 1, 0.1}, {"age-09-20-0.5", 20, 1, 0.5}, {"age-09-10-0.25", 10, 1, 0.25}, {"age-09-40-0.1", 40, 1, 0.1},
		{"dose-06", 150, 1, 0.95}, {"dose-08", 0.2, 1, 0.75},
	} {
		before, _, _ := level(k.rate, k.length, k.r)
		see(k.id, before)
	}
	_, after, _ = level(10, 1, 1-math.Exp2(-1.5)) // half-life 4 h, every 6 h
	see("dose-02", after)
}

// fitted: a published decay, hourly, weights as its least squares of the values
// in proportion; two of its standard errors count a point of weight zero.
func fitted(t *testing.T, table *published.Table, c *comparison) {
	m := exchange.Markers{Readings: []float64{0, 7.5, 5.2, 2.5, 0, 0.85, 0.58}, Drains: slices.Repeat([]units.Volume{litres(2)}, 7), Noise: exchange.AbsoluteNoise}
	for _, x := range m.Readings {
		w := 0.0
		if x > 0 {
			w = 1 / (x * x)
		}
		m.Weights = append(m.Weights, w)
	}
	e := must[exchange.CapacityEstimate](t)(exchange.EstimateCapacity(m))
	c.row(table.Find("id", "fit-01"), e.Step)
	four := math.Sqrt(3.0 / 4)
	c.row(table.Find("id", "fit-02b"), e.StepU*four)
	c.row(table.Find("id", "fit-04b"), e.StartU*four)
	for id, got := range map[string]float64{"fit-02": e.StepU, "fit-04": e.StartU} {
		r := table.Find("id", id)
		c.wrong(r, got, r.Float("published"), r.Float("tolerance"))
	}
}

func packs(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Rows() {
		o := exchange.Order{Need: units.Millilitre.Of(r.Float("need"))}
		prices := r.List("prices")
		for i, size := range r.List("sizes") {
			o.Offers = append(o.Offers, exchange.Offer{Size: units.Millilitre.Of(number(t, size)), Price: decimal.New(int64(number(t, prices[i])), 0)})
		}
		p := must[exchange.Purchase](t)(exchange.Cover(o))
		c.see(r, p.Cost.InexactFloat64(), r.Float("min_cost"), 0)
		c.see(r, p.Leftover.In(units.Millilitre), r.Float("leftover"), 0)
		c.see(r, float64(p.Containers), r.Float("packs"), 0)
	}
}

func tilts(t *testing.T, table *published.Table, c *comparison) {
	for _, r := range table.Rows() {
		m := units.Metre
		pan := exchange.RectangularPan{
			Length: m.Of(r.Float("L_m")), Width: m.Of(r.Float("W_m")), Lip: m.Of(r.Float("lip_m")),
			Hole: m.Of(r.Float("x_c_m")), Rim: m.Of(r.Float("rim_radius_m")),
		}
		c.see(r, must[units.Volume](t)(pan.Retained(r.Float("tilt_deg"))).In(units.Litre), r.Float("retained_L"), 1e-9)
		angle, err := measure.Exact(r.Float("tilt_deg"))
		tilt, errTilt := pan.Tilt(angle)
		e, errEffect := tilt.Effect()
		if err := errors.Join(err, errTilt, errEffect); err != nil {
			t.Fatal(err)
		}
		if r.Bool("linear_form_valid") {
			c.see(r, e.Left.Best().In(units.Litre), r.Float("delta_L"), 1e-9)
		}
		if valid := e.Validity == exchange.ValidityHolds; valid != r.Bool("linear_form_valid") {
			t.Errorf("line %d: validity %s", r.Line(), e.Validity)
		}
	}
}

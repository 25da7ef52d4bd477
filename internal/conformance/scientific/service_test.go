package scientific

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
)

// randomSchedule has lengths in quarters, so that ages of cohorts are exact.
func randomSchedule(r *rand.Rand, topUp float64) exchange.Schedule {
	s := exchange.Schedule{TopUp: topUp, Unit: "km"}
	for range 1 + r.IntN(4) {
		v := exchange.Service{After: float64(1+r.IntN(200)) / 4}
		for range 1 + r.IntN(4) {
			v.Drains = append(v.Drains, rounded(r, 0.1, 0.6))
		}
		s.Services = append(s.Services, v)
	}
	return s
}

func asked(s exchange.Schedule) map[string]any {
	var lengths []float64
	var drains [][]float64
	for _, v := range s.Services {
		lengths, drains = append(lengths, v.After), append(drains, v.Drains)
	}
	return map[string]any{"lengths": lengths, "drains": drains}
}

// The age of the fluid in steady state against a count in which every filling
// is followed as a cohort of its own.
func TestAgesAgainstCohorts(t *testing.T) {
	type row struct {
		Before, After [2]float64
		OldBefore     []float64 `json:"old_before"`
		OldAfter      []float64 `json:"old_after"`
	}
	type count struct {
		Services []row
		Mean     float64
	}
	r := rand.New(rand.NewPCG(60, 30))
	var mean, sd, old, average worst
	for i := range 150 {
		s := randomSchedule(r, 0)
		with := asked(s)
		ages := []float64{0, 10.125, 60.125, s.Round(), 2*s.Round() + 5.125}
		with["ages"] = ages
		want := ask[count](t, "cohorts", with)
		got, err := s.Steady()
		if err != nil {
			t.Fatal(err)
		}
		average.see(relative(got.Mean, want.Mean), "schedule %d", i)
		for k, v := range got.Services {
			mean.see(relative(v.Before.Mean, want.Services[k].Before[0]), "schedule %d before service %d", i, k+1)
			mean.see(relative(v.After.Mean, want.Services[k].After[0]), "schedule %d after service %d", i, k+1)
			sd.see(math.Abs(v.Before.SD-want.Services[k].Before[1])/v.Before.Mean, "schedule %d before service %d", i, k+1)
			sd.see(math.Abs(v.After.SD-want.Services[k].After[1])/v.Before.Mean, "schedule %d after service %d", i, k+1)
		}
		for j, age := range ages {
			share, err := s.AtLeast(age)
			if err != nil {
				t.Fatal(err)
			}
			for k := range share.Before {
				old.see(math.Abs(share.Before[k]-want.Services[k].OldBefore[j]), "schedule %d age %v before service %d", i, age, k+1)
				old.see(math.Abs(share.After[k]-want.Services[k].OldAfter[j]), "schedule %d age %v after service %d", i, age, k+1)
			}
		}
	}
	mean.within(t, 1e-13, "mean age")
	average.within(t, 1e-13, "mean age over the round")
	sd.within(t, 1e-7, "standard deviation of age")
	old.within(t, 1e-13, "share of at least an age")
}

// The same with a slow top-up, against integrals of the share that survives.
func TestToppedUpAgainstIntegrals(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	var mean, sd worst
	for i := range 25 {
		s := randomSchedule(r, spread(r, 1e-4, 0.05))
		with := asked(s)
		with["rate"] = s.TopUp
		want := ask[[][2][2]float64](t, "topped_up", with)
		got, err := s.Steady()
		if err != nil {
			t.Fatal(err)
		}
		for k, v := range got.Services {
			mean.see(relative(v.Before.Mean, want[k][0][0]), "schedule %d before service %d", i, k+1)
			mean.see(relative(v.After.Mean, want[k][1][0]), "schedule %d after service %d", i, k+1)
			sd.see(math.Abs(v.Before.SD-want[k][0][1])/v.Before.Mean, "schedule %d before service %d", i, k+1)
			sd.see(math.Abs(v.After.SD-want[k][1][1])/v.Before.Mean, "schedule %d after service %d", i, k+1)
		}
	}
	mean.within(t, 1e-11, "mean age, topped up")
	sd.within(t, 1e-7, "standard deviation of age, topped up")
}

// series is what a curve fit is asked.
type series struct {
	Readings []float64 `json:"readings"`
	Drains   []float64 `json:"drains"`
	Weights  []float64 `json:"weights"`
	Fresh    float64   `json:"fresh"`
	Noise    string    `json:"noise"`
	ReadingU float64   `json:"reading_u"`
	Start    float64   `json:"start"`
}

func (s series) markers() exchange.Markers {
	m := exchange.Markers{Readings: s.Readings, Weights: s.Weights, Fresh: s.Fresh, ReadingU: s.ReadingU}
	if s.Noise == "absolute" {
		m.Noise = exchange.AbsoluteNoise
	}
	for _, d := range s.Drains {
		m.Drains = append(m.Drains, units.Litre.Of(d))
	}
	return m
}

// randomSeries is a mixing box with a little noise on every reading.
func randomSeries(r *rand.Rand, equal bool) series {
	capacity := rounded(r, 8, 15)
	s := series{Noise: []string{"relative", "absolute"}[r.IntN(2)], Start: capacity}
	left, d := 100.0, rounded(r, 1.5, 4)
	if !equal {
		s.Fresh = rounded(r, 0, 5)
	}
	for range 4 + r.IntN(6) {
		off := 1 + 0.01*r.NormFloat64()
		if s.Noise == "absolute" {
			off = 1 + 0.3*r.NormFloat64()/left
		}
		s.Readings = append(s.Readings, s.Fresh+left*off)
		s.Drains = append(s.Drains, d)
		s.Weights = append(s.Weights, 1)
		left *= 1 - d/capacity
		if !equal {
			s.Weights[len(s.Weights)-1] = rounded(r, 0.5, 2)
			d = rounded(r, 1.5, 4)
		}
	}
	if !equal && r.IntN(2) == 0 {
		s.ReadingU = 0.05
		if s.Noise == "absolute" {
			s.ReadingU = 2
		}
	}
	return s
}

// Capacity and its standard error against scipy's curve fit, for both kinds of
// noise, drains of any size, weights, known and unknown scatter.
func TestCapacityAgainstCurveFit(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 3))
	var all []series
	for range 600 {
		all = append(all, randomSeries(r, false))
	}
	want := ask[[][2]float64](t, "capacity", map[string]any{"cases": all})
	var capacity, u worst
	refused := 0
	for i, s := range all {
		got, err := exchange.EstimateCapacity(s.markers())
		var unsettled *exchange.UnsettledError
		if errors.As(err, &unsettled) {
			refused++ // a bend, or a slope within its error: no number to compare
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		capacity.see(relative(got.Capacity.In(units.Litre), want[i][0]), "%+v", s)
		u.see(relative(got.U.In(units.Litre), want[i][1]), "%+v", s)
	}
	if refused > len(all)/5 {
		t.Errorf("%d of %d refused", refused, len(all))
	}
	t.Logf("%d of %d refused as unsettled", refused, len(all))
	capacity.within(t, 1e-6, "capacity")
	u.within(t, 1e-4, "its standard error")
}

// Equal drains and relative noise: numpy's straight line through ln(marker),
// its parabola for the bend.
func TestCapacityAgainstPolyfit(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 80))
	var all []series
	for len(all) < 600 {
		if s := randomSeries(r, true); s.Noise == "relative" {
			s.Weights = nil
			all = append(all, s)
		}
	}
	want := ask[[][5]float64](t, "line", map[string]any{"cases": all})
	var capacity, step, stepU, start, bend, bendU worst
	refused := 0
	for i, s := range all {
		got, err := exchange.EstimateCapacity(s.markers())
		var unsettled *exchange.UnsettledError
		if errors.As(err, &unsettled) {
			refused++
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		slope := want[i][0]
		step.see(relative(got.Step, -slope), "%+v", s)
		stepU.see(relative(got.StepU, want[i][1]), "%+v", s)
		start.see(relative(math.Log(got.Start), want[i][2]), "%+v", s)
		capacity.see(relative(got.Capacity.In(units.Litre), s.Drains[0]/(1-math.Exp(slope))), "%+v", s)
		bend.see(math.Abs(got.Curvature-want[i][3]), "%+v", s)
		bendU.see(relative(got.CurvatureU, want[i][4]), "%+v", s)
	}
	t.Logf("%d of %d refused as unsettled", refused, len(all))
	step.within(t, 1e-11, "step")
	stepU.within(t, 1e-9, "its standard error")
	start.within(t, 1e-11, "ln of the start")
	capacity.within(t, 1e-11, "capacity")
	bend.within(t, 1e-11, "bend")
	bendU.within(t, 1e-8, "its standard error")
}

// The interval of a plan, capacity and drains known as ranges, against
// quadrature of the same statement.
func TestPlanAgainstQuadrature(t *testing.T) {
	type plan struct {
		Capacity [2]float64 `json:"capacity"`
		Drain    [2]float64 `json:"drain"`
		Cycles   int        `json:"cycles"`
		P        []float64  `json:"p"`
	}
	r := rand.New(rand.NewPCG(35, 3))
	var all []plan
	for range 150 {
		c, d := rounded(r, 8, 14), rounded(r, 1.5, 3)
		all = append(all, plan{[2]float64{c, c + rounded(r, 0.2, 4)}, [2]float64{d, d + rounded(r, 0.05, 1)}, 1 + r.IntN(8), []float64{0.025, 0.975}})
	}
	want := ask[[][]float64](t, "planned", map[string]any{"cases": all})
	var w worst
	for i, p := range all {
		capacity, errC := units.NewRange(units.Litre.Of(p.Capacity[0]), units.Litre.Of(p.Capacity[1]))
		drain, errD := units.NewRange(units.Litre.Of(p.Drain[0]), units.Litre.Of(p.Drain[1]))
		got, err := exchange.Plan(exchange.Request{Capacity: capacity, Drain: drain, Target: 0.5, MostCycles: p.Cycles})
		if err := errors.Join(errC, errD, err); err != nil {
			t.Fatal(err)
		}
		row := got.Rows[p.Cycles-1].Interval
		w.see(math.Abs(row.Low-want[i][0]), "%+v", p)
		w.see(math.Abs(row.High-want[i][1]), "%+v", p)
	}
	w.within(t, 1e-5, "ends of the 95 % interval")
}

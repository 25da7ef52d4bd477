package samebits

import (
	"strconv"
	"strings"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"github.com/shopspring/decimal"
)

func capacity(s *sheet) units.Range[units.VolumeDim] { return between(s, 9.6, 10.4) }

func between(s *sheet, low, high float64) units.Range[units.VolumeDim] {
	r, err := units.NewRange(units.Litre.Of(low), units.Litre.Of(high))
	if err != nil {
		s.tb.Fatal(err)
	}
	return r
}

func (s *sheet) share(name string, x exchange.Share, err error) {
	s.tb.Helper()
	s.number(name+", low", x.Low, err)
	s.number(name+", high", x.High, err)
}

func shares(s *sheet) {
	l := units.Litre.Of
	sys := exchange.System{Capacity: l(10), Sump: l(4.2), Mixing: 0.8}
	drains := []units.Volume{l(2.1), l(2.2), l(2.2)}
	x, err := exchange.Remaining(exchange.System{Capacity: l(10)}, drains)
	s.number("three drains, mixed", x, err)
	x, err = exchange.Remaining(sys, drains)
	s.number("three drains, mixed to 80 %", x, err)
	b, err := exchange.Bounds(l(10), l(4.2), drains)
	s.share("three drains, whatever the gears do", b, err)
	n, err := exchange.RealCycles(0.5, l(10), l(2.1))
	s.number("cycles to a half", n, err)
	d, err := exchange.DrainFor(0.5, l(10), 3)
	s.litres("drain for a half in three", d, err)
	long, err := exchange.LongRunFactor(sys, l(2.1))
	s.number("long run, per cycle", long.PerCycle, err)
	m, err := exchange.MixingRun{Flow: l(3), Minutes: 2.5, Sump: l(4.2), Held: l(5.8)}.Share()
	s.number("mixed by 2.5 min at 3 L/min", m, err)
	f, err := exchange.ThroughFlow{Capacity: l(10), Volume: l(12), Flow: exchange.FlowTanks, Tanks: 3}.Flush()
	s.share("12 L through three tanks", f.Share, err)
	c, err := exchange.Combine(exchange.System{Capacity: l(10)}, []exchange.Stage{{Drain: l(2.1)}, {Flush: l(6), Flow: exchange.FlowMixed}, {Drain: l(2.2)}})
	s.share("drain, flush and drain", c.Share, err)
}

func request(s *sheet) exchange.Request {
	return exchange.Request{
		Capacity: capacity(s), Drain: between(s, 1.9, 2.3), Sump: units.Litre.Of(4.2), Target: 0.5,
		PricePerLitre: decimal.New(1850, -2), KeptEachTime: units.Millilitre.Of(40), WhatIfMixing: []float64{0.8},
	}
}

func plan(s *sheet) {
	p, err := exchange.Plan(request(s))
	s.number("best", p.Best, err)
	s.number("floor", p.Floor, err)
	s.litres("fluid", p.Fluid.Total, err)
	for _, r := range p.Rows {
		name := "cycle " + strconv.Itoa(r.Cycle)
		s.share(name, r.Share, nil)
		s.number(name+", at most", r.Bounds.High, nil)
		s.number(name+", 95 % from", r.Interval.Low, nil)
		s.number(name+", 95 % to", r.Interval.High, nil)
		s.number(name+", chance", r.Chance, nil)
		s.number(name+", mixed to 80 %", r.WhatIf[0], nil)
		s.number(name+", gain per litre", r.GainPerLitre, nil)
		s.word(name+", cost", money{r.Cost})
	}
	u, err := exchange.BestUse(request(s), exchange.Supply{Bottle: units.Litre.Of(1), Bottles: 7})
	s.share("seven bottles", u.Share, err)
	s.litres("seven bottles, part of a drain at the end", u.Worst.Part, err)
}

func intervals(s *sheet) {
	service := exchange.MeasuredService{Capacity: capacity(s)}
	for i, x := range [...]float64{2.1, 2.2, 2.2} {
		v, err := jug("drain-" + strconv.Itoa(i+1)).Read(units.Litre.Of(x))
		if err != nil {
			s.tb.Fatal(err)
		}
		service.Drains = append(service.Drains, v)
	}
	r, err := service.Interval()
	s.number("by quadrature, low", r.Low, err)
	s.number("by quadrature, median", r.Median, err)
	s.number("by quadrature, high", r.High, err)
	s.number("capacity's part", r.CapacityShare, err)
	p, err := service.Chance(0.5)
	s.number("chance of half", p, err)
	c, err := measure.NewCause("capacity", "", measure.Normal, 0)
	if err != nil {
		s.tb.Fatal(err)
	}
	service.Capacity = units.Range[units.VolumeDim]{}
	if service.CapacityMeasured, err = measure.NewMeasured(units.Litre.Of(10), measure.Term{Cause: c, Scale: 0.3}); err != nil {
		s.tb.Fatal(err)
	}
	service.Trials, service.Seed = 20_000, 7
	r, err = service.Interval()
	s.number("capacity measured, by simulation, low", r.Low, err)
	s.number("capacity measured, by simulation, high", r.High, err)
	reading, err := service.Reading()
	s.reading("first order", reading, err)
}

func estimates(s *sheet) {
	l := units.Litre.Of
	e, err := exchange.EstimateCapacity(exchange.Markers{Readings: []float64{100, 79, 62.5, 49}, Drains: []units.Volume{l(2.1), l(2.2), l(2.2), l(2.2)}, ReadingU: 0.02})
	s.litres("capacity from a marker", e.Capacity, err)
	s.litres("capacity from a marker, u", e.U, err)
	s.litres("capacity from a marker, low", e.Low, err)
	s.litres("capacity from a marker, high", e.High, err)
	b, err := exchange.FromSamples(capacity(s), []exchange.DrainedSample{{Volume: l(2.1), OldShare: 1}, {Volume: l(2.2), OldShare: 0.72}, {Volume: l(2.2), OldShare: 0.57}})
	s.share("left by what came out", b.Share, err)
	pan := exchange.RectangularPan{Length: units.Metre.Of(0.4), Width: units.Metre.Of(0.3), Lip: units.Metre.Of(0.05), Hole: units.Metre.Of(0.15), Rim: units.Metre.Of(0.008), Roof: units.Metre.Of(0.09)}
	v, err := pan.Retained(3)
	s.litres("pan on a slope of 3°", v, err)
	v, err = pan.Retained(-12)
	s.litres("pan on a slope of -12°", v, err)
}

func schedules(s *sheet) {
	often := exchange.Schedule{Services: []exchange.Service{{After: 30, Drains: []float64{0.2}}, {After: 60, Drains: []float64{0.2, 0.2, 0.2}}}, TopUp: 0.001, Unit: "Mm"}
	a, err := often.Steady()
	s.number("mean age", a.Mean, err)
	s.number("lowest mean age", a.Lowest, err)
	s.number("highest mean age", a.Highest, err)
	s.number("spread before the first service", a.Services[0].Before.SD, err)
	o, err := often.AtLeast(100)
	s.number("share at least 100 old", o.Mean, err)
	first, err := often.FromNew(2)
	for i, v := range first {
		name := "from new, service " + strconv.Itoa(i+1)
		s.number(name+", mean age after", v.After.Mean, err)
		s.number(name+", first fill left", v.FirstFill, err)
	}
	n, err := often.Settled(0.01)
	s.number("rounds to settle within 1 %", float64(n), err)
}

func buying(s *sheet) {
	l := units.Litre.Of
	offers := []exchange.Offer{
		{Name: "bottle", Size: l(1), Price: decimal.New(1450, -2), Heel: units.Millilitre.Of(5)},
		{Name: "quart", Size: units.USQuart.Of(1), Price: decimal.New(1325, -2), Heel: units.Millilitre.Of(5)},
		{Name: "can", Size: l(5), Price: decimal.New(6190, -2), Heel: units.Millilitre.Of(20)},
	}
	p, err := exchange.Cover(exchange.Order{Need: l(8.7), Offers: offers, OnHand: exchange.Stock{{Name: "opened bottle", Volume: l(0.4), Count: 1, Opened: true}}})
	s.litres("left over", p.Leftover, err)
	s.word("cost", money{p.Cost})
	for i, n := range p.Counts {
		s.number("number of "+offers[i].Name, float64(n), err)
	}
	b, err := exchange.CoverBudget(exchange.Budget{Money: decimal.New(100, 0), Offers: offers})
	s.litres("100 buys", b.Volume, err)
	s.word("100 buys, for", money{b.Cost})
}

// money is an amount written in full: decimal's own String follows variables of that
// package, which a host may have set.
type money struct{ amount decimal.Decimal }

func (m money) String() string {
	return strings.TrimRight(strings.TrimRight(m.amount.StringFixed(8), "0"), ".")
}

package exchange

import (
	"math/rand/v2"
	"testing"

	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"github.com/shopspring/decimal"
)

// As TestDilutionDigests, for what surrounds the dilution itself: estimates, samples,
// schedules, the level, tilts, combined services, buying.
func TestServiceDigests(t *testing.T) {
	checkDigests(t, "testdata/digests-service.txt", 41, []digestLaw{
		{"EstimateCapacity", digestEstimate}, {"FromSamples", digestSamples}, {"Schedule", digestSchedule}, {"Level", digestLevel},
		{"Tilt", digestTilt}, {"Combine", digestCombine}, {"Cover", digestCover}, {"BestUse", digestUse},
	})
}

// digestWithin lies between two numbers, by operations that are exact or rounded once.
func digestWithin(rng *rand.Rand, low, high float64) float64 {
	return low + float64(rng.Float64()*(high-low))
}

func digestEstimate(_ testing.TB, rng *rand.Rand, out func(float64)) {
	m := Markers{Noise: Noise(rng.IntN(2))}
	if rng.IntN(2) == 0 {
		m.ReadingU = digestWithin(rng, 0.001, 0.02)
	}
	marker := 1.0
	for range 4 + rng.IntN(4) {
		m.Readings = append(m.Readings, marker)
		m.Drains = append(m.Drains, digestVolume(rng, 1, 3))
		marker *= digestWithin(rng, 0.7, 0.85)
	}
	e, err := EstimateCapacity(m)
	if err != nil {
		out(-1)
	}
	for _, x := range [...]float64{e.Start, e.StartU, e.Step, e.StepU, e.Scatter, e.Curvature, e.CurvatureU} {
		out(x)
	}
	for _, v := range [...]units.Volume{e.Capacity, e.U, e.Low, e.High} {
		out(v.In(units.Litre))
	}
}

func digestSamples(tb testing.TB, rng *rand.Rand, out func(float64)) {
	low := digestVolume(rng, 8, 11)
	capacity, err := units.NewRange(low, low.Add(digestVolume(rng, 0, 2)))
	if err != nil {
		tb.Fatal(err)
	}
	x := 1.0
	var plain []DrainedSample
	var measured []MeasuredSample
	for range 3 {
		v := digestVolume(rng, 1, 3)
		plain = append(plain, DrainedSample{Volume: v, OldShare: x, RefillOldShare: float64(rng.Float64() / 16)})
		measured = append(measured, MeasuredSample{measure.MeasuredExactly(v), tiltDoubt(tb, "refractometer", x, digestWithin(rng, 0.001, 0.02))})
		x *= digestWithin(rng, 0.7, 0.85)
	}
	b, _ := FromSamples(capacity, plain)
	r, _ := SamplesReading(capacity, measured)
	for _, x := range [...]float64{b.Share.Low, b.Share.High, b.LastSeen, r.Value(), r.U()} {
		out(x)
	}
}

func digestSchedule(_ testing.TB, rng *rand.Rand, out func(float64)) {
	s := Schedule{TopUp: float64(rng.Float64() / 64)}
	for range 1 + rng.IntN(3) {
		v := Service{After: digestWithin(rng, 5, 60)}
		for range rng.IntN(4) {
			v.Drains = append(v.Drains, digestWithin(rng, 0.1, 0.4))
		}
		s.Services = append(s.Services, v)
	}
	a, _ := s.Steady()
	out(a.Mean)
	out(a.Lowest)
	out(a.Highest)
	for _, v := range a.Services {
		out(v.Before.SD)
		out(v.After.SD)
	}
	first, _ := s.FromNew(3)
	for _, v := range first {
		out(v.After.Mean)
		out(v.FirstFill)
	}
	o, _ := s.AtLeast(digestWithin(rng, 1, 200))
	out(o.Mean)
	n, _ := s.Settled(0.01)
	out(float64(n))
}

func digestLevel(tb testing.TB, rng *rand.Rand, out func(float64)) {
	fluid, err := thermal.Lubricant(units.Density(digestWithin(rng, 820, 880)))
	if err != nil {
		tb.Fatal(err)
	}
	low := units.Celsius(digestWithin(rng, 30, 45))
	c := LevelCheck{
		Net: levelVolume(tb, "net", digestWithin(rng, -400, 400), digestWithin(rng, 5, 60)), NetAt: units.Celsius(digestWithin(rng, 10, 60)),
		CameIn: CameIn(rng.IntN(2)), Capacity: levelVolume(tb, "capacity", digestWithin(rng, 8000, 14_000), 200),
		Fluid: fluid, Case: thermal.Aluminium, Window: thermal.Window{Low: low, High: low.Add(units.CelsiusDegree.Of(10))},
		At: levelAt(tb, digestWithin(rng, 25, 60), digestWithin(rng, 0.2, 3)),
	}
	e, err := c.Expect()
	if err != nil {
		tb.Fatal(err)
	}
	f, err := e.Observe(Observation{First: PlugStreams, Last: PlugTrickles, CaughtKnown: true, Caught: levelVolume(tb, "caught", digestWithin(rng, 0, 500), 5)})
	if err != nil {
		tb.Fatal(err)
	}
	for _, v := range [...]measure.Volume{e.Excess, e.AtLip, e.Runs, f.Difference, f.CameInBy} {
		out(v.Reading().Value())
		out(v.Reading().U())
	}
	for _, x := range [...]float64{e.Decision.Below, e.Decision.Inside, e.Decision.Above, f.Zeta} {
		out(x)
	}
}

func digestTilt(tb testing.TB, rng *rand.Rand, out func(float64)) {
	m := units.Metre.Of
	p := RectangularPan{
		Length: m(digestWithin(rng, 0.2, 0.6)), Width: m(digestWithin(rng, 0.1, 0.4)), Lip: m(digestWithin(rng, 0.01, 0.09)),
		Hole: m(digestWithin(rng, -0.09, 0.09)), Rim: m(digestWithin(rng, 0, 0.01)), Roof: m(0.1),
	}
	degrees := digestWithin(rng, -20, 20)
	kept, _ := p.Retained(degrees)
	tilt, err := p.Tilt(tiltDoubt(tb, "angle", degrees, digestWithin(rng, 0.1, 1)))
	if err != nil {
		tb.Fatal(err)
	}
	e, _ := tilt.Effect()
	for _, x := range [...]float64{kept.In(units.Litre), e.Left.Reading().Value(), e.Left.Reading().U(), e.Limit, float64(e.Validity)} {
		out(x)
	}
}

func digestCombine(_ testing.TB, rng *rand.Rand, out func(float64)) {
	sys := digestSystem(rng)
	sys.Mixing = 1
	stages := []Stage{{Drain: digestVolume(rng, 1, 4)}, {Flush: digestVolume(rng, 1, 20), Flow: FlowUnknown}, {Drain: digestVolume(rng, 1, 4)}}
	if rng.IntN(2) == 0 {
		stages[1].Flow, stages[1].Tanks = FlowTanks, 1+rng.IntN(20)
	}
	c, _ := Combine(sys, stages)
	for _, row := range c.Rows {
		out(row.Share.Low)
		out(row.Share.High)
	}
	out(c.Fluid.In(units.Litre))
}

func digestCover(_ testing.TB, rng *rand.Rand, out func(float64)) {
	o := Order{Need: digestVolume(rng, 1, 40)}
	for range 1 + rng.IntN(3) {
		size := float64(1+rng.IntN(40)) / 4
		o.Offers = append(o.Offers, Offer{Size: units.Litre.Of(size), Heel: units.Millilitre.Of(float64(rng.IntN(3) * 10)), Price: decimal.New(int64(100+rng.IntN(9000)), -2)})
	}
	o.OnHand = Stock{{Name: "opened", Volume: digestVolume(rng, 0, 1), Count: 1, Opened: true}}
	p, _ := Cover(o)
	for _, n := range p.Counts {
		out(float64(n))
	}
	money, _ := p.Cost.Float64()
	for _, x := range [...]float64{money, p.Leftover.In(units.Litre), p.StockLeft.In(units.Litre), float64(p.Containers)} {
		out(x)
	}
}

func digestUse(tb testing.TB, rng *rand.Rand, out func(float64)) {
	low := digestVolume(rng, 8, 11)
	capacity, err := units.NewRange(low, low.Add(digestVolume(rng, 0, 3)))
	if err != nil {
		tb.Fatal(err)
	}
	r := Request{Capacity: capacity, Drain: units.Exactly(digestVolume(rng, 1, 4)), Target: rng.Float64(), KeptEachTime: units.Millilitre.Of(float64(rng.IntN(60)))}
	u, err := BestUse(r, Supply{Bottle: units.Litre.Of(1), Bottles: 1 + rng.IntN(30)})
	if err != nil {
		out(-1)
		return
	}
	for _, s := range [...]Spread{u.Best, u.Worst} {
		for _, x := range [...]float64{float64(s.Full), s.Part.In(units.Litre), s.Share, s.Left.In(units.Litre)} {
			out(x)
		}
	}
	out(u.Evenly)
	out(u.Share.High)
}

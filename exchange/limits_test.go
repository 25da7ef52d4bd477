package exchange

import (
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"github.com/shopspring/decimal"
)

// Every limit a doc comment states, from both sides: what is taken at the end itself
// and refused just past it.
func TestLimitsFromBothSides(t *testing.T) {
	l := units.Litre.Of
	shortfall := func(n int) error { _, err := Losses{FilmEachTime: units.Millilitre.Of(1)}.Shortfall(n); return err }
	acting := func(drained, returns float64) error {
		_, err := Losses{LineReturns: l(returns)}.Acting(l(drained))
		return err
	}
	run := func(minutes float64) error {
		_, err := MixingRun{Flow: l(1), Minutes: minutes, Sump: l(4), Held: l(4)}.Share()
		return err
	}
	many := func(n int) []units.Volume { return dilutionRepeat(l(0.001), n) }
	bounds := func(n int) error { _, err := BoundsSteps(l(8), l(4), many(n)); return err }
	remaining := func(n int) error { _, err := RemainingSteps(System{Capacity: l(8)}, many(n)); return err }
	markers := func(edit func(*Markers)) error {
		m := Markers{Readings: []float64{100, 80, 64, 51}, Drains: []units.Volume{l(2), l(2), l(2), l(2)}, ReadingU: 0.01}
		edit(&m)
		return m.check()
	}
	count := func(n int) error {
		return markers(func(m *Markers) {
			m.Readings, m.Drains = make([]float64, n), dilutionRepeat(l(1), n)
			for i := range m.Readings {
				m.Readings[i] = 1
			}
		})
	}
	service := func(edit func(*MeasuredService)) error {
		s := MeasuredService{Capacity: units.Exactly(l(8)), Drains: []measure.Volume{measure.MeasuredExactly(l(2))}}
		edit(&s)
		_, err := s.Interval()
		return err
	}
	drains := func(n int) error {
		return service(func(s *MeasuredService) {
			s.Drains = nil
			for range n {
				s.Drains = append(s.Drains, measure.MeasuredExactly(l(0.1)))
			}
		})
	}
	one := func(v float64) error {
		return service(func(s *MeasuredService) { s.Drains[0] = measure.MeasuredExactly(l(v)) })
	}
	held := func(n int) error {
		_, err := Cover(Order{Need: l(1), Offers: []Offer{{Size: l(1)}}, OnHand: Stock{{Volume: units.Millilitre.Of(1), Count: n}}})
		return err
	}
	price := func(s string) error {
		p, err := decimal.NewFromString(s)
		if err == nil {
			_, err = coverPrice(p)
		}
		return err
	}
	heel := func(size, heel float64) error {
		_, err := Cover(Order{Need: l(1), Offers: []Offer{{Size: l(size), Heel: l(heel)}}})
		return err
	}
	risk := func(r float64) error {
		c := levelCheck(t, levelVolume(t, "net", 0, 10))
		c.Risk = r
		_, err := c.Expect()
		return err
	}
	settle := func(v float64) error {
		st, err := Start(System{Capacity: l(8), Sump: l(4), Mixing: 1})
		if err == nil {
			_, err = st.Settle(l(v))
		}
		return err
	}
	flow := func(target float64) error {
		_, err := ThroughFlow{Capacity: l(8), Flow: FlowMixed}.VolumeTo(target)
		return err
	}
	leak := func(over float64) error {
		_, err := Schedule{Services: []Service{{After: 1, Drains: []float64{0.2}}}}.finish(l(8), l(1), over)
		return err
	}
	zeros := func(exp int32) error { return planPriceFault(decimal.New(0, exp)) }
	seen := func(first, last AtPlug) error { return Observation{First: first, Last: last}.check() }
	for name, tt := range map[string]struct{ taken, refused []error }{
		"swaps":          {[]error{shortfall(0), shortfall(100)}, []error{shortfall(-1), shortfall(101)}},
		"line returns":   {[]error{acting(1, 1), acting(1, 0)}, []error{acting(1, 1.001), acting(-1, 0)}},
		"minutes":        {[]error{run(0), run(100_000)}, []error{run(-0.001), run(100_001), run(math.NaN())}},
		"bounds steps":   {[]error{bounds(0), bounds(1000)}, []error{bounds(1001)}},
		"remaining":      {[]error{remaining(0), remaining(1000)}, []error{remaining(1001)}},
		"readings":       {[]error{count(2), count(1000)}, []error{count(1), count(1001)}},
		"marker drain":   {[]error{markers(func(m *Markers) { m.Drains[0] = l(500) })}, []error{markers(func(m *Markers) { m.Drains[0] = l(500.001) }), markers(func(m *Markers) { m.Drains[0] = l(0) })}},
		"marker reading": {[]error{markers(func(m *Markers) { m.Readings[0] = 1e12 })}, []error{markers(func(m *Markers) { m.Readings[0] = 1.1e12 }), markers(func(m *Markers) { m.Readings[0] = 0 })}},
		"fresh":          {[]error{markers(func(m *Markers) { m.Fresh = -1e12 + 200 }), markers(func(m *Markers) { m.Fresh, m.Readings = -1e12, make([]float64, 4) })}, []error{markers(func(m *Markers) { m.Fresh = -1.1e12 }), markers(func(m *Markers) { m.Fresh = 52 }), markers(func(m *Markers) { m.Noise = 2 })}},
		"coverage":       {[]error{service(func(s *MeasuredService) { s.Coverage = 0.01 }), service(func(s *MeasuredService) { s.Coverage = 0.9999 })}, []error{service(func(s *MeasuredService) { s.Coverage = 0.0099 }), service(func(s *MeasuredService) { s.Coverage = 0.99991 })}},
		"trials":         {[]error{service(func(s *MeasuredService) { s.Trials = 1000 }), service(func(s *MeasuredService) { s.Trials = 1 << 30 })}, []error{service(func(s *MeasuredService) { s.Trials = 999 }), service(func(s *MeasuredService) { s.Trials = 1<<30 + 1 }), service(func(s *MeasuredService) { s.Trials = -1 })}},
		"drains":         {[]error{drains(1), drains(100)}, []error{drains(0), drains(101)}},
		"one drain":      {[]error{one(0), one(7.999)}, []error{one(8), one(-0.001)}},
		"held":           {[]error{held(0), held(coverMostHeld)}, []error{held(-1), held(coverMostHeld + 1)}},
		"price":          {[]error{price("0"), price("1000000000"), price("0.000000001"), price("1e9"), price("1.0000000000000000000000")}, []error{price("-0.01"), price("1000000000.000000001"), price("0.0000000001"), price("1e10"), price("1e21"), price("1e-81")}},
		"heel":           {[]error{heel(1, 0), heel(1, 0.999)}, []error{heel(1, 1), heel(1, 1.1), heel(1, -0.1), heel(0, 0)}},
		"risk":           {[]error{risk(0), risk(0.001), risk(0.499)}, []error{risk(0.5), risk(-0.01), risk(math.NaN())}},
		"settle":         {[]error{settle(0), settle(8)}, []error{settle(-0.001), settle(8.001)}},
		"flow target":    {[]error{flow(1e-15), flow(1)}, []error{flow(0.9e-15), flow(1.001)}},
		"leak over":      {[]error{leak(1e9), leak(1e300)}, []error{leak(0), leak(math.MaxFloat64), leak(math.Inf(1)), leak(math.NaN())}},
		"price's zeros":  {[]error{zeros(9), zeros(-9)}, []error{zeros(10), zeros(-10)}},
		"no proof":       {[]error{Observation{NoProof: strings.Repeat("x", 200)}.check()}, []error{Observation{NoProof: strings.Repeat("x", 201)}.check()}},
		"seen":           {[]error{seen(PlugStreams, PlugStreams), seen(PlugDry, PlugStreams)}, []error{seen(PlugStreams+1, PlugStreams), seen(PlugDry, PlugStreams+1)}},
	} {
		for i, err := range tt.taken {
			if err != nil {
				t.Errorf("%s, to be taken %d: %v", name, i+1, err)
			}
		}
		for i, err := range tt.refused {
			if err == nil {
				t.Errorf("%s, to be refused %d: taken", name, i+1)
			}
		}
	}
}

// A bottle whose heel is all it holds gives nothing, and stock that gives nothing does
// not stand in the list to pour.
func TestStockThatGivesNothingIsNotPoured(t *testing.T) {
	l := units.Litre.Of
	p, err := Cover(Order{Need: l(2), Offers: []Offer{{Size: l(1)}}, OnHand: Stock{
		{Name: "dregs", Volume: l(0.2), Heel: l(0.2), Count: 3, Opened: true}, {Name: "full", Volume: l(1), Count: 1}, {Name: "none", Volume: l(1), Count: 0},
	}})
	if err != nil || len(p.FromStock) != 1 || p.FromStock[0].Held.Name != "full" || p.StockUsed != l(1) || p.ToBuy != l(1) || p.Containers != 1 {
		t.Errorf("%+v, %v", p, err)
	}
}

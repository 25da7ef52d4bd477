package exchange

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

func planRequest(t testing.TB) Request {
	return Request{
		Capacity: dilutionRange(t, 12, 15),
		Drain:    dilutionRange(t, 2.5, 3),
		Target:   0.5,
	}
}

// EXCHANGE.md, computed: 12-15 and 2.5-3, four drains leave 31.6-48.2 %; to 50 %
// three to four, to 25 % five to eight.
func TestPlanTradeFigures(t *testing.T) {
	p, err := Plan(planRequest(t))
	if err != nil {
		t.Fatal(err)
	}
	if p.Cycles != (CycleCount{3, 4, 4}) || !p.Met || p.Outcome != MetIfMixed {
		t.Errorf("cycles %+v, met %v, %v; want 3 to 4, met if mixed", p.Cycles, p.Met, p.Outcome)
	}
	if got := p.Share.String(); got != "31.6 to 48.2 %" {
		t.Errorf("share %s", got)
	}
	r := planRequest(t)
	r.Target = 0.25
	if p, err = Plan(r); err != nil || p.Cycles != (CycleCount{5, 8, 8}) {
		t.Errorf("cycles %+v, %v; want 5 to 8", p.Cycles, err)
	}
}

// Fill and priming volumes against the net need of an independent tool.
func TestPlanFluidTable(t *testing.T) {
	for _, row := range published.Load(t, "exchange_deadvolume").Rows() {
		fill, prime := units.Millilitre.Of(row.Float("fill_ml")), units.Millilitre.Of(row.Float("prime_ml"))
		if row.Float("stock_ml") != 0 {
			t.Fatalf("line %d has stock on hand: subtract it", row.Line())
		}
		p, err := Plan(Request{
			Capacity: units.Exactly(fill), Drain: units.Exactly(fill.Scale(0.25)),
			Target: 0.32, KeptOnce: prime, // four quarters leave 0.316
		})
		if err != nil {
			t.Fatal(err)
		}
		if want := units.Millilitre.Of(row.Float("net_need_ml")); p.Cycles.Chosen != 4 || p.Fluid.Total != want {
			t.Errorf("line %d: %d cycles, %v; want 4, %v", row.Line(), p.Cycles.Chosen, p.Fluid.Total, want)
		}
	}
}

// Every row against the functions that do one thing each.
func TestPlanRowsAgainstSingleAnswers(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	for range 300 {
		r := planRandom(t, rng)
		p, err := Plan(r)
		if err != nil {
			t.Fatalf("%+v: %v", r, err)
		}
		var ranges []units.Range[units.VolumeDim]
		var least []units.Volume
		gains := 0.0
		for i, row := range p.Rows {
			d := r.Drain
			if i == 0 && !r.FirstDrain.IsZero() {
				d = r.FirstDrain
			}
			low, high := d.Low().Sub(r.LineReturns), d.High().Sub(r.LineReturns)
			acting, err := units.NewRange(low, high)
			if err != nil {
				t.Fatal(err)
			}
			ranges, least = append(ranges, acting), append(least, low)
			want, err := RemainingRange(r.Capacity, ranges)
			if err != nil || want != row.Share {
				t.Fatalf("row %d share %v, want %v, %v", row.Cycle, row.Share, want, err)
			}
			bound, err := Bounds(r.Capacity.High(), r.Sump, least)
			if err != nil {
				t.Fatal(err)
			}
			dilutionNear(t, "upper bound", row.Bounds.High, bound.High, 1e-14)
			if row.Bounds.Low != row.Share.Low || row.Bounds.High < row.Share.High {
				t.Errorf("bounds %v do not hold share %v", row.Bounds, row.Share)
			}
			for k, m := range r.WhatIfMixing {
				x, err := Remaining(System{r.Capacity.High(), r.Sump, m}, least)
				if err != nil || x != row.WhatIf[k] {
					t.Errorf("what if %v: %v, want %v, %v", m, row.WhatIf[k], x, err)
				}
			}
			gains += row.Gain
			dilutionNear(t, "gains", gains, 1-row.Share.High, 1e-12)
			if row.Fluid.High() != r.withDefaults().fluid(row.Cycle, planLargest).Total {
				t.Errorf("row %d fluid %v", row.Cycle, row.Fluid)
			}
		}
		if p.Floor > p.Rows[len(p.Rows)-1].Bounds.High+1e-14 {
			t.Errorf("floor %v above the bound it is the floor of", p.Floor)
		}
		if p.Met != (p.Cycles.High > 0 || r.Target >= 1) {
			t.Errorf("met %v with %+v", p.Met, p.Cycles)
		}
	}
}

func planRandom(t *testing.T, rng *rand.Rand) Request {
	t.Helper()
	c := 8 + 6*rng.Float64()
	d := 1.5 + rng.Float64()
	r := Request{
		Capacity:   dilutionRange(t, c, c+3*rng.Float64()),
		Drain:      dilutionRange(t, d, d+rng.Float64()),
		Target:     0.05 + 0.9*rng.Float64(),
		MostCycles: 1 + rng.IntN(9), KeptOnce: dilutionLitres(0.3), KeptEachTime: dilutionLitres(0.05),
		FilmEachTime: dilutionLitres(0.02), FinalAllowance: dilutionLitres(0.5),
	}
	if rng.IntN(2) == 0 {
		r.FirstDrain = dilutionRange(t, d+0.1, d+0.4)
	}
	if rng.IntN(2) == 0 {
		r.Sump, r.WhatIfMixing = dilutionLitres(4+rng.Float64()), []float64{0, 0.5, 1}
	}
	if rng.IntN(2) == 0 {
		r.LineReturns = dilutionLitres(0.2)
	}
	if rng.IntN(2) == 0 {
		r.Purpose = ChangeClass
	}
	return r
}

// A cycle gains less than the one before, and a litre of fluid with it.
func TestPlanGainsFall(t *testing.T) {
	r := planRequest(t)
	r.PricePerLitre = decimal.New(1250, -2)
	p, err := Plan(r)
	if err != nil {
		t.Fatal(err)
	}
	for i, row := range p.Rows[1:] {
		before := p.Rows[i]
		if row.Gain >= before.Gain || row.GainPerLitre >= before.GainPerLitre || row.GainPerMoney >= before.GainPerMoney {
			t.Errorf("cycle %d gains %v, the one before %v", row.Cycle, row.Gain, before.Gain)
		}
	}
	one := p.Rows[0] // 2.5 of 15 gone: 1/6, by 2.5 L at 12.50
	dilutionNear(t, "gain", one.Gain, 1.0/6, 1e-15)
	dilutionNear(t, "per litre", one.GainPerLitre, 1.0/15, 1e-15)
	dilutionNear(t, "per money", one.GainPerMoney, 1.0/6/31.25, 1e-15)
	if want := decimal.New(3750, -2); one.Cost.Cmp(want) != 0 { // 3 L at most
		t.Errorf("cost %v, want %v", one.Cost, want)
	}
}

// Another class of fluid: the target must hold whatever the gears do.
func TestPlanChangeOfClass(t *testing.T) {
	r := Request{
		Capacity: dilutionRange(t, 10, 10), Drain: dilutionRange(t, 4, 4), Sump: dilutionLitres(5),
		Target: 0.51, Purpose: ChangeClass,
	}
	// H/C = 0.5; 0.5 + 0.5 × 0.2^n: 0.6, 0.52, 0.504.
	p, err := Plan(r)
	if err != nil || !p.Met || p.Cycles.Chosen != 3 || p.Outcome != MetWhateverMixing {
		t.Fatalf("%+v, %v, %v; want 3 cycles, met whatever the mixing", p.Cycles, p.Outcome, err)
	}
	dilutionNear(t, "bound", p.Bounds.High, 0.504, 1e-15)
	r.Target = 0.3
	p, err = Plan(r)
	if err != nil || p.Met || p.Outcome != MetIfMixed || p.Floor != 0.5 || p.Cycles.Chosen != 12 || p.Cycles.High != 0 {
		t.Fatalf("%+v, %v, floor %v, %v; want not met, floor 0.5", p.Cycles, p.Outcome, p.Floor, err)
	}
	if s := p.Advice(); !strings.Contains(s, "cannot be met by draining: best is 50.0 % after 12 cycles") || !strings.Contains(s, "no number of drains is sure to go below 50.0 %") {
		t.Errorf("advice: %s", s)
	}
	r.Purpose = Refresh // the same box, the gears trusted: 0.6, 0.36, 0.216
	p, err = Plan(r)
	if err != nil || !p.Met || p.Outcome != MetIfMixed || p.Cycles.Chosen != 3 || len(p.Caveats) != 1 || p.Caveats[0] != RestsOnMixing {
		t.Errorf("%+v, %v, caveats %v, %v", p.Cycles, p.Outcome, p.Caveats, err)
	}
	r.Target, r.MostCycles = 0.01, 5
	p, err = Plan(r)
	if err != nil || p.Met || p.Outcome != NotMet || p.Cycles.Chosen != 5 {
		t.Errorf("%+v, %v, %v; want not met in 5", p.Cycles, p.Outcome, err)
	}
	dilutionNear(t, "best", p.Best, 0.6*0.6*0.6*0.6*0.6, 1e-15)
}

func TestPlanNothingToDo(t *testing.T) {
	r := planRequest(t)
	r.Target, r.KeptOnce, r.FinalAllowance = 1, dilutionLitres(1), dilutionLitres(0.5)
	p, err := Plan(r)
	if err != nil || !p.Met || p.Cycles.Chosen != 0 || p.Share != (Share{1, 1}) || p.Fluid.Total != dilutionLitres(0.5) {
		t.Errorf("%+v, fluid %v, %v", p.Cycles, p.Fluid.Total, err)
	}
	if s := p.Advice(); s != "Nothing needs doing: the target is met as it is." {
		t.Errorf("advice: %s", s)
	}
}

func TestPlanFaults(t *testing.T) {
	huge := units.Litre.Of(math.NaN())
	cases := []struct {
		name   string
		change func(*Request)
		want   []string
	}{
		{"no capacity", func(r *Request) { r.Capacity = units.Range[units.VolumeDim]{} }, []string{"capacity 0 L"}},
		{"no drain", func(r *Request) { r.Drain = units.Range[units.VolumeDim]{} }, []string{"drain: 0 L; want more than 0"}},
		{"drain above capacity", func(r *Request) { r.Drain = dilutionRange(t, 3, 13) }, []string{"drain: 13 L", "smallest capacity, 12 L"}},
		{"first drain above sump", func(r *Request) { r.Sump = dilutionLitres(4); r.FirstDrain = dilutionRange(t, 3, 5) }, []string{"first drain: 5 L", "sump, 4 L"}},
		{"sump", func(r *Request) { r.Sump = dilutionLitres(13) }, []string{"sump 13 L", "smallest"}},
		{"several", func(r *Request) {
			r.Target, r.MostCycles, r.KeptOnce, r.FinalAllowance, r.Purpose = math.NaN(), 101, dilutionLitres(-1), huge, 9
		}, []string{"target is not a number", "most cycles 101", "kept once: -1 L", "final allowance: out of range", "purpose 9"}},
		{"line returns more than a drain", func(r *Request) { r.LineReturns = dilutionLitres(2.5) }, []string{"drain: 2.5 L; want more than the line returns"}},
		{"what-if without sump", func(r *Request) { r.WhatIfMixing = []float64{0.5} }, []string{"want the sump too"}},
		{"what-if share", func(r *Request) { r.Sump = dilutionLitres(5); r.WhatIfMixing = []float64{2} }, []string{"what-if mixing share 2"}},
		{"many what-ifs", func(r *Request) { r.WhatIfMixing = make([]float64, 11) }, []string{"11 what-if mixing shares"}},
		{"negative price", func(r *Request) { r.PricePerLitre = decimal.New(-1, 0) }, []string{"price per litre: -1.00"}},
		{"giant price", func(r *Request) { r.PricePerLitre = decimal.New(1, 9999) }, []string{"price per litre: too large or too fine"}},
		{"fine price", func(r *Request) { r.PricePerLitre = decimal.New(1, -9999) }, []string{"too large or too fine"}},
	}
	for _, c := range cases {
		r := planRequest(t)
		c.change(&r)
		p, err := Plan(r)
		if err == nil || p.Rows != nil || p.Outcome != OutcomeUndecided {
			t.Errorf("%s: got %+v, %v; want an error and no plan", c.name, p, err)
			continue
		}
		for _, w := range c.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: %q does not say %q", c.name, err, w)
			}
		}
	}
}

func TestPlanMostCycles(t *testing.T) {
	r := planRequest(t)
	r.MostCycles, r.Target = planMostCycles, 0
	p, err := Plan(r)
	if err != nil || len(p.Rows) != planMostCycles || p.Met || !p.Fluid.Total.Valid() {
		t.Errorf("%d rows, met %v, %v", len(p.Rows), p.Met, err)
	}
	r.MostCycles = 0
	if p, err = Plan(r); err != nil || len(p.Rows) != planUsualCycles {
		t.Errorf("%d rows by default, %v", len(p.Rows), err)
	}
	// The largest plan there can be stays in the range of a volume.
	most := dilutionLitres(systemMostLitres)
	loss := dilutionLitres(lossesMostLitres)
	p, err = Plan(Request{
		Capacity: units.Exactly(most), Drain: units.Exactly(most.Scale(0.999)), Target: 0, MostCycles: planMostCycles,
		KeptOnce: loss, KeptEachTime: loss, FilmEachTime: loss, FinalAllowance: loss,
	})
	if err != nil || !p.Fluid.Total.Valid() || !p.Rows[99].Fluid.Valid() {
		t.Errorf("fluid %v, %v", p.Fluid.Total, err)
	}
}

func TestPlanWorking(t *testing.T) {
	r := planRequest(t)
	r.KeptOnce, r.FinalAllowance, r.LineReturns = dilutionLitres(0.4), dilutionLitres(0.5), dilutionLitres(0.1)
	p, err := Plan(r)
	if err != nil {
		t.Fatal(err)
	}
	text := p.Steps.Text()
	for _, want := range []string{
		"smallest drain counts as = d - x = 2.500 L - 0.100 L = 2.400 L\n",
		"old share after cycle 1, worst case = x·(1 - d/C) = 1.0000 × (1 - 2.400 L / 15.000 L) = 0.8400\n",
		"kept once in pump and hose = 0.400 L\n",
		"refills = sum of the largest drains = 12.000 L\n",
		"fluid to have ready = sum of the above = 12.900 L\n",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("working lacks %q:\n%s", want, text)
		}
	}
}

func BenchmarkPlan(b *testing.B) {
	b.ReportAllocs()
	r := planRequest(b)
	r.Sump, r.PricePerLitre = dilutionLitres(5), decimal.New(1250, -2)
	for b.Loop() {
		if _, err := Plan(r); err != nil {
			b.Fatal(err)
		}
	}
}

// Without a known sump, what never left is bounded by the larger of the first and the
// later drains: 1 - 3/12, also where the first drain is the smaller.
func TestPlanBoundTakesTheLargerDrain(t *testing.T) {
	r := Request{Capacity: units.Exactly(units.Litre.Of(12)), Drain: units.Exactly(units.Litre.Of(3)), FirstDrain: units.Exactly(units.Litre.Of(2)), Target: 0.5}
	p, err := Plan(r)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{10.0 / 12, 9.0 / 12} {
		if got := p.Rows[i].Bounds.High; math.Abs(got-want) > 1e-12 {
			t.Errorf("row %d: at most %v, want %v", i+1, got, want)
		}
	}
}

// What a volume costs is exact to its last tick, however long the decimal.
func TestPlanCostIsExact(t *testing.T) {
	for _, text := range []string{"0 L", "1 L", "7.33 L", "0.00000000000001 L", "9.46352946123457 L", "1000 L", "-0.5 L"} {
		v, err := units.ParseVolume(text)
		if err != nil {
			t.Fatal(err)
		}
		written, _, _ := strings.Cut(v.String(), " ")
		want, err := decimal.NewFromString(written)
		if err != nil || !planLitres(v).Equal(want) {
			t.Errorf("%s: %s litres, written %s", text, planLitres(v), written)
		}
	}
}

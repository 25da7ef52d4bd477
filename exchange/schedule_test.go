package exchange

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

func scheduleClose(a, b, relative float64) bool {
	return math.Abs(a-b) <= relative*max(math.Abs(a), math.Abs(b))
}

// scheduleEvery is one service every length, of equal drains.
func scheduleEvery(length float64, drains int, share float64) Schedule {
	return Schedule{Services: []Service{{After: length, Drains: slices.Repeat([]float64{share}, drains)}}}
}

func TestSchedulePublishedAges(t *testing.T) {
	for _, row := range published.Load(t, "exchange_age").Rows() {
		s := scheduleEvery(row.Float("T_kmi"), row.Int("drains_per_service"), row.Float("d_over_C"))
		a, err := s.Steady()
		if err != nil {
			t.Fatal(err)
		}
		old, err := s.AtLeast(100)
		if err != nil {
			t.Fatal(err)
		}
		v := a.Services[0]
		for _, c := range []struct {
			column string
			got    float64
			within float64
		}{
			{"f", v.Exchanged, 1e-12},
			{"mean_before", v.Before.Mean, 1e-12},
			{"mean_after", v.After.Mean, 1e-12},
			{"time_avg", a.Mean, 1e-12},
			{"sd", v.Before.SD, 1e-12},
			{"sd", v.After.SD, 1e-12},
			{"older_than_100k_before", old.Before[0], 1e-12},
			{"older_than_100k_after", old.After[0], 1e-12},
			{"older_100k_time_avg", old.Mean, 1e-12},
			{"sim_time_avg", old.Mean, 3e-3},
		} {
			if !scheduleClose(c.got, row.Float(c.column), c.within) {
				t.Errorf("line %d: %s %.15g, want %.15g", row.Line(), c.column, c.got, row.Float(c.column))
			}
		}
	}
}

// The law is that of whatever is added at a steady rate and thinned at regular
// intervals: nitrate and water changes, doses and elimination. A rate times the
// age is the level.
func TestSchedulePublishedAccumulation(t *testing.T) {
	rows := published.Load(t, "exchange_vectors")
	level := func(rate, length, r float64) (before, after, mean float64) {
		a, err := scheduleEvery(length, 1, r).Steady()
		if err != nil {
			t.Fatal(err)
		}
		return rate * a.Highest, rate * a.Lowest, rate * a.Mean
	}
	check := func(id string, got float64) {
		t.Helper()
		row := rows.Find("id", id)
		if tol := max(row.Float("tolerance"), 1e-9); math.Abs(got-row.Float("published")) > tol {
			t.Errorf("%s: %.10g, published %s, %s", id, got, row.Text("published"), row.Source())
		}
		if !scheduleClose(got, row.Float("computed"), 1e-9) {
			t.Errorf("%s: %.10g, computed %s", id, got, row.Text("computed"))
		}
	}
	_, after, _ := level(1, 1, 0.2)
	check("age-01-0.2-after", after)
	before, after, _ := level(1, 1, 0.4)
	check("age-01-0.4-after", after)
	check("age-01-0.4-before", before)
	_, after, _ = level(1, 1, 0.8)
	check("age-01-0.8-after", after)
	before, _, mean := level(2.5, 4, 0.5)
	check("age-02", before)
	check("age-03", mean)
	for _, c := range []struct {
		id              string
		rate, length, r float64
	}{
		{"age-04", 2.5, 1, 0.125}, {"age-06a", 5, 1, 0.25}, {"age-06b", 10, 1, 0.5}, {"age-06c", 10, 1, 0.2},
		{"age-09-20-0.1", 20, 1, 0.1}, {"age-09-20-0.5", 20, 1, 0.5}, {"age-09-10-0.25", 10, 1, 0.25}, {"age-09-40-0.1", 40, 1, 0.1},
		{"dose-06", 150, 1, 1 - 0.05}, {"dose-08", 0.2, 1, 1 - 0.25},
	} {
		before, _, _ := level(c.rate, c.length, c.r)
		check(c.id, before)
	}
	// 100 mg into 10 L every 6 h, half-life 4 h: just before the next dose.
	_, after, _ = level(10, 1, 1-math.Exp2(-6.0/4))
	check("dose-02", after)

	stages, err := scheduleEvery(1, 1, 0.25).FromNew(3)
	if err != nil {
		t.Fatal(err)
	}
	check("age-07-1-before", 700*stages[0].Before.Mean)
	check("age-07-1-after", 700*stages[0].After.Mean)
	check("age-07-2-before", 700*stages[1].Before.Mean)
	// 50 to start with, a quarter changed, then 20 added before the next change.
	start := func(i int) float64 { return 50 * stages[i].FirstFill }
	check("age-08-1-after", start(0))
	check("age-08-1-before", start(0)+20)
	check("age-08-2-after", start(1)+20*stages[0].After.Mean)
	check("age-08-3-after", start(2)+20*stages[1].After.Mean)
	check("age-08-3-before", start(2)+20*(stages[1].After.Mean+1))
	stages, err = scheduleEvery(1, 1, 1-0.25).FromNew(7)
	if err != nil {
		t.Fatal(err)
	}
	check("dose-07", 0.2*stages[6].Before.Mean)
}

// The figures of the reference note: miles, one fifth a drain.
func TestScheduleReferenceFigures(t *testing.T) {
	for _, c := range []struct {
		s                   Schedule
		after, before, mean float64
	}{
		{scheduleEvery(30000, 1, 0.2), 120000, 150000, 135000},
		{scheduleEvery(60000, 4, 0.2), 41626, 101626, 71626},
		{scheduleEvery(15000, 1, 0.2), 60000, 75000, 67500},
	} {
		a, err := c.s.Steady()
		if err != nil || math.Round(a.Lowest) != c.after || math.Round(a.Highest) != c.before || math.Round(a.Mean) != c.mean {
			t.Errorf("%v: %v %v", c.s, a, err)
		}
	}
}

// For one service every L the share of age kL or more is (1-r)^k just after and
// (1-r)^(k-1) just before; at other ages it is that of the next multiple.
func TestScheduleAtLeastWholeIntervals(t *testing.T) {
	s := scheduleEvery(30, 1, 0.2)
	for k := range 12 {
		for _, less := range []float64{0, 0.5, 29} {
			age := 30*float64(k) - less
			if age <= 0 {
				continue
			}
			old, err := s.AtLeast(age)
			after, before := math.Pow(0.8, float64(k)), math.Pow(0.8, float64(k-1))
			if err != nil || !scheduleClose(old.After[0], after, 1e-14) || !scheduleClose(old.Before[0], before, 1e-14) {
				t.Errorf("age %g: %+v %v; want %g and %g", age, old, err, after, before)
			}
		}
	}
	if old, err := s.AtLeast(0); err != nil || old.After[0] != 1 || old.Before[0] != 1 || old.Mean != 1 {
		t.Errorf("age 0: %+v %v", old, err)
	}
	// A round of two like services is two rounds of one.
	two := Schedule{Services: []Service{s.Services[0], s.Services[0]}}
	for age := 0.0; age < 400; age += 7.5 {
		a, errA := s.AtLeast(age)
		b, errB := two.AtLeast(age)
		if errA != nil || errB != nil || !scheduleClose(a.After[0], b.After[1], 1e-13) || !scheduleClose(a.Before[0], b.Before[0], 1e-13) || !scheduleClose(a.Mean, b.Mean, 1e-13) {
			t.Errorf("age %g: %+v against %+v", age, a, b)
		}
	}
}

// scheduleCohort is one lot of fluid, all put in together.
type scheduleCohort struct{ share, age float64 }

// scheduleSimulate follows every lot of fluid: the slow, obvious version.
// Top-up comes in steps small beside the intervals.
func scheduleSimulate(s Schedule, rounds, steps int) (before, after []Age, mean float64) {
	lots := []scheduleCohort{{1, 0}}
	age := func() Age {
		var m, q float64
		for _, l := range lots {
			m += l.share * l.age
			q += l.share * l.age * l.age
		}
		return Age{m, math.Sqrt(max(q-m*m, 0))}
	}
	replace := func(share float64) {
		if share == 0 {
			return
		}
		for i := range lots {
			lots[i].share *= 1 - share
		}
		lots = slices.DeleteFunc(lots, func(l scheduleCohort) bool { return l.share < 1e-16 })
		lots = append(lots, scheduleCohort{share, 0})
	}
	for round := range rounds {
		last := round == rounds-1
		for _, v := range s.Services {
			h := v.After / float64(steps)
			for range steps {
				if last {
					mean += (age().Mean + h/2) * h
				}
				for i := range lots {
					lots[i].age += h
				}
				replace(s.TopUp * h)
				if s.TopUp > 0 {
					lots[len(lots)-1].age = h / 2 // on average it came in halfway
				}
			}
			if last {
				before = append(before, age())
			}
			for _, d := range v.Drains {
				replace(d)
			}
			if last {
				after = append(after, age())
			}
		}
	}
	return before, after, mean / s.Round()
}

func TestScheduleAgainstCohorts(t *testing.T) {
	for _, c := range []struct {
		name   string
		s      Schedule
		steps  int
		within float64
	}{
		{"one", scheduleEvery(3, 1, 0.5), 1, 1e-9},
		{"mixed", Schedule{Services: []Service{{After: 2, Drains: []float64{0.2, 0.1}}, {After: 5}, {After: 0, Drains: []float64{0.4}}, {After: 3, Drains: []float64{0.25}}}}, 1, 1e-9},
		{"all of it", Schedule{Services: []Service{{After: 2, Drains: []float64{1}}, {After: 5, Drains: []float64{0.5}}}}, 1, 1e-9},
		{"leak only", Schedule{Services: []Service{{After: 1}}, TopUp: 0.4}, 100, 3e-3},
		{"leak and drains", Schedule{Services: []Service{{After: 2, Drains: []float64{0.2, 0.1}}, {After: 1, Drains: []float64{0.3}}}, TopUp: 0.1}, 100, 2e-3},
	} {
		before, after, mean := scheduleSimulate(c.s, 40, c.steps)
		a, err := c.s.Steady()
		if err != nil {
			t.Fatal(err)
		}
		if !scheduleClose(a.Mean, mean, c.within) {
			t.Errorf("%s: over the round %g, simulated %g", c.name, a.Mean, mean)
		}
		lowest, highest := math.MaxFloat64, 0.0
		for i := range a.Services {
			lowest, highest = min(lowest, after[i].Mean), max(highest, before[i].Mean)
		}
		if math.Abs(a.Lowest-lowest) > max(1e-6, c.within*lowest) || !scheduleClose(a.Highest, highest, c.within) {
			t.Errorf("%s: from %g to %g, simulated %g to %g", c.name, a.Lowest, a.Highest, lowest, highest)
		}
		for i, v := range a.Services {
			for _, p := range [][2]float64{{v.Before.Mean, before[i].Mean}, {v.After.Mean, after[i].Mean}, {v.Before.SD, before[i].SD}, {v.After.SD, after[i].SD}} {
				if !scheduleClose(p[0], p[1], c.within) && math.Abs(p[0]-p[1]) > 1e-6 {
					t.Errorf("%s: service %d: %g, simulated %g", c.name, i+1, p[0], p[1])
				}
			}
		}
	}
}

// Properties on random schedules: the transient reaches the steady state as
// Settled says, ages scale with length, the area under the share that is at
// least an age is the mean age, splitting an interval changes nothing.
func TestScheduleProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for trial := range 300 {
		s := Schedule{TopUp: []float64{0, r.Float64(), 1e-9, 3}[r.IntN(4)]}
		for range 1 + r.IntN(4) {
			v := Service{After: r.Float64() * 4}
			for range 1 + r.IntN(3) {
				v.Drains = append(v.Drains, 0.05+0.8*r.Float64())
			}
			s.Services = append(s.Services, v)
		}
		a, err := s.Steady()
		if err != nil {
			t.Fatal(err)
		}
		n, err := s.Settled(1e-6)
		if err != nil {
			t.Fatal(err)
		}
		way, err := s.FromNew(n)
		if err != nil {
			t.Fatal(err)
		}
		last, end := way[len(way)-1], a.Services[len(a.Services)-1]
		if short := 1 - last.After.Mean/end.After.Mean; math.Abs(short-last.FirstFill) > 1e-12 || short > 1e-6*(1+1e-9) {
			t.Fatalf("after %d rounds short by %g, first fill %g", n, short, last.FirstFill)
		}
		if n > 1 && way[len(way)-1-len(s.Services)].FirstFill <= 1e-6*(1-1e-9) {
			t.Fatalf("settled a round earlier than %d", n)
		}
		double, err := s.Stretch(2)
		if err != nil {
			t.Fatal(err)
		}
		double.TopUp = s.TopUp / 2
		b, err := double.Steady()
		if err != nil || !scheduleClose(b.Mean, 2*a.Mean, 1e-12) || !scheduleClose(b.Highest, 2*a.Highest, 1e-12) {
			t.Fatalf("twice the length: %g, %g %v", b.Mean, a.Mean, err)
		}
		split := s
		split.Services = append([]Service{{After: s.Services[0].After / 3}}, s.Services...)
		split.Services[1].After -= split.Services[0].After
		c, err := split.Steady()
		if err != nil || !scheduleClose(c.Mean, a.Mean, 1e-11) || !scheduleClose(c.Services[1].Before.SD, a.Services[0].Before.SD, 1e-7) {
			t.Fatalf("an interval in two: %g, %g %v", c.Mean, a.Mean, err)
		}
		if trial%10 == 0 {
			scheduleCheckArea(t, s, a)
		}
	}
}

// scheduleCheckArea adds up the shares older than each age, by the midpoint rule.
func scheduleCheckArea(t *testing.T, s Schedule, a Ages) {
	t.Helper()
	step := a.Highest / 400
	var mean, before, after float64
	for i := range 20000 {
		o, err := s.AtLeast((float64(i) + 0.5) * step)
		if err != nil {
			t.Fatal(err)
		}
		mean += o.Mean * step
		before += o.Before[0] * step
		after += o.After[0] * step
		if o.Before[0] < 1e-9 && o.Mean < 1e-9 {
			break
		}
	}
	v := a.Services[0]
	if !scheduleClose(mean, a.Mean, 1e-3) || math.Abs(before-v.Before.Mean) > 2*step || math.Abs(after-v.After.Mean) > 2*step {
		t.Fatalf("areas %g %g %g; want %g %g %g (%+v)", mean, before, after, a.Mean, v.Before.Mean, v.After.Mean, s)
	}
}

func TestSchedulePhi(t *testing.T) {
	for _, z := range []float64{0, 1e-300, 1e-9, 1e-3, 0.5, 0.9999999999999999, 1, 1.5, 30, 1e6} {
		one, two, three := schedulePhi(z)
		// Slow version: the defining integrals of e^-zs, (1-s)e^-zs and s·e^-zs over
		// 0..1, by Gauss-Legendre on many small pieces.
		a := scheduleIntegral(z, func(s float64) float64 { return 1 })
		b := scheduleIntegral(z, func(s float64) float64 { return 1 - s })
		c := scheduleIntegral(z, func(s float64) float64 { return s })
		if z > 100 {
			continue // the pieces are too coarse there
		}
		if !scheduleClose(one, a, 1e-13) || !scheduleClose(two, b, 1e-13) || !scheduleClose(three, c, 1e-13) {
			t.Errorf("z %g: %.17g %.17g %.17g; want %.17g %.17g %.17g", z, one, two, three, a, b, c)
		}
	}
}

func scheduleIntegral(z float64, f func(float64) float64) float64 {
	const n = 4000
	sum := 0.0
	for i := range n {
		for _, y := range []float64{-math.Sqrt(0.6), 0, math.Sqrt(0.6)} {
			s := (float64(i) + 0.5 + y/2) / n
			w := 5.0 / 18
			if y == 0 {
				w = 8.0 / 18
			}
			sum += w / n * f(s) * math.Exp(-z*s)
		}
	}
	return sum
}

func TestScheduleCompare(t *testing.T) {
	bunched, spread := scheduleEvery(60000, 4, 0.2), scheduleEvery(15000, 1, 0.2)
	c, err := CompareSchedules(bunched, spread)
	if err != nil || !c.EqualFluid || c.Stretch != 1 {
		t.Fatalf("%+v %v", c, err)
	}
	for i, want := range []string{"first", "second", "second"} {
		if c.Rows[i].Younger != want {
			t.Errorf("%+v, want %s", c.Rows[i], want)
		}
	}
	// One larger drain at equal L/r is the other way round.
	large, small := scheduleEvery(2, 1, 0.4), scheduleEvery(1, 1, 0.2)
	c, err = CompareSchedules(large, small)
	if err != nil || c.Rows[0].Younger != "first" || c.Rows[1].Younger != "first" || c.Rows[2].Younger != "neither" {
		t.Errorf("%+v %v", c, err)
	}
	// Not at equal fluid: the stretch makes it so.
	twice := scheduleEvery(7500, 1, 0.2)
	c, err = CompareSchedules(bunched, twice)
	if err != nil || c.EqualFluid || c.Stretch != 2 || !strings.Contains(c.Text(), "not at equal fluid: 0.8 against 1.6 capacities of new fluid every 60000 units of length; equal with the second's intervals times 2\n") {
		t.Errorf("%+v %v\n%s", c, err, c.Text())
	}
	if twice, err = twice.Stretch(c.Stretch); err != nil {
		t.Fatal(err)
	}
	if c, err = CompareSchedules(bunched, twice); err != nil || !c.EqualFluid {
		t.Errorf("%+v %v", c, err)
	}
	bunched.Unit, twice.Unit = "mi", "mi"
	if c, err = CompareSchedules(bunched, twice); err != nil || !strings.Contains(c.Text(), "both use 0.8 capacities of new fluid every 60000 mi\n") ||
		!strings.Contains(c.Text(), "just after a service: 41630 against 60000 mi, younger: first") {
		t.Errorf("%v\n%s", err, c.Text())
	}
	if text := c.Steps.Text(); !strings.Contains(text, "first: mean age just before service = L/r = 60000/0.5904 = 101626 mi\n") || !strings.Contains(text, "second: mean age just before service = L/r = 15000/0.2 = 75000 mi\n") {
		t.Errorf("working:\n%s", text)
	}
	bunched.Unit, spread.Unit = "", "mi"
	if _, err := CompareSchedules(bunched, spread); err == nil || !strings.Contains(err.Error(), "want one unit") {
		t.Error(err)
	}
	leaky := Schedule{Services: []Service{{After: 1}}, TopUp: 1}
	if c, err = CompareSchedules(scheduleEvery(1, 1, 0.2), leaky); err != nil || c.Stretch != 0 {
		t.Errorf("%+v %v", c, err)
	}
}

func TestScheduleUnits(t *testing.T) {
	d := DistanceRound{
		Capacity: units.Litre.Of(10),
		Services: []DistanceService{{After: units.Kilometre.Of(48000), Drains: []units.Volume{units.Litre.Of(2)}}},
		Leak:     units.Litre.Of(0.1), LeakOver: units.Kilometre.Of(1000),
	}
	s, err := d.Schedule()
	if err != nil || s.Unit != "km" || s.Services[0].After != 48000 || s.Services[0].Drains[0] != 0.2 || s.TopUp != 1e-5 {
		t.Errorf("%+v %v", s, err)
	}
	d.Unit = units.Mile
	d.Services[0].After = units.Mile.Of(30000)
	if s, err = d.Schedule(); err != nil || s.Unit != "mi" || s.Services[0].After != 30000 {
		t.Errorf("%+v %v", s, err)
	}
	y := TimeRound{Capacity: units.Litre.Of(10), Services: []TimeService{{After: 730 * 24 * time.Hour, Drains: []units.Volume{units.Litre.Of(5)}}}}
	if s, err = y.Schedule(); err != nil || s.Services[0].After != 730 || s.Unit != "days" {
		t.Errorf("%+v %v", s, err)
	}
	for _, c := range []struct {
		change func(*DistanceRound)
		want   string
	}{
		{func(d *DistanceRound) { d.Capacity = units.Volume{} }, "capacity 0 L; want more than 0 L"},
		{func(d *DistanceRound) { d.Leak = units.Litre.Of(-1) }, "leak -1 L; want"},
		{func(d *DistanceRound) { d.LeakOver = units.Distance{} }, "leak of 0.1 L over 0 mi; want a length above 0"},
		{func(d *DistanceRound) { d.Services[0].Drains = []units.Volume{units.Litre.Of(11)} }, "service 1: drain 1 exchanges a share of 1.1; want 0 to 1"},
		{func(d *DistanceRound) { d.Services[0].After = units.Kilometre.Of(-1) }, "service 1: after -0.6"},
	} {
		bad := d
		bad.Services = slices.Clone(d.Services)
		c.change(&bad)
		if _, err := bad.Schedule(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
}

func TestScheduleRefuses(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name string
		s    Schedule
		want string
	}{
		{"none", Schedule{}, "0 services; want 1 to 1000"},
		{"no length", scheduleEvery(0, 1, 0.2), "the round has length 0 unit of length; want more than 0"},
		{"NaN length", scheduleEvery(nan, 1, 0.2), "service 1: after NaN; want 0 to 1e+09"},
		{"negative length", scheduleEvery(-1, 1, 0.2), "after -1"},
		{"share above 1", scheduleEvery(1, 1, 1.2), "drain 1 exchanges a share of 1.2; want 0 to 1"},
		{"NaN share", scheduleEvery(1, 1, nan), "share of NaN"},
		{"drains", scheduleEvery(1, 101, 0.1), "101 drains; want at most 100"},
		{"top-up", Schedule{Services: []Service{{After: 1}}, TopUp: -1, Unit: "km"}, "top-up -1 of the capacity for each km; want 0"},
	} {
		_, err := c.s.Steady()
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
		for _, f := range []func() error{
			func() error { _, err := c.s.FromNew(1); return err },
			func() error { _, err := c.s.AtLeast(1); return err },
			func() error { _, err := c.s.Settled(0.1); return err },
			func() error { _, err := c.s.Fluid(); return err },
			func() error { _, err := c.s.Stretch(2); return err },
			func() error { _, err := CompareSchedules(c.s, scheduleEvery(1, 1, 0.2)); return err },
			func() error { _, err := CompareSchedules(scheduleEvery(1, 1, 0.2), c.s); return err },
		} {
			if f() == nil {
				t.Errorf("%s accepted", c.name)
			}
		}
	}
	for _, s := range []Schedule{scheduleEvery(1, 0, 0), scheduleEvery(1, 1, 0), scheduleEvery(1e9, 1, 1e-310)} {
		if _, err := s.Steady(); !errors.Is(err, ErrNoExchange) {
			t.Errorf("%+v: %v", s, err)
		}
		if _, err := s.Settled(0.5); !errors.Is(err, ErrNoExchange) {
			t.Errorf("%+v: %v", s, err)
		}
	}
	good := scheduleEvery(1, 1, 0.2)
	ten := Schedule{Services: slices.Repeat(good.Services, 10)}
	if way, err := ten.FromNew(10_000); err != nil || len(way) != 100_000 {
		t.Errorf("ten thousand rounds of ten: %d %v", len(way), err)
	}
	leaky := Schedule{Services: []Service{{After: 4, Drains: []float64{0.2, 0.3}}}, TopUp: 0.5}
	if f, err := leaky.Fluid(); f != 0.625 || err != nil {
		t.Errorf("half a capacity in four and a half a unit: %g %v", f, err)
	}
	for _, most := range []Schedule{{Services: slices.Repeat(good.Services, scheduleMostServices)}, scheduleEvery(1, scheduleMostDrains, 0.01)} {
		if err := most.Check(); err != nil {
			t.Error(err)
		}
	}
	// A shortfall met exactly is met: 0.8 × 0.8 takes two rounds, not three.
	for tolerance, want := range map[float64]int{0.8: 1, 0.64: 2, 0.512: 3, 0.511: 4} {
		if n, err := good.Settled(tolerance); n != want || err != nil {
			t.Errorf("within %g after %d rounds, want %d: %v", tolerance, n, want, err)
		}
	}
	if a, err := ten.Steady(); err != nil || a.Services[0].At != 1 || a.Services[9].At != 10 {
		t.Errorf("%+v %v", a.Services, err)
	}
	if n, err := scheduleEvery(1, 1, 1).Settled(0.5); n != 1 || err != nil {
		t.Errorf("all of it at once: %d %v", n, err)
	}
	for _, err := range []error{
		func() error { _, err := good.FromNew(0); return err }(),
		func() error { _, err := good.FromNew(10_001); return err }(),
		func() error { _, err := good.AtLeast(nan); return err }(),
		func() error { _, err := good.AtLeast(-1); return err }(),
		func() error { _, err := good.Settled(nan); return err }(),
		func() error { _, err := good.Settled(1); return err }(),
		func() error { _, err := good.Settled(0); return err }(),
		func() error {
			_, err := (Schedule{Services: slices.Repeat(good.Services, 11)}).FromNew(10_000)
			return err
		}(),
		func() error { _, err := good.Stretch(0); return err }(),
		func() error { _, err := good.Stretch(nan); return err }(),
		func() error { _, err := good.Stretch(1e10); return err }(),
	} {
		if err == nil || !strings.Contains(err.Error(), "want") {
			t.Errorf("got %v", err)
		}
	}
}

func BenchmarkSchedule(b *testing.B) {
	s := Schedule{TopUp: 1e-6}
	for range 12 {
		s.Services = append(s.Services, Service{After: 10000, Drains: []float64{0.2, 0.2}})
	}
	b.Run("steady state of 12 services", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := s.Steady(); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("share of an age over 12 services", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := s.AtLeast(100000); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// Two ways to change everything have one age just after a service, none; and a second
// schedule whose top-up alone is all the first one uses has no stretch that equals it.
func TestScheduleCompareAtNothing(t *testing.T) {
	all := scheduleEvery(10, 1, 1)
	c, err := CompareSchedules(all, scheduleEvery(20, 1, 1))
	if err != nil || c.Rows[0].First != 0 || c.Rows[0].Second != 0 || c.Rows[0].Younger != "neither" || c.Rows[1].Younger != "first" {
		t.Errorf("%+v, %v", c.Rows, err)
	}
	top := Schedule{Services: []Service{{After: 10}}, TopUp: 0.02, Unit: "months"}
	both := scheduleEvery(10, 1, 0.2)
	both.TopUp, both.Unit = 0.02, "months"
	c, err = CompareSchedules(top, both)
	if err != nil || c.Stretch != 0 || strings.Contains(c.Text(), "equal with") || !strings.Contains(c.Text(), "not at equal fluid: 0.2 against 0.4 capacities") {
		t.Errorf("%+v, %v\n%s", c, err, c.Text())
	}
}

func TestScheduleStretchRefusesByItsFactor(t *testing.T) {
	for _, factor := range []float64{0, -1, math.Inf(1), math.NaN()} {
		if _, err := scheduleEvery(10, 1, 0.2).Stretch(factor); err == nil || !strings.Contains(err.Error(), "want a factor above 0") {
			t.Errorf("%v: %v", factor, err)
		}
	}
}

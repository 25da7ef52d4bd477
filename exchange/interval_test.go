package exchange

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func intervalCauseOf(t testing.TB, id string, shape measure.Shape, dof float64) *measure.Cause {
	t.Helper()
	c, err := measure.NewCause(id, "", shape, dof)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func intervalDrain(t testing.TB, v float64, terms ...measure.Term) measure.Volume {
	t.Helper()
	d, err := measure.NewMeasured(dilutionLitres(v), terms...)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// intervalReference is the service of the reference: five drains of 2.4 L with
// u = 0.05 L each from 11.36 to 14.2 L.
func intervalReference(t testing.TB, shared bool) MeasuredService {
	s := MeasuredService{Capacity: dilutionRange(t, 11.36, 14.2)}
	for i := range 5 {
		id := "drain-" + strconv.Itoa(i)
		if shared {
			id = "jug"
		}
		s.Drains = append(s.Drains, intervalDrain(t, 2.4, measure.Term{Cause: intervalCauseOf(t, id, measure.Normal, 0), Scale: 0.05}))
	}
	return s
}

// uncertainty_vectors.csv, EXCH-ref: another quadrature altogether.
func TestIntervalReference(t *testing.T) {
	r, err := intervalReference(t, false).Interval()
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]float64{"q2.5": r.Low, "q50": r.Median, "q97.5": r.High}
	for _, row := range published.Load(t, "uncertainty_vectors").Where("id", "EXCH-ref") {
		dilutionNear(t, row.Text("quantity"), got[row.Text("quantity")], row.Float("recomputed"), 1e-7)
	}
	if r.Method != ByQuadrature || !slices.Contains(r.Caveats, CapacityDominates) || math.Abs(r.CapacityShare-0.979) > 5e-4 {
		t.Errorf("%+v", r)
	}
	t.Logf("nodes %d, median %.12f", r.Nodes, r.Median)
}

// UNCERTAINTY.md: with one jug error shared by the five drains 0.303 to 0.399, and
// the jug has 9.5 % of the variance; alone, the capacity 97.9 and each drain 0.4.
func TestIntervalShared(t *testing.T) {
	s := intervalReference(t, true)
	r, err := s.Interval()
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "low", r.Low, 0.303, 5e-4)
	dilutionNear(t, "high", r.High, 0.399, 5e-4)
	shares := func(s MeasuredService) map[string]float64 {
		b, err := s.Budget()
		if err != nil {
			t.Fatal(err)
		}
		m := map[string]float64{}
		for _, row := range b.Rows {
			m[row.Cause] = row.Share
		}
		if b.Rows[0].Cause != intervalCapacityID {
			t.Errorf("largest is %s, want the capacity", b.Rows[0].Cause)
		}
		return m
	}
	dilutionNear(t, "jug", shares(s)["jug"], 0.095, 5e-4)
	alone := shares(intervalReference(t, false))
	dilutionNear(t, "capacity", alone[intervalCapacityID], 0.979, 5e-4)
	dilutionNear(t, "drain", alone["drain-3"], 0.004, 5e-4)
}

func TestIntervalNormalAgainstKernel(t *testing.T) {
	for z := -38.5; z < 38.5; z += 0.001 {
		below, density := intervalNormal(z)
		dilutionNear(t, "below "+strconv.FormatFloat(z, 'g', -1, 64), below, elementary.NormalCDF(z), 1.2e-15)
		dilutionNear(t, "density", density, elementary.NormalPDF(z), 4e-16)
	}
}

func TestIntervalRuleAgainstKernel(t *testing.T) {
	for _, n := range []int{12, 24, 48} {
		x, w := elementary.GaussLegendre(n)
		rule := intervalRule(n)
		for i, node := range rule {
			if node[0] != x[n/2+i] || node[1] != w[n/2+i] {
				t.Errorf("rule %d node %d: %v; want %v %v", n, i, node, x[n/2+i], w[n/2+i])
			}
		}
		if len(rule) != n/2 {
			t.Errorf("rule %d has %d nodes to the right", n, len(rule))
		}
	}
	if intervalRule(13) != nil {
		t.Error("a rule nobody wrote out")
	}
}

// The moments at one capacity against a brute integration over each cause.
func TestIntervalPointAgainstHermite(t *testing.T) {
	a := intervalCauseOf(t, "a", measure.Normal, 0)
	b := intervalCauseOf(t, "b", measure.Normal, 0)
	s := MeasuredService{Capacity: dilutionRange(t, 9, 9), Drains: []measure.Volume{
		intervalDrain(t, 2, measure.Term{Cause: a, Scale: 0.1}, measure.Term{Cause: b, Scale: 0.05}),
		intervalDrain(t, 2.5, measure.Term{Cause: a, Scale: 0.08}),
		intervalDrain(t, 1.5, measure.Term{Cause: b, Scale: -0.07}),
	}}
	m, err := newIntervalModel(s)
	if err != nil {
		t.Fatal(err)
	}
	p := m.at(9)
	x, w := elementary.GaussHermite(20)
	var k1, k2, k3 float64
	f := func(i, j int) float64 {
		return (1 - (2+0.1*x[i]+0.05*x[j])/9) * (1 - (2.5+0.08*x[i])/9) * (1 - (1.5-0.07*x[j])/9)
	}
	for i := range x {
		for j := range x {
			k1 += w[i] * w[j] * f(i, j)
		}
	}
	for i := range x {
		for j := range x {
			d := f(i, j) - k1
			k2 += w[i] * w[j] * d * d
			k3 += w[i] * w[j] * d * d * d
		}
	}
	dilutionNear(t, "mean", p.mean, k1, 1e-7)
	dilutionNear(t, "sd", p.sd, math.Sqrt(k2), 2e-4*p.sd)
	dilutionNear(t, "skew", p.skew, k3/math.Pow(k2, 1.5), 0.01*p.skew)
	slope := (func() float64 { return (m.at(9.001).plain - m.at(8.999).plain) / 0.002 })()
	dilutionNear(t, "slope", p.slope, slope, 1e-7)
}

// Quadrature against simulation over random services: capacity narrow or wide,
// readings fine or rough, jugs shared.
func TestIntervalAgainstSimulation(t *testing.T) {
	rng := rand.New(rand.NewPCG(23, 24))
	for k := range 6 {
		s := intervalRandom(t, rng)
		r, err := s.Interval()
		if err != nil {
			t.Fatal(err)
		}
		if r.Method != ByQuadrature {
			t.Errorf("case %d: by %v", k, r.Method)
			continue
		}
		sim := ShareInterval{Coverage: s.coverage()}
		s.Trials, s.Seed = 200_000, uint64(k)
		if err := s.simulate(&sim); err != nil {
			t.Fatal(err)
		}
		slack := 0.009 * (r.High - r.Low)
		dilutionNear(t, "low", r.Low, sim.Low, slack)
		dilutionNear(t, "high", r.High, sim.High, slack)
		dilutionNear(t, "median", r.Median, sim.Median, slack)
	}
}

func intervalRandom(t testing.TB, rng *rand.Rand) MeasuredService {
	t.Helper()
	c := 8 + 6*rng.Float64()
	s := MeasuredService{Capacity: dilutionRange(t, c, c+3*math.Pow(rng.Float64(), 4))}
	scale := intervalCauseOf(t, "jug/scale", measure.Normal, 0)
	rough := 0.2 * math.Pow(rng.Float64(), 3)
	for i := range 1 + rng.IntN(6) {
		v := 1.5 + rng.Float64()
		s.Drains = append(s.Drains, intervalDrain(t, v,
			measure.Term{Cause: scale, Scale: v * 0.01 * rng.Float64()},
			measure.Term{Cause: intervalCauseOf(t, "read-"+strconv.Itoa(i), measure.Normal, 0), Scale: 0.001 + rough},
			measure.Term{Cause: intervalCauseOf(t, "line-"+strconv.Itoa(i), measure.Triangular, 0), Scale: 0.001},
		))
	}
	return s
}

// The ends are where the chances say, and a higher target is likelier.
func TestChanceRoundTrip(t *testing.T) {
	rng := rand.New(rand.NewPCG(25, 26))
	for range 50 {
		s := intervalRandom(t, rng)
		s.Coverage = 0.5 + 0.49*rng.Float64()
		r, err := s.Interval()
		if err != nil || r.Method != ByQuadrature {
			t.Fatal(r.Method, err)
		}
		chance := func(x float64) float64 {
			p, err := s.Chance(x)
			if err != nil {
				t.Fatal(err)
			}
			return p
		}
		dilutionNear(t, "low", chance(r.Low), (1-s.Coverage)/2, 2e-5)
		dilutionNear(t, "median", chance(r.Median), 0.5, 2e-5)
		dilutionNear(t, "high", chance(r.High), (1+s.Coverage)/2, 2e-5)
		if a, b := chance(0), chance(1); a > 1e-12 || b < 1-1e-12 {
			t.Errorf("chance of nothing left %v, of all %v", a, b)
		}
	}
}

// With exact drains the share's quantiles are the capacity's; the quadrature goes
// there as the readings get finer.
func TestIntervalExactDrains(t *testing.T) {
	s := MeasuredService{Capacity: dilutionRange(t, 10, 14), Coverage: 0.9}
	for range 3 {
		s.Drains = append(s.Drains, measure.MeasuredExactly(dilutionLitres(2)))
	}
	r, err := s.Interval()
	if err != nil || r.Method != ByDefinition {
		t.Fatal(r.Method, err)
	}
	at := func(c float64) float64 { return math.Pow(1-2/c, 3) }
	dilutionNear(t, "low", r.Low, at(10.2), 1e-15)
	dilutionNear(t, "median", r.Median, at(12), 1e-15)
	dilutionNear(t, "high", r.High, at(13.8), 1e-15)
	for target, want := range map[float64]float64{at(10.2): 0.05, at(12): 0.5, 0.1: 0, 0.9: 1} {
		p, err := s.Chance(target)
		if err != nil {
			t.Fatal(err)
		}
		dilutionNear(t, "chance", p, want, 1e-12)
	}
	for _, u := range []float64{1e-2, 1e-4, 1e-6, 1e-9} {
		fine := s
		fine.Drains = nil
		for i := range 3 {
			fine.Drains = append(fine.Drains, intervalDrain(t, 2, measure.Term{Cause: intervalCauseOf(t, "d"+strconv.Itoa(i), measure.Normal, 0), Scale: u}))
		}
		f, err := fine.Interval()
		if err != nil || f.Method != ByQuadrature {
			t.Fatal(u, f.Method, err)
		}
		dilutionNear(t, "low", f.Low, r.Low, 2*u*u+1e-10)
		dilutionNear(t, "high", f.High, r.High, 2*u*u+1e-10)
	}
	point := MeasuredService{Capacity: dilutionRange(t, 10, 10), Drains: s.Drains}
	if r, err := point.Interval(); err != nil || r.Low != r.High || r.Low != at(10) {
		t.Errorf("no doubt at all: %v to %v, %v", r.Low, r.High, err)
	}
}

// Shapes other than normal: three rectangles are narrower at the ends, three t
// variates of ten degrees of freedom wider, than their deviations say.
func TestIntervalShapes(t *testing.T) {
	for shape, dof := range map[measure.Shape]float64{measure.Rectangular: 0, measure.Student: 10, measure.Triangular: 0} {
		s := MeasuredService{Capacity: dilutionRange(t, 12, 12)}
		for i := range 3 {
			s.Drains = append(s.Drains, intervalDrain(t, 2.4, measure.Term{Cause: intervalCauseOf(t, "c"+strconv.Itoa(i), shape, dof), Scale: 0.1}))
		}
		r, err := s.Interval()
		if err != nil || r.Method != ByQuadrature {
			t.Fatal(shape, r.Method, err)
		}
		sim := ShareInterval{Coverage: 0.95}
		s.Trials = 500_000
		if err := s.simulate(&sim); err != nil {
			t.Fatal(err)
		}
		dilutionNear(t, shape.String()+" low", r.Low, sim.Low, 0.004*(sim.High-sim.Low))
		dilutionNear(t, shape.String()+" high", r.High, sim.High, 0.004*(sim.High-sim.Low))
	}
}

// One rectangle that rules is not normal: the interval is simulated and says so.
func TestIntervalFallsBack(t *testing.T) {
	jug := intervalCauseOf(t, "jug", measure.Rectangular, 0)
	student := intervalCauseOf(t, "mean", measure.Student, 3)
	for name, cause := range map[string]*measure.Cause{"rectangle": jug, "few degrees of freedom": student} {
		s := MeasuredService{Capacity: dilutionRange(t, 12, 12), Trials: 200_000, Seed: 5}
		for range 3 {
			s.Drains = append(s.Drains, intervalDrain(t, 2.4, measure.Term{Cause: cause, Scale: 0.1}))
		}
		r, err := s.Interval()
		if err != nil || r.Method != BySimulation || r.Nodes != 0 || !slices.Contains(r.Caveats, SimulatedInterval) {
			t.Fatalf("%s: %+v, %v", name, r, err)
		}
		if cause == jug { // quantiles of a rectangle ±√3·0.1 through a falling curve
			for p, got := range map[float64]float64{0.975: r.Low, 0.5: r.Median, 0.025: r.High} {
				d := 2.4 + 0.1*math.Sqrt(12)*(p-0.5)
				dilutionNear(t, name, got, math.Pow(1-d/12, 3), 2e-4)
			}
		}
		if p, err := s.Chance(r.Median); err != nil || math.Abs(p-0.5) > 0.005 {
			t.Errorf("%s: chance of the median %v, %v", name, p, err)
		}
		again, err := s.Interval()
		if err != nil || again.Low != r.Low || again.High != r.High {
			t.Errorf("%s: the same seed gave %v to %v, then %v to %v", name, r.Low, r.High, again.Low, again.High)
		}
	}
	// Beside a capacity range the same rectangle hardly matters.
	s := MeasuredService{Capacity: dilutionRange(t, 11, 14)}
	for range 3 {
		s.Drains = append(s.Drains, intervalDrain(t, 2.4, measure.Term{Cause: jug, Scale: 0.02}))
	}
	if r, err := s.Interval(); err != nil || r.Method != ByQuadrature {
		t.Errorf("by %v, %v", r.Method, err)
	}
}

// A capacity found from the drains themselves: what they share with it is drawn
// once, so that the jug's scale, which makes both too large, cancels.
func TestIntervalMeasuredCapacity(t *testing.T) {
	jug := intervalCauseOf(t, "jug", measure.Normal, 0)
	fit := intervalCauseOf(t, "fit", measure.Normal, 0)
	s := MeasuredService{Trials: 300_000, CapacityMeasured: intervalDrain(t, 12, measure.Term{Cause: jug, Scale: 0.24})}
	for range 3 {
		s.Drains = append(s.Drains, intervalDrain(t, 2.4, measure.Term{Cause: jug, Scale: 0.048}))
	}
	r, err := s.Interval()
	if err != nil || r.Method != BySimulation {
		t.Fatal(r.Method, err)
	}
	dilutionNear(t, "the jug alone leaves no doubt", r.High-r.Low, 0, 1e-12)
	dilutionNear(t, "best", r.Best, 0.512, 1e-15)
	s.CapacityMeasured = intervalDrain(t, 12, measure.Term{Cause: fit, Scale: 0.3})
	if r, err = s.Interval(); err != nil {
		t.Fatal(err)
	}
	// ∂f/∂C = 3·f·d/(C(C-d)) = 0.032 per litre, ∂f/∂d = -3·f/(C-d) = -0.16.
	u := math.Hypot(0.3*0.032, 0.048*0.16)
	dilutionNear(t, "half width", (r.High-r.Low)/2, 1.96*u, 0.01*u)
	dilutionNear(t, "capacity's part", r.CapacityShare, math.Pow(0.3*0.032/u, 2), 1e-4)
	if p, err := s.Chance(r.High); err != nil || math.Abs(p-0.975) > 1e-3 {
		t.Errorf("chance of the high end %v, %v", p, err)
	}
	both := s
	both.Capacity = dilutionRange(t, 11, 12)
	wide := s
	wide.CapacityMeasured = intervalDrain(t, 12, measure.Term{Cause: fit, Scale: 3})
	invalid := s
	invalid.CapacityMeasured = measure.MeasuredExactly(units.Litre.Of(math.NaN()))
	for want, s := range map[string]MeasuredService{"want one of the two": both, "capacity 0 L": wide, "out of range": invalid} {
		if _, err := s.Interval(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v does not say %q", err, want)
		}
	}
}

// First order, in the middle: the reading's value is Best and its u is that of
// the budget; the drains' causes come through for others to share.
func TestMeasuredServiceReading(t *testing.T) {
	s := intervalReference(t, true)
	r, err := s.Reading()
	if err != nil {
		t.Fatal(err)
	}
	i, err := s.Interval()
	if err != nil {
		t.Fatal(err)
	}
	b, err := s.Budget()
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "value", r.Value(), i.Best, 1e-15)
	dilutionNear(t, "u", r.U(), b.U, 1e-15)
	if terms := r.Terms(); len(terms) != 2 || terms[1].Cause.ID() != "jug" || terms[1].Scale >= 0 {
		t.Errorf("terms %+v; want the capacity's and the jug's, the jug's negative", terms)
	}
}

func TestIntervalFaults(t *testing.T) {
	good := intervalReference(t, false)
	cases := []struct {
		name   string
		change func(*MeasuredService)
		want   []string
	}{
		{"no box", func(s *MeasuredService) { s.Capacity = units.Range[units.VolumeDim]{} }, []string{"capacity 0 L"}},
		{"half a lake", func(s *MeasuredService) { s.Capacity = dilutionRange(t, 400, 600) }, []string{"capacity 600 L"}},
		{"no drains", func(s *MeasuredService) { s.Drains = nil }, []string{"0 drains"}},
		{"many", func(s *MeasuredService) { s.Drains = make([]measure.Volume, 101) }, []string{"101 drains"}},
		{"coverage and trials", func(s *MeasuredService) { s.Coverage, s.Trials = 1, 3 }, []string{"coverage 1;", "3 trials"}},
		{"NaN", func(s *MeasuredService) { s.Coverage = math.NaN() }, []string{"coverage NaN"}},
		{"negative", func(s *MeasuredService) { s.Drains[1] = intervalDrain(t, -1) }, []string{"drain 2: -1 L"}},
		{"too much", func(s *MeasuredService) { s.Drains[0] = intervalDrain(t, 12) }, []string{"drain 1: 12 L", "11.36 L"}},
		{"rough", func(s *MeasuredService) {
			s.Drains[4] = intervalDrain(t, 2, measure.Term{Cause: intervalCauseOf(t, "rough", measure.Normal, 0), Scale: 1})
		}, []string{"drain 5: standard uncertainty 1 L"}},
		{"out of range", func(s *MeasuredService) { s.Drains[0] = measure.MeasuredExactly(units.Litre.Of(math.NaN())) }, []string{"drain 1", "out of range"}},
		{"two meanings", func(s *MeasuredService) {
			s.Drains[0] = intervalDrain(t, 2, measure.Term{Cause: intervalCauseOf(t, "drain-1", measure.Arcsine, 0), Scale: 0.01})
		}, []string{"drain-1", "one definition"}},
	}
	for _, c := range cases {
		s := good
		s.Drains = slices.Clone(good.Drains)
		c.change(&s)
		r, err := s.Interval()
		if err == nil || r.Low != 1 || r.High != 1 || r.Best != 1 {
			t.Errorf("%s: %+v, %v; want all old and an error", c.name, r, err)
			continue
		}
		for _, w := range c.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: %q does not say %q", c.name, err, w)
			}
		}
		if _, err := s.Chance(0.5); err == nil {
			t.Errorf("%s: a chance", c.name)
		}
		if _, err := s.Budget(); err == nil {
			t.Errorf("%s: a budget", c.name)
		}
		if _, err := s.Reading(); err == nil {
			t.Errorf("%s: a reading", c.name)
		}
	}
	edge := MeasuredService{Capacity: dilutionRange(t, 12, 12), Drains: []measure.Volume{
		intervalDrain(t, 2, measure.Term{Cause: intervalCauseOf(t, "rough", measure.Normal, 0), Scale: 1}),
	}}
	if _, err := edge.Interval(); err != nil {
		t.Errorf("in doubt by just a tenth of what is left: %v", err)
	}
	if _, err := good.Chance(2); err == nil || !strings.Contains(err.Error(), "target 2") {
		t.Errorf("%v", err)
	}
	var s MeasuredService
	if _, err := s.Interval(); err == nil || errors.Is(err, ErrNoBox) {
		t.Errorf("%v", err)
	}
}

func BenchmarkInterval(b *testing.B) {
	b.ReportAllocs()
	s := intervalReference(b, false)
	for b.Loop() {
		if _, err := s.Interval(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkIntervalBudget(b *testing.B) {
	b.ReportAllocs()
	s := intervalReference(b, false)
	for b.Loop() {
		if _, err := s.Budget(); err != nil {
			b.Fatal(err)
		}
	}
}

package exchange

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

func estimateDrains(litres float64, n int) []units.Volume {
	return slices.Repeat([]units.Volume{units.Litre.Of(litres)}, n)
}

// estimateBoomer is the published decay, five readings at 1, 2, 3, 5 and 6 h,
// as readings before the drains 2, 3, 4, 6 and 7 of which one is worth an hour.
// The readings at 0 and 4 h are missing: weight zero.
func estimateBoomer() Markers {
	m := Markers{Readings: []float64{0, 7.5, 5.2, 2.5, 0, 0.85, 0.58}, Drains: estimateDrains(2, 7), Noise: AbsoluteNoise}
	for _, c := range m.Readings {
		w := 0.0
		if c > 0 {
			w = 1 / (c * c)
		}
		m.Weights = append(m.Weights, w)
	}
	return m
}

func TestEstimatePublishedFit(t *testing.T) {
	rows := published.Load(t, "exchange_vectors")
	e, err := EstimateCapacity(estimateBoomer())
	if err != nil {
		t.Fatal(err)
	}
	fit := rows.Find("id", "fit-01")
	if math.Abs(e.Step-fit.Float("published")) > fit.Float("tolerance") || !scheduleClose(e.Step, fit.Float("computed"), 1e-9) {
		t.Errorf("slope %.10g, published %s, %s", e.Step, fit.Text("published"), fit.Source())
	}
	// 1 - d/C = exp(-slope).
	if want := 2 / (1 - math.Exp(-e.Step)); !scheduleClose(e.Capacity.In(units.Litre), want, 1e-12) {
		t.Errorf("capacity %s, want %g L", e.Capacity, want)
	}
	if e.DoF != 3 {
		t.Errorf("%g degrees of freedom, want 3: points of weight zero count for nothing", e.DoF)
	}
	// The standard errors printed there count a zero-weight point; ours must be
	// the ones for 3 degrees of freedom, and theirs follow with 4.
	as4 := math.Sqrt(3.0 / 4)
	for _, c := range []struct {
		id        string
		got       float64
		published bool
	}{
		{"fit-02", e.StepU, false}, {"fit-02b", e.StepU * as4, true}, {"fit-04", e.StartU, false}, {"fit-04b", e.StartU * as4, true},
	} {
		row := rows.Find("id", c.id)
		if !scheduleClose(c.got, row.Float("computed"), 1e-8) {
			t.Errorf("%s: %.10g, computed %s", c.id, c.got, row.Text("computed"))
		}
		if met := math.Abs(c.got-row.Float("published")) <= row.Float("tolerance"); met != c.published || row.Bool("agrees") != c.published {
			t.Errorf("%s: %.10g meets the published %s: %v", c.id, c.got, row.Text("published"), met)
		}
	}
	// Least squares of the logarithm; s.e. and intercept in the row's note.
	m := estimateBoomer()
	m.Noise, m.Weights = RelativeNoise, []float64{0, 1, 1, 1, 0, 1, 1}
	if e, err = EstimateCapacity(m); err != nil {
		t.Fatal(err)
	}
	row := rows.Find("id", "fit-06")
	if !scheduleClose(e.Step, row.Float("computed"), 1e-9) || math.Abs(e.StepU-0.025850) > 5e-7 || math.Abs(e.Start-13.33647) > 5e-6 {
		t.Errorf("log fit: %.10g ± %.6f from %.5f, want %s", e.Step, e.StepU, e.Start, row.Text("computed"))
	}
}

// Exact markers give the capacity back whatever the drains, the scale and what
// new fluid reads.
func TestEstimateExact(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for trial := range 300 {
		c := 6 + 10*r.Float64()
		m := Markers{Fresh: r.Float64() * 5, Noise: Noise(trial % 2)}
		marker := 0.1 + 100*r.Float64()
		for range 3 + r.IntN(6) {
			d := 0.5 + 2.5*r.Float64()
			if trial%3 == 0 {
				d = 2.5
			}
			m.Readings = append(m.Readings, marker+m.Fresh)
			m.Drains = append(m.Drains, units.Litre.Of(d))
			marker *= 1 - d/c
		}
		e, err := EstimateCapacity(m)
		if err != nil {
			t.Fatalf("%+v: %v", m, err)
		}
		if !scheduleClose(e.Capacity.In(units.Litre), c, 1e-6) || e.U.In(units.Litre) > 1e-6*c || e.More != 0 {
			t.Fatalf("capacity %s ± %s, %d more; want %g L", e.Capacity, e.U, e.More, c)
		}
	}
}

// estimateGrid minimises the sum of squares over the capacity by trisection,
// the start eliminated: the slow, obvious version.
func estimateGrid(m Markers) float64 {
	at := func(c float64) float64 {
		var num, den, sum float64
		share := 1.0
		shares := make([]float64, len(m.Readings))
		for i := range m.Readings {
			shares[i] = share
			share *= 1 - m.Drains[i].In(units.Litre)/c
		}
		fit := func(start float64) float64 {
			s := 0.0
			for i, x := range m.Readings {
				off := x - start*shares[i]
				if m.Noise == RelativeNoise {
					off = math.Log(x) - math.Log(start*shares[i])
				}
				s += m.weight(i) * off * off
			}
			return s
		}
		for i, x := range m.Readings {
			w := m.weight(i)
			if m.Noise == RelativeNoise {
				num, den = num+w*(math.Log(x)-math.Log(shares[i])), den+w
			} else {
				num, den = num+w*x*shares[i], den+w*shares[i]*shares[i]
			}
		}
		start := num / den
		if m.Noise == RelativeNoise {
			start = math.Exp(start)
		}
		sum = fit(start)
		return sum
	}
	low, high := 0.0, 500.0
	for _, d := range m.Drains {
		low = max(low, d.In(units.Litre)*1.0001)
	}
	for range 200 {
		a, b := low+(high-low)/3, high-(high-low)/3
		if at(a) < at(b) {
			high = b
		} else {
			low = a
		}
	}
	return low
}

func TestEstimateAgainstGrid(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	compared := 0
	for trial := range 200 {
		m := Markers{Noise: Noise(trial % 2), Wanted: 1}
		share := 1.0
		for range 4 + r.IntN(4) {
			d := 1.5 + 1.5*r.Float64()
			m.Readings = append(m.Readings, share*(1+0.03*r.NormFloat64()))
			m.Drains = append(m.Drains, units.Litre.Of(d))
			m.Weights = append(m.Weights, 0.5+r.Float64())
			share *= 1 - d/11
		}
		e, err := EstimateCapacity(m)
		var refused *UnsettledError
		if errors.As(err, &refused) {
			continue // a bend by chance
		}
		if err != nil {
			t.Fatal(err)
		}
		compared++
		if want := estimateGrid(m); !scheduleClose(e.Capacity.In(units.Litre), want, 1e-5) {
			t.Errorf("%+v: %s, want %g L", m, e.Capacity, want)
		}
	}
	if compared < 150 {
		t.Errorf("only %d compared", compared)
	}
}

// Over many boxes the standard error is the scatter of the answer, and the 95 %
// interval holds the truth about 95 times in a hundred.
func TestEstimateErrorIsHonest(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 26))
	const c, d, noise, trials = 12.0, 2.4, 0.02, 4000
	var sum, squares, u2 float64
	inside, n := 0, 0
	for range trials {
		m := Markers{Drains: estimateDrains(d, 8), ReadingU: noise}
		share := 1.0
		for range 8 {
			m.Readings = append(m.Readings, share*math.Exp(noise*r.NormFloat64()))
			share *= 1 - d/c
		}
		e, err := EstimateCapacity(m)
		if err != nil {
			continue // a bend by chance, one in forty
		}
		n++
		x := e.Capacity.In(units.Litre)
		sum += x
		squares += (x - c) * (x - c)
		u2 += e.U.In(units.Litre) * e.U.In(units.Litre)
		if e.Low.In(units.Litre) <= c && c <= e.High.In(units.Litre) {
			inside++
		}
	}
	if n < 0.95*trials || math.Abs(sum/float64(n)-c) > 0.02 {
		t.Errorf("mean %g of %d", sum/float64(n), n)
	}
	// The error stated is the larger of known and seen, so a little on the safe side.
	if ratio := math.Sqrt(u2 / squares); ratio < 0.97 || ratio > 1.35 {
		t.Errorf("standard error %g times the scatter", ratio)
	}
	if share := float64(inside) / float64(n); share < 0.94 {
		t.Errorf("inside %g", share)
	}
}

// Two zones: the check values of the reference note. C 12.3 L, S 5.2 L, four
// drains of 2.46 L; the sample of a drain is the sump's share.
func TestEstimateTwoZones(t *testing.T) {
	samples := func(m float64, n int) Markers {
		sys := System{Capacity: units.Litre.Of(12.3), Sump: units.Litre.Of(5.2), Mixing: m}
		st, err := Start(sys)
		if err != nil {
			t.Fatal(err)
		}
		k := Markers{Drains: estimateDrains(2.46, n)}
		for range n {
			k.Readings = append(k.Readings, st.sumpShare)
			if st, err = st.Drain(units.Litre.Of(2.46)); err != nil {
				t.Fatal(err)
			}
			if st, err = st.Refill(units.Litre.Of(2.46), 0); err != nil {
				t.Fatal(err)
			}
			if st, err = st.Mix(m); err != nil {
				t.Fatal(err)
			}
		}
		return k
	}
	half := samples(0.5, 4)
	e, err := EstimateCapacity(half)
	if err != nil {
		t.Fatal(err)
	}
	if got := e.Capacity.Text(units.Litre, 2) + " ± " + e.U.Text(units.Litre, 2); got != "9.80 L ± 0.99 L" {
		t.Errorf("m = 0.5: %s, want 9.80 ± 0.99", got)
	}
	if e.Straightness != StepsShrink || !strings.Contains(strings.Join(e.Notes, " "), "lower bound") {
		t.Errorf("m = 0.5: %s %v", e.Straightness, e.Notes)
	}
	// With the error of a reading known, the bend is shown and the law refused.
	half.ReadingU = 0.005
	var refused *UnsettledError
	if _, err = EstimateCapacity(half); !errors.As(err, &refused) || !strings.Contains(err.Error(), "does not mix fully") {
		t.Errorf("m = 0.5, known reading error: %v", err)
	}
	most := samples(0.8, 4)
	for i, want := range []float64{-0.294, -0.218, -0.205} {
		if got := math.Log(most.Readings[i+1] / most.Readings[i]); math.Abs(got-want) > 5e-4 {
			t.Errorf("m = 0.8: step %d is %g, want %g", i+1, got, want)
		}
	}
	if e, err = EstimateCapacity(most); err != nil || e.Straightness != StepsShrink {
		t.Errorf("m = 0.8: %v %v", e.Straightness, err)
	}
	full, err := EstimateCapacity(samples(1, 4))
	if err != nil || full.Straightness != Straight || !scheduleClose(full.Capacity.In(units.Litre), 12.3, 1e-9) {
		t.Errorf("m = 1: %s %s %v", full.Capacity, full.Straightness, err)
	}
}

func TestEstimateRefuses(t *testing.T) {
	nan := math.NaN()
	good := Markers{Readings: []float64{1, 0.8, 0.64, 0.512}, Drains: estimateDrains(2, 4)}
	with := func(change func(*Markers)) Markers {
		m := Markers{Readings: slices.Clone(good.Readings), Drains: slices.Clone(good.Drains)}
		change(&m)
		return m
	}
	for _, c := range []struct {
		name string
		m    Markers
		want string
	}{
		{"none", Markers{}, "0 readings, 0 drains, 0 weights; want 2 to 1000 readings"},
		{"drains", with(func(m *Markers) { m.Drains = m.Drains[:3] }), "4 readings, 3 drains"},
		{"weights", with(func(m *Markers) { m.Weights = []float64{1} }), "1 weights"},
		{"negative weight", with(func(m *Markers) { m.Weights = []float64{1, -1, 1, 1} }), "weight 2 is -1; want 0 to"},
		{"NaN weight", with(func(m *Markers) { m.Weights = []float64{1, nan, 1, 1} }), "weight 2 is NaN"},
		{"too few count", with(func(m *Markers) { m.Weights = []float64{1, 0, 0, 1} }), "2 readings that count; want 3, or 2 with a known"},
		{"NaN reading", with(func(m *Markers) { m.Readings[1] = nan }), "reading 2 is NaN above new fluid; want above 0"},
		{"zero reading", with(func(m *Markers) { m.Readings[3] = 0 }), "reading 4 is 0 above new fluid"},
		{"fresh", with(func(m *Markers) { m.Fresh = 0.6 }), "reading 4 is -0.08"},
		{"no drain", with(func(m *Markers) { m.Drains[0] = units.Volume{} }), "drain 1 is 0 L; want above 0, at most 500 L"},
		{"NaN uncertainty", with(func(m *Markers) { m.ReadingU = nan }), "reading uncertainty NaN; want 0 or more"},
		{"wanted", with(func(m *Markers) { m.Wanted = -1 }), "wanted relative error -1"},
		{"NaN fresh", with(func(m *Markers) { m.Fresh = nan }), "new fluid reads NaN"},
		{"noise", with(func(m *Markers) { m.Noise = 7 }), "noise kind 7"},
	} {
		_, err := EstimateCapacity(c.m)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
	for _, c := range []struct {
		name string
		m    Markers
		want string
		more bool
	}{
		{"rises", with(func(m *Markers) { slices.Reverse(m.Readings) }), "does not fall", false},
		{"level", with(func(m *Markers) { m.Readings = []float64{1, 1, 1, 1} }), "does not fall", false},
		{"lost in noise", with(func(m *Markers) { m.Readings = []float64{1, 0.7, 1.05, 0.8} }), "within its error of 0", true},
		{"all but level", with(func(m *Markers) { m.Readings = []float64{1, 0.9999, 0.9998, 0.9997} }), "past 500 L", false},
		{"one place", with(func(m *Markers) { m.Weights, m.ReadingU = []float64{1, 1, 1e-300, 0}, 0.1 }), "", false},
	} {
		_, err := EstimateCapacity(c.m)
		var refused *UnsettledError
		if c.want == "" {
			continue // any answer but a panic
		}
		if !errors.As(err, &refused) || !strings.Contains(err.Error(), c.want) || (refused.More > 0) != c.more {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// The number of further samples is the first that brings the error down: check
// it by adding perfect samples to the same scatter.
func TestEstimateMore(t *testing.T) {
	m := Markers{Readings: []float64{1, 0.82, 0.63, 0.52}, Drains: estimateDrains(2, 4), ReadingU: 0.03}
	for _, noise := range []Noise{RelativeNoise, AbsoluteNoise} {
		m.Noise = noise
		e, err := EstimateCapacity(m)
		if err != nil || e.More <= 0 || !strings.Contains(strings.Join(e.Notes, " "), " would bring the standard error to 5 %") {
			t.Fatalf("%s ± %s, %d %v %v", e.Capacity, e.U, e.More, e.Notes, err)
		}
		for _, extra := range []int{e.More - 1, e.More} {
			more := Markers{Readings: slices.Clone(m.Readings), Drains: estimateDrains(2, 4+extra), ReadingU: m.ReadingU, Noise: noise}
			for k := range extra {
				more.Readings = append(more.Readings, e.Start*math.Exp(-e.Step*float64(4+k)))
			}
			f, err := EstimateCapacity(more)
			if err != nil {
				t.Fatal(err)
			}
			if settled := f.U.Ratio(f.Capacity) <= 0.05; settled != (extra == e.More) {
				t.Errorf("%d more: %s ± %s", extra, f.Capacity, f.U)
			}
		}
	}
	m.Wanted = 1e-9
	if e, err := EstimateCapacity(m); err != nil || e.More != -1 || !strings.Contains(strings.Join(e.Notes, " "), "No number of further samples") {
		t.Errorf("%d %v %v", e.More, e.Notes, err)
	}
}

func TestEstimateMeasured(t *testing.T) {
	e, err := EstimateCapacity(Markers{Readings: []float64{1, 0.82, 0.63, 0.52, 0.41, 0.33}, Drains: estimateDrains(2, 6)})
	if err != nil {
		t.Fatal(err)
	}
	v, err := e.Measured("capacity/tern-6")
	if err != nil || v.Best() != e.Capacity || !scheduleClose(v.U().In(units.Litre), e.U.In(units.Litre), 1e-9) {
		t.Errorf("%s ± %s %v", v.Best(), v.U(), err)
	}
	if _, err := e.Measured(""); err == nil {
		t.Error("an empty id was accepted")
	}
	e.DoF = 0
	if _, err := e.Measured("x"); err != nil {
		t.Error(err)
	}
	if v, err := (CapacityEstimate{Capacity: units.Litre.Of(9)}).Measured("x"); err != nil || !v.U().IsZero() {
		t.Error(v, err)
	}
	for s, want := range map[Straightness]string{StraightnessUnknown: "unknown", Straight: "straight", StepsShrink: "steps shrink", StepsGrow: "steps grow", 9: "unknown"} {
		if s.String() != want {
			t.Errorf("%d is %q", s, s)
		}
	}
	grow, err := EstimateCapacity(Markers{Readings: []float64{1, 0.9, 0.72, 0.5}, Drains: estimateDrains(2, 4)})
	if err != nil || grow.Straightness != StepsGrow || !strings.Contains(strings.Join(grow.Notes, " "), "check the reading of new fluid") {
		t.Errorf("%v %v %v", grow.Straightness, grow.Notes, err)
	}
	if _, err := Straightness(9).MarshalText(); err == nil {
		t.Error("straightness 9 was written")
	}
	if (*UnsettledError)(nil).Error() == "" {
		t.Error("a nil refusal says nothing")
	}
}

// The scatter seen counts where it is larger than what is claimed for a reading,
// and what is claimed where that is larger.
func TestEstimateLargerErrorCounts(t *testing.T) {
	m := Markers{Readings: []float64{1, 0.85, 0.62, 0.53, 0.39, 0.34}, Drains: estimateDrains(2, 6)}
	seen, err := EstimateCapacity(m)
	if err != nil {
		t.Fatal(err)
	}
	m.ReadingU = seen.Scatter * 0.5
	claimed, err := EstimateCapacity(m)
	if err != nil || claimed.U != seen.U || claimed.DoF != 4 || claimed.Scatter != seen.Scatter {
		t.Errorf("scatter %g with %g degrees of freedom, want %g with 4: %v", claimed.Scatter, claimed.DoF, seen.Scatter, err)
	}
	m.ReadingU = seen.Scatter * 3
	if claimed, err = EstimateCapacity(m); err != nil || claimed.DoF != 0 || !scheduleClose(claimed.StepU, 3*seen.StepU, 1e-12) {
		t.Errorf("step %g ± %g, want ± %g: %v", claimed.Step, claimed.StepU, 3*seen.StepU, err)
	}
}

// What more samples would bring is what a fit with them brings: the spread of the
// slope is carried on one point at a time.
func TestEstimateMoreStepByStep(t *testing.T) {
	for _, noise := range []Noise{RelativeNoise, AbsoluteNoise} {
		m := Markers{Readings: []float64{1, 0.8, 0.64, 0.512}, Drains: estimateDrains(2, 4), ReadingU: 0.03, Noise: noise}
		f := estimateNewFit(m)
		if err := f.solve(); err != nil {
			t.Fatal(err)
		}
		e, err := f.estimate()
		if err != nil {
			t.Fatal(err)
		}
		var predicted []float64
		f.more(e, func(_ int, stepU float64) bool {
			predicted = append(predicted, stepU)
			return len(predicted) == 12
		})
		for k, want := range predicted {
			more := Markers{Drains: estimateDrains(2, 4+k), ReadingU: 0.03, Noise: noise}
			for n := range 4 + k {
				more.Readings = append(more.Readings, math.Pow(0.8, float64(n)))
			}
			got, err := EstimateCapacity(more)
			if err != nil || !scheduleClose(got.StepU, want, 1e-9) {
				t.Errorf("noise %d, %d more: ± %g, predicted %g, %v", noise, k, got.StepU, want, err)
			}
		}
	}
}

// A slope lost in the noise says how many more readings would find it: with them,
// on the same line and with the same scatter, and not with one fewer.
func TestEstimateMoreForSlope(t *testing.T) {
	m := Markers{Readings: []float64{1, 0.7, 1.05, 0.8}, Drains: estimateDrains(2, 4)}
	_, err := EstimateCapacity(m)
	var refused *UnsettledError
	if !errors.As(err, &refused) {
		t.Fatal(err)
	}
	f := estimateNewFit(m)
	if err := f.solve(); err != nil {
		t.Fatal(err)
	}
	scatter := math.Sqrt(f.squares / 2)
	found := func(n int) bool {
		sxx := float64(n*(n*n-1)) / 12 // of 0, 1, … n-1
		return f.step > estimateFactor(float64(n-2))*scatter/math.Sqrt(sxx)
	}
	n := 4
	for !found(n) {
		n++
	}
	if refused.More != n-4 || refused.More < 1 {
		t.Errorf("%d more, want %d", refused.More, n-4)
	}
}

func TestEstimateWords(t *testing.T) {
	three, err := EstimateCapacity(Markers{Readings: []float64{1, 0.8, 0.645}, Drains: estimateDrains(2, 3), Wanted: 100})
	if err != nil || (three.Straightness != StraightnessUnknown || !strings.Contains(strings.Join(three.Notes, " "), "Too few readings to see a bend")) {
		t.Errorf("three readings: %s %v", three.Straightness, three.Notes)
	}
	known, errKnown := EstimateCapacity(Markers{Readings: []float64{1, 0.8, 0.64}, Drains: estimateDrains(2, 3), ReadingU: 0.01})
	if errKnown != nil || known.Straightness != Straight {
		t.Errorf("three readings of known error: %s, %v", known.Straightness, errKnown)
	}
	// Steps of 0.3, 0.25, 0.2 shrink by 0.05, which is a fifth of their mean.
	m := Markers{Drains: estimateDrains(2, 4)}
	for _, x := range []float64{0, -0.3, -0.55, -0.75} {
		m.Readings = append(m.Readings, math.Exp(x))
	}
	_, err = EstimateCapacity(m)
	if err == nil || !strings.Contains(err.Error(), "shrink by 0.05 ± ") {
		t.Errorf("a perfect bend: %v", err)
	}
	m.Readings[1] *= 1.02
	e, err := EstimateCapacity(m)
	if err != nil || !scheduleClose(100*e.Curvature/e.Step, 15.7, 0.05) || !strings.Contains(strings.Join(e.Notes, " "), "shrink by 16 % a drain") {
		t.Errorf("%g of %g, %v %v", e.Curvature, e.Step, e.Notes, err)
	}
}

// A box holds at least what came out of it at once.
func TestEstimateLowEnd(t *testing.T) {
	m := Markers{Readings: []float64{1, 0.52, 0.47, 0.45, 0.41}, Drains: []units.Volume{
		units.Litre.Of(5), units.Litre.Of(1), units.Litre.Of(1), units.Litre.Of(1), units.Litre.Of(1),
	}, ReadingU: 0.2, Wanted: 100}
	e, err := EstimateCapacity(m)
	if err != nil || e.Low.Compare(units.Litre.Of(5)) < 0 || e.Capacity.Compare(e.Low) < 0 {
		t.Errorf("%s, from %s: %v", e.Capacity, e.Low, err)
	}
}

// Both ends of the capacity, by hand from the step: 2 L over 1 - exp(-(step ± t·u)), t
// 1.960 of the normal where the error of a reading is known, and of Student's 3
// degrees, 3.182, where it is seen (JCGM 100:2008 table G.2, from memory).
func TestEstimateEndsByHand(t *testing.T) {
	m := Markers{Readings: []float64{1, 0.82, 0.66, 0.545, 0.44}, Drains: estimateDrains(2, 5)}
	for u, factor := range map[float64]float64{0: 3.182, 0.02: 1.960} {
		m.ReadingU = u
		e, err := EstimateCapacity(m)
		if err != nil {
			t.Fatal(err)
		}
		end := func(sign float64) float64 { return 2 / (1 - math.Exp(-(e.Step + sign*factor*e.StepU))) }
		if low, high := e.Low.In(units.Litre), e.High.In(units.Litre); !scheduleClose(low, end(1), 1e-3) || !scheduleClose(high, end(-1), 1e-3) {
			t.Errorf("reading error %g: %g to %g L, want %g to %g", u, low, high, end(1), end(-1))
		}
	}
}

// Where no number of samples helps, none is named; a slope lost in a known error of
// the readings is told with 1.96 of its standard errors, u/√2 for two readings.
func TestEstimateRefusalsSayHowManyMore(t *testing.T) {
	bend := Markers{Readings: []float64{1, 0.6, 0.45, 0.4, 0.38}, Drains: estimateDrains(2, 5), ReadingU: 0.005}
	rise := Markers{Readings: []float64{1, 1.1, 1.2}, Drains: estimateDrains(2, 3), ReadingU: 0.01}
	for name, m := range map[string]Markers{"bends": bend, "rises": rise} {
		_, err := EstimateCapacity(m)
		var refused *UnsettledError
		if !errors.As(err, &refused) || refused.More != -1 {
			t.Errorf("%s: %v", name, err)
		}
	}
	lost := Markers{Readings: []float64{1, 0.9}, Drains: estimateDrains(2, 2), ReadingU: 0.1}
	_, err := EstimateCapacity(lost)
	var refused *UnsettledError
	// The spread of n readings a drain apart is n(n² - 1)/12: 1/2, 2, 5. The step, 0.1054,
	// stands against 1.96·0.1/√spread: 0.277 for two, 0.139 for three, 0.088 for four.
	if !errors.As(err, &refused) || refused.More != 2 || !strings.Contains(err.Error(), "step 0.105 ± 0.28") {
		t.Errorf("lost in the error: %+v", refused)
	}
}

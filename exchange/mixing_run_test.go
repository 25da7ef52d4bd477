package exchange

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

// Two brine tanks that exchange 5 gal/min: the published eigenvalue is -3/20 a
// minute, and the mixing share after t minutes is 1 - exp(-0.15 t).
func TestMixingRunPublished(t *testing.T) {
	r := published.Load(t, "exchange_vectors").Find("law", "mixing rate q(1/S+1/H)")
	run := MixingRun{
		Flow: dilutionLitres(r.Input("inputs", "q")), Minutes: 1,
		Sump: dilutionLitres(r.Input("inputs", "S")), Held: dilutionLitres(r.Input("inputs", "H")),
	}
	m, err := run.Share()
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, r.Text("id")+" ("+r.Source()+")", -math.Log1p(-m), r.Float("published"), r.Float("tolerance"))
}

// A run and a second run close what one run of their summed time closes.
func TestMixingRunsAddUp(t *testing.T) {
	rng := rand.New(rand.NewPCG(19, 20))
	for range 1000 {
		run := MixingRun{dilutionLitres(3 * rng.Float64()), rng.Float64(), dilutionLitres(1 + rng.Float64()), dilutionLitres(1 + rng.Float64())}
		share := func(minutes float64) float64 {
			run.Minutes = minutes
			m, err := run.Share()
			if err != nil {
				t.Fatal(err)
			}
			return m
		}
		a, b := 3*rng.Float64(), 3*rng.Float64()
		dilutionNear(t, "share left", 1-share(a+b), (1-share(a))*(1-share(b)), 1e-15)
	}
}

func TestMixingRunFaults(t *testing.T) {
	good := MixingRun{dilutionLitres(1), 1, dilutionLitres(2), dilutionLitres(3)}
	for want, change := range map[string]func(*MixingRun){
		"flow: -1 L":         func(r *MixingRun) { r.Flow = dilutionLitres(-1) },
		"flow: out of range": func(r *MixingRun) { r.Flow = units.Litre.Of(math.NaN()) },
		"minutes: NaN":       func(r *MixingRun) { r.Minutes = math.NaN() },
		"minutes: -1":        func(r *MixingRun) { r.Minutes = -1 },
		"minutes: +Inf":      func(r *MixingRun) { r.Minutes = math.Inf(1) },
		"sump: 0 L":          func(r *MixingRun) { r.Sump = units.Volume{} },
		"held: -2 L":         func(r *MixingRun) { r.Held = dilutionLitres(-2) },
	} {
		r := good
		change(&r)
		if m, err := r.Share(); err == nil || m != 0 || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, %v; want an error with %q", m, err, want)
		}
	}
	good.Sump, good.Minutes, good.Flow = units.Litre.Of(1e-14), 1e5, dilutionLitres(500)
	if m, err := good.Share(); err != nil || m != 1 {
		t.Errorf("a flood closes %v, %v; want 1", m, err)
	}
	good.Flow = units.Volume{}
	if m, err := good.Share(); err != nil || m != 0 || math.Signbit(m) {
		t.Errorf("no flow closes %v, %v; want 0", m, err)
	}
}

func BenchmarkLongRunFactor(b *testing.B) {
	b.ReportAllocs()
	sys, d := System{dilutionLitres(12.3), dilutionLitres(5.2), 0.8}, dilutionLitres(2.46)
	for b.Loop() {
		if _, err := LongRunFactor(sys, d); err != nil {
			b.Fatal(err)
		}
	}
}

// 1 L a minute for 2 minutes between 4 L and 4 L turns each over once: 1 - 1/e.
func TestMixingRunSteps(t *testing.T) {
	run := MixingRun{Flow: dilutionLitres(1), Minutes: 2, Sump: dilutionLitres(4), Held: dilutionLitres(4)}
	s, err := run.Steps()
	if err != nil {
		t.Fatal(err)
	}
	const want = "turnovers a minute = q(1/S + 1/H) = 1.000 L/min × (1/4.000 L + 1/4.000 L) = 0.5000\n" +
		"turnovers = q·t(1/S + 1/H) = 0.5000 × 2 min = 1.0000\n" +
		"share closed = m = 1 - exp(-turnovers) = 1 - exp(-1.0000) = 0.6321\n"
	if got := s.Text(); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	if s, err := (MixingRun{}).Steps(); s != nil || err == nil {
		t.Errorf("no zones: %v, %v", s, err)
	}
}

func TestMixingRunStepsWriteMinutesOut(t *testing.T) {
	s, err := MixingRun{Flow: units.Litre.Of(1), Minutes: 12.25, Sump: units.Litre.Of(4), Held: units.Litre.Of(4)}.Steps()
	if err != nil || !strings.Contains(s.Text(), " × 12.25 min = ") {
		t.Errorf("%v\n%s", err, s.Text())
	}
}

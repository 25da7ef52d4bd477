package exchange

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func samplesRead(t *testing.T, x float64, terms ...measure.Term) measure.Reading {
	t.Helper()
	r, err := measure.New(x, terms...)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Without doubt it is FromSamples; with it, each slope is that of the balance.
func TestSamplesReadingAgainstBalance(t *testing.T) {
	c := dilutionRange(t, 9, 11)
	scale := intervalCauseOf(t, "colour-scale", measure.Normal, 0)
	jug := intervalCauseOf(t, "jug", measure.Normal, 0)
	volumes, shares := []float64{2, 2.2, 1.9}, []float64{1, 0.8, 0.55}
	var samples []MeasuredSample
	var plain []DrainedSample
	for i := range volumes {
		own := intervalCauseOf(t, "look-"+strconv.Itoa(i), measure.Normal, 0)
		samples = append(samples, MeasuredSample{
			Volume:   intervalDrain(t, volumes[i], measure.Term{Cause: jug, Scale: 0.01 * volumes[i]}),
			OldShare: samplesRead(t, shares[i], measure.Term{Cause: scale, Scale: 0.02}, measure.Term{Cause: own, Scale: 0.03}),
		})
		plain = append(plain, DrainedSample{Volume: dilutionLitres(volumes[i]), OldShare: shares[i]})
	}
	r, err := SamplesReading(c, samples)
	if err != nil {
		t.Fatal(err)
	}
	mid, err := FromSamples(units.Exactly(c.Mid()), plain)
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "value", r.Value(), mid.Share.High, 1e-15)
	took := 2*1 + 2.2*0.8 + 1.9*0.55
	want := map[string]float64{
		"colour-scale":     -0.02 * (2 + 2.2 + 1.9) / 10,
		"jug":              -0.01 * took / 10,
		"look-0":           -0.03 * 2 / 10,
		"look-1":           -0.03 * 2.2 / 10,
		"look-2":           -0.03 * 1.9 / 10,
		intervalCapacityID: took / 100 / math.Sqrt(3),
	}
	for _, term := range r.Terms() {
		dilutionNear(t, term.Cause.ID(), term.Scale, want[term.Cause.ID()], 1e-15)
		delete(want, term.Cause.ID())
	}
	if len(want) > 0 {
		t.Errorf("no term for %v", want)
	}
}

func TestSamplesReadingFaults(t *testing.T) {
	c := dilutionRange(t, 4, 4)
	d := measure.MeasuredExactly(dilutionLitres(2))
	sure := func(x float64) measure.Reading { return samplesRead(t, x) }
	doubtful := samplesRead(t, 1.05, measure.Term{Cause: intervalCauseOf(t, "scale", measure.Normal, 0), Scale: 0.02})
	for name, k := range map[string]struct {
		samples []MeasuredSample
		want    string
	}{
		"none":          {nil, "0 samples"},
		"above one":     {[]MeasuredSample{{d, sure(1.05)}}, "sample 1: old share 1.05 ± 0; want 0 to 1"},
		"too much":      {[]MeasuredSample{{d, sure(1)}, {d, sure(1)}, {d, sure(0.5)}}, "a reading or the capacity is wrong"},
		"out of range":  {[]MeasuredSample{{measure.MeasuredExactly(units.Litre.Of(math.NaN())), sure(1)}}, "out of range"},
		"share invalid": {[]MeasuredSample{{d, sure(1).Times(math.NaN())}}, "sample 1: old share"},
	} {
		if r, err := SamplesReading(c, k.samples); err == nil || !strings.Contains(err.Error(), k.want) {
			t.Errorf("%s: %v, %v; want an error with %q", name, r.Value(), err, k.want)
		}
	}
	if r, err := SamplesReading(c, []MeasuredSample{{d, doubtful}}); err != nil || math.Abs(r.Value()-0.475) > 1e-15 {
		t.Errorf("a share a little above one within its doubt: %v, %v", r.Value(), err)
	}
	if _, err := SamplesReading(units.Range[units.VolumeDim]{}, []MeasuredSample{{d, doubtful}}); err == nil {
		t.Error("no box")
	}
}

// A balance a little below nothing, by less than three of its uncertainties, is a clean
// box read with an error: one drain of the whole 8 L at 1.02 ± 0.01.
func TestSamplesReadingJustBelowNothing(t *testing.T) {
	read := func(x float64) (measure.Reading, error) {
		return SamplesReading(units.Exactly(units.Litre.Of(8)), []MeasuredSample{{measure.MeasuredExactly(units.Litre.Of(8)), tiltDoubt(t, "s", x, 0.01)}})
	}
	for x, ok := range map[float64]bool{1.02: true, 0.995: true, 1: true, 0.5: true, 1.029: true} {
		if r, err := read(x); (err == nil) != ok || math.Abs(r.Value()-(1-x)) > 1e-12 {
			t.Errorf("%v: %v, %v", x, r.Value(), err)
		}
	}
}

package exchange

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/meniscus/units"
)

// A capacity that may be so large that the sample fits is not told on.
func TestFromSamplesAboveSystemRange(t *testing.T) {
	samples := []DrainedSample{{Volume: dilutionLitres(4), OldShare: 1}, {Volume: dilutionLitres(4), OldShare: 0.6}}
	for _, k := range []struct {
		high float64
		told bool
	}{{16, false}, {9, true}} { // after the first, 1 - 4/16 or 1 - 4/9 at most
		got, err := FromSamples(dilutionRange(t, 8, k.high), samples)
		if err != nil || slices.Contains(got.Caveats, SampleAboveSystem) != k.told {
			t.Errorf("up to %v L: caveats %v, %v; told: want %v", k.high, got.Caveats, err, k.told)
		}
	}
}

// In a well-mixed box each sample shows what was left before it, and the balance
// gives the product law back.
func TestFromSamplesWellMixed(t *testing.T) {
	c, d := dilutionLitres(10), dilutionLitres(2)
	samples := []DrainedSample{{Volume: d, OldShare: 1}, {Volume: d, OldShare: 0.8}, {Volume: d, OldShare: 0.64}}
	got, err := FromSamples(units.Exactly(c), samples)
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "share", got.Share.High, 0.512, 1e-15)
	if got.LastSeen != 0.64 || len(got.After) != 3 || !slices.Equal(got.Caveats, []Caveat{DrainedSampleFlatters}) {
		t.Errorf("%+v", got)
	}
}

// Old fluid that comes back through the refill counts against what came out.
func TestFromSamplesImpureRefill(t *testing.T) {
	st, _ := Start(System{Capacity: dilutionLitres(10)})
	var samples []DrainedSample
	for range 4 {
		s := DrainedSample{Volume: dilutionLitres(2), OldShare: st.DrainShare(), RefillOldShare: 0.2}
		samples = append(samples, s)
		st, _ = st.Drain(s.Volume)
		st, _ = st.Refill(s.Volume, s.RefillOldShare)
	}
	got, err := FromSamples(units.Exactly(dilutionLitres(10)), samples)
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "share", got.Share.High, st.OldShare(), 1e-15)
}

func TestFromSamplesRange(t *testing.T) {
	got, err := FromSamples(dilutionRange(t, 8, 10), []DrainedSample{{Volume: dilutionLitres(2), OldShare: 1}, {Volume: dilutionLitres(2), OldShare: 0.5}})
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "low", got.Share.Low, 1-3.0/8, 1e-15)
	dilutionNear(t, "high", got.Share.High, 1-3.0/10, 1e-15)
}

// Samples no two-zone box of this capacity can give are told.
func TestFromSamplesAboveSystem(t *testing.T) {
	d := dilutionLitres(4)
	got, err := FromSamples(units.Exactly(dilutionLitres(8)), []DrainedSample{{Volume: d, OldShare: 1}, {Volume: d, OldShare: 0.9}})
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Contains(got.Caveats, SampleAboveSystem) {
		t.Errorf("half the fluid was new, the sample showed 90 %% old: caveats %v", got.Caveats)
	}
	dilutionNear(t, "share", got.Share.High, 1-0.5-0.45, 1e-15)
	if _, err := FromSamples(units.Exactly(dilutionLitres(4)), []DrainedSample{{Volume: d, OldShare: 1}, {Volume: d, OldShare: 0.5}}); err == nil ||
		!strings.Contains(err.Error(), "a reading or the capacity is wrong") {
		t.Errorf("more old fluid came out than there was: %v", err)
	}
	// Emptied to the last drop, by tenths that do not add up to one in floats.
	samples := slices.Repeat([]DrainedSample{{Volume: units.Litre.Of(0.1), OldShare: 1}}, 10)
	if got, err := FromSamples(units.Exactly(dilutionLitres(1)), samples); err != nil || got.Share.High > 1e-15 || got.Share.Low < 0 {
		t.Errorf("%v, %v; want nothing left", got.Share, err)
	}
}

func TestFromSamplesFaults(t *testing.T) {
	c := dilutionRange(t, 8, 10)
	one := DrainedSample{Volume: dilutionLitres(2), OldShare: 0.5}
	cases := []struct {
		name     string
		capacity units.Range[units.VolumeDim]
		samples  []DrainedSample
		want     []string
	}{
		{"no box", units.Range[units.VolumeDim]{}, []DrainedSample{one}, []string{"capacity 0 L"}},
		{"none", c, nil, []string{"0 samples"}},
		{"volume", c, []DrainedSample{one, {Volume: dilutionLitres(9)}}, []string{"sample 2: volume: 9 L", "smallest capacity, 8 L"}},
		{"shares", c, []DrainedSample{{OldShare: math.NaN(), RefillOldShare: -1}}, []string{"old share is not a number", "refill's old share -1"}},
		{"out of range", c, []DrainedSample{{Volume: units.Litre.Of(math.NaN())}}, []string{"out of range"}},
	}
	for _, k := range cases {
		got, err := FromSamples(k.capacity, k.samples)
		if err == nil || got.Share != (Share{1, 1}) {
			t.Errorf("%s: %+v, %v; want an error", k.name, got, err)
			continue
		}
		for _, w := range k.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: %q does not say %q", k.name, err, w)
			}
		}
	}
}

func TestFromSamplesWorkingCountsFromOne(t *testing.T) {
	b, err := FromSamples(units.Exactly(units.Litre.Of(8)), []DrainedSample{{Volume: units.Litre.Of(2), OldShare: 1}, {Volume: units.Litre.Of(2), OldShare: 0.7}})
	if err != nil || len(b.Steps) < 2 || b.Steps[0].Quantity != "old share after drain 1, largest capacity" || b.Steps[1].Quantity != "old share after drain 2, largest capacity" {
		t.Errorf("%v\n%s", err, b.Steps.Text())
	}
}

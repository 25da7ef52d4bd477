package units

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

// edgeTicks are whole numbers that break things.
func edgeTicks() []int64 {
	ticks := []int64{0, 1, 2, 3, 4, 5, 8, 9, 10, 44, 45, 46, 1<<53 - 1, 1 << 53, 1<<53 + 1, 1 << 62, 1<<62 + 1, maxTicks - 2, maxTicks - 1, maxTicks,
		zeroCelsius, zeroCelsius - 1, zeroCelsius + 1, zeroFahrenheit, 999_999_999_999_999_999, 1_000_000_000_000_000_000, 1_000_000_000_000_000_001}
	ticks = append(ticks, 0x5555_5555_5555_5555) // twice this has every bit of it turned over
	for c := code(0x11); c <= code(Mile); c++ {
		r := ticksPer(c)
		if r.num == 0 {
			continue
		}
		ticks = append(ticks, int64(r.num/r.den), int64(r.num/r.den)-1, int64(r.num/r.den)+1, int64(r.num/2))
	}
	for _, n := range ticks[1:] {
		ticks = append(ticks, -n)
	}
	return ticks
}

// randomTicks spreads over all sizes, not only over the largest.
func randomTicks(r *rand.Rand) int64 {
	n := int64(r.Uint64()>>1) >> r.IntN(63)
	if r.IntN(2) == 0 {
		return -n
	}
	return n
}

func manyTicks(n int) []int64 {
	r := rand.New(rand.NewPCG(1, 2))
	ticks := edgeTicks()
	for range n {
		ticks = append(ticks, randomTicks(r))
	}
	return ticks
}

func roundTrip[D Dimension](t *testing.T, n int64) {
	t.Helper()
	q := fromTicks[D](n)
	text, err := q.MarshalText()
	if err != nil {
		t.Fatal(err)
	}
	var back Quantity[D]
	if err := back.UnmarshalText(text); err != nil || back != q {
		t.Fatalf("%d ticks write %q and read %d, %v", n, text, back.ticks, err)
	}
}

func TestEveryTickRoundTrips(t *testing.T) {
	for _, n := range manyTicks(20_000) {
		roundTrip[VolumeDim](t, n)
		roundTrip[TorqueDim](t, n)
		roundTrip[LengthDim](t, n)
		roundTrip[MassDim](t, n)
		roundTrip[TemperatureDeltaDim](t, n)
		roundTrip[DistanceDim](t, n)
	}
}

func TestEveryTemperatureRoundTrips(t *testing.T) {
	for _, n := range manyTicks(20_000) {
		p := Temperature{max(n, -n)}
		text, err := p.MarshalText()
		var back Temperature
		if err := errors.Join(err, back.UnmarshalText(text)); err != nil || back != p {
			t.Fatalf("%d ticks write %q and read %d, %v", p.ticks, text, back.ticks, err)
		}
	}
}

func TestEveryRangeRoundTrips(t *testing.T) {
	ticks := manyTicks(2_000)
	for i, n := range ticks {
		m := ticks[(i*7+1)%len(ticks)]
		volumes := Range[VolumeDim]{fromTicks[VolumeDim](min(n, m)), fromTicks[VolumeDim](max(n, m))}
		deltas := Range[TemperatureDeltaDim]{fromTicks[TemperatureDeltaDim](min(n, m)), fromTicks[TemperatureDeltaDim](max(n, m))}
		var vback Range[VolumeDim]
		var dback Range[TemperatureDeltaDim]
		vtext, verr := volumes.MarshalText()
		dtext, derr := deltas.MarshalText()
		if err := errors.Join(verr, derr, vback.UnmarshalText(vtext), dback.UnmarshalText(dtext)); err != nil {
			t.Fatal(err)
		}
		if vback != volumes || dback != deltas {
			t.Fatalf("%q read %v; %q read %v", vtext, vback, dtext, dback)
		}
	}
}

func TestEveryDensityRoundTrips(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	ds := []Density{leastDensity, mostDensity, 0.1, 0.09999999999999999, 867.5, 999.016}
	for range 20_000 {
		ds = append(ds, Density(math.Ldexp(1+r.Float64(), r.IntN(38)-19)))
	}
	for _, d := range ds {
		text, err := d.MarshalText()
		var back Density
		if err := errors.Join(err, back.UnmarshalText(text)); err != nil || back != d {
			t.Fatalf("%v writes %q and reads %v, %v", float64(d), text, float64(back), err)
		}
	}
}

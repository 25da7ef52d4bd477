package sealing

import (
	"math/rand/v2"
	"testing"

	"example.com/meniscus/internal/pinned"
	"example.com/meniscus/units"
)

// 20 000 settings with an adapter, spreads of tools, and fits of washers, to the bit:
// the same on every processor and from edition to edition.
func TestSealingDigest(t *testing.T) {
	const want = "690b977d3f77f6849c68ba0cdad68a9b"
	results := pinned.Open()
	out := results.Add
	rng := rand.New(rand.NewPCG(61, 62))
	within := func(low, high float64) float64 { return low + float64(rng.Float64()*(high-low)) }
	for range 20_000 {
		wanted := units.NewtonMetre.Of(within(5, 60))
		s, err := Adapter{Wanted: wanted, Lever: units.Millimetre.Of(within(150, 600)), Extension: units.Millimetre.Of(within(10, 100)), AngleDegrees: within(0, 180)}.Setting()
		if err != nil {
			t.Fatal(err)
		}
		out(s.Set.In(units.NewtonMetre))
		largest := units.NewtonMetre.Of(within(5, 200))
		low, high, err := Tool{ID: "wrench", Low: largest.Scale(0.1), High: largest, Tolerance: StandardTolerance(largest)}.Spread(largest.Scale(within(0.2, 1)))
		if err != nil {
			t.Fatal(err)
		}
		out(low.In(units.NewtonMetre))
		out(high.In(units.NewtonMetre))
		inner := within(14, 26)
		r := Fit(Plug{ID: "drain", Thread: listed(t, rng), Collar: units.Millimetre.Of(within(18, 34))},
			Washer{ID: "ring", Inner: units.Millimetre.Of(inner), Outer: units.Millimetre.Of(inner + within(2, 8)), Thickness: units.Millimetre.Of(within(1, 3))})
		out(r.Land.In(units.Millimetre))
		out(float64(r.Verdict))
	}
	if got := results.Digest(); got != want {
		t.Errorf("digest is %s; want %s", got, want)
	}
}

func listed(t *testing.T, rng *rand.Rand) Thread {
	t.Helper()
	names := [...]string{"M10x1", "M12x1.5", "M14x1.5", "M16x1.5", "M18x1.5", "M20x1.5", "M22x1.5", "M24x1.5"}
	thread, err := ParseThread(names[rng.IntN(len(names))])
	if err != nil {
		t.Fatal(err)
	}
	return thread
}

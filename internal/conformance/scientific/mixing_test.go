package scientific

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
)

// rounded draws a decimal with four places: what it is in litres is exact.
func rounded(r *rand.Rand, low, high float64) float64 {
	return math.Round(between(r, low, high)*1e4) / 1e4
}

// zones is one random two-zone service.
type zones struct {
	Sump    float64   `json:"sump"`
	Held    float64   `json:"held"`
	Flow    float64   `json:"flow"` // litres a minute, each way
	Minutes float64   `json:"minutes"`
	Drains  []float64 `json:"drains"`
	Refills []float64 `json:"refills"` // old share of each refill
}

func randomZones(r *rand.Rand, passes int) zones {
	z := zones{
		Sump: rounded(r, 1, 9), Held: rounded(r, 0.5, 12),
		Flow: rounded(r, 0, 6), Minutes: rounded(r, 0, 3),
	}
	for range passes {
		z.Drains = append(z.Drains, rounded(r, 0, z.Sump))
		z.Refills = append(z.Refills, []float64{0, 0, rounded(r, 0, 1)}[r.IntN(3)])
	}
	return z
}

func (z zones) trace(t *testing.T) exchange.Traced {
	t.Helper()
	sump, held := units.Litre.Of(z.Sump), units.Litre.Of(z.Held)
	m, err := exchange.MixingRun{Flow: units.Litre.Of(z.Flow), Minutes: z.Minutes, Sump: sump, Held: held}.Share()
	if err != nil {
		t.Fatal(err)
	}
	var passes []exchange.Pass
	for i, d := range z.Drains {
		passes = append(passes, exchange.Pass{Drain: units.Litre.Of(d), RefillOldShare: z.Refills[i]})
	}
	traced, err := exchange.WhatIf(exchange.System{Capacity: sump.Add(held), Sump: sump, Mixing: m}, passes)
	if err != nil {
		t.Fatal(err)
	}
	return traced
}

// The two-zone model against an integrator of its differential equations,
// ds/dt = q(h-s)/S and dh/dt = q(s-h)/H, on random services.
func TestTwoZonesAgainstIntegrator(t *testing.T) {
	const cases, passes = 1500, 5
	r := rand.New(rand.NewPCG(52, 23))
	all := make([]zones, cases)
	for i := range all {
		all[i] = randomZones(r, passes)
	}
	want := ask[[][4][]float64](t, "two_zones", map[string]any{"cases": all})
	var drained, share, sump, held worst
	for i, z := range all {
		for k, row := range z.trace(t).Rows {
			drained.see(math.Abs(row.Drained-want[k][0][i]), "%+v pass %d", z, k+1)
			share.see(math.Abs(row.Share-want[k][1][i]), "%+v pass %d", z, k+1)
			sump.see(math.Abs(row.Sump-want[k][2][i]), "%+v pass %d", z, k+1)
			held.see(math.Abs(row.Held-want[k][3][i]), "%+v pass %d", z, k+1)
		}
	}
	const limit = 1e-10 // the integrator's own
	drained.within(t, limit, "share of what drains")
	share.within(t, limit, "share of the box")
	sump.within(t, limit, "share of the sump")
	held.within(t, limit, "share held back")
}

func TestLongRunAgainstEigenvalues(t *testing.T) {
	type box struct {
		Sump   float64 `json:"sump"`
		Held   float64 `json:"held"`
		Drain  float64 `json:"drain"`
		Mixing float64 `json:"mixing"`
	}
	r := rand.New(rand.NewPCG(81, 12))
	all := make([]box, 2000)
	for i := range all {
		all[i] = box{rounded(r, 1, 9), rounded(r, 0.5, 12), 0, rounded(r, 0, 1)}
		all[i].Drain = rounded(r, 0, all[i].Sump)
	}
	want := ask[[][2]float64](t, "long_run", map[string]any{"cases": all})
	var larger, smaller worst
	for i, b := range all {
		sump := units.Litre.Of(b.Sump)
		got, err := exchange.LongRunFactor(exchange.System{Capacity: sump.Add(units.Litre.Of(b.Held)), Sump: sump, Mixing: b.Mixing}, units.Litre.Of(b.Drain))
		if err != nil {
			t.Fatal(err)
		}
		larger.see(math.Abs(got.PerCycle-want[i][0]), "%+v", b)
		smaller.see(math.Abs(got.Fading-want[i][1]), "%+v", b)
	}
	larger.within(t, 1e-14, "factor per cycle")
	smaller.within(t, 1e-14, "fading factor")
}

func flush(t *testing.T, n int, theta float64) exchange.Flushed {
	t.Helper()
	f := exchange.ThroughFlow{Capacity: units.Litre.Of(10), Volume: units.Litre.Of(theta).Scale(10), Flow: exchange.FlowTanks, Tanks: n}
	got, err := f.Flush()
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// Tanks in series against the sum of Poisson probabilities at 60 digits, and
// against scipy's Poisson distribution.
func TestTanksAgainstPoisson(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 1))
	all := [][2]float64{{1000, 1}, {1, 1}, {3, 1}, {50, 1.5}, {800, 3}}
	for range 400 {
		all = append(all, [2]float64{math.Floor(spread(r, 1, 600)), rounded(r, 0.01, 4)})
	}
	exact := ask[[][2]float64](t, "tanks", map[string]any{"cases": all})
	scipy := ask[[2][]float64](t, "poisson", map[string]any{"cases": all})
	var left, leaves, peer worst
	for i, c := range all {
		got := flush(t, int(c[0]), c[1])
		if exact[i][0] >= 1e-300 {
			left.see(relative(got.Share.Low, exact[i][0])/(10+c[0]*c[1]), "%v tanks, theta %v", c[0], c[1])
		}
		if exact[i][1] >= 1e-290 {
			leaves.see(relative(got.Outlet.Low, exact[i][1])/(10+c[0]*c[1]), "%v tanks, theta %v", c[0], c[1])
		}
		peer.see(math.Abs(got.Share.Low-scipy[0][i]), "%v tanks, theta %v", c[0], c[1])
		peer.see(math.Abs(got.Outlet.Low-scipy[1][i]), "%v tanks, theta %v", c[0], c[1])
	}
	left.within(t, 1e-14, "share left, relative, over 10 + N·theta")
	leaves.within(t, 1e-14, "share leaving, relative, over 10 + N·theta")
	peer.within(t, 1e-12, "against scipy's Poisson")
}

package exchange

import (
	"math"
	"math/big"
	"slices"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

// Minutes of ventilation to a removal, published to whole minutes.
func TestWashoutTablePublished(t *testing.T) {
	rows, mixed := 0, ThroughFlow{Capacity: dilutionLitres(1), Flow: FlowMixed}
	for _, r := range published.Load(t, "exchange_vectors").Where("law", "washout") {
		if !strings.HasPrefix(r.Text("id"), "ach-") {
			continue
		}
		rows++
		per, removal, _ := strings.Cut(r.Text("inputs"), ";removal=")
		ach := flowNumber(t, strings.TrimPrefix(per, "ACH="))
		left := 1 - flowNumber(t, strings.TrimSuffix(removal, "%"))/100
		v, err := mixed.VolumeTo(left)
		if err != nil {
			t.Fatal(err)
		}
		minutes := 60 * v.In(units.Litre) / ach
		dilutionNear(t, r.Text("id")+" recomputed", minutes, r.Float("computed"), 1e-6)
		// The printed minutes are rounded down at 40 changes an hour, to the
		// nearest elsewhere.
		dilutionNear(t, r.Text("id")+" ("+r.Source()+")", minutes, r.Float("published"), r.Float("tolerance"))
	}
	if rows < 50 {
		t.Errorf("%d rows of the ventilation table; want at least 50", rows)
	}
}

func flowNumber(t *testing.T, s string) float64 {
	t.Helper()
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		t.Fatalf("%q is not a number", s)
	}
	return dilutionFloat(r)
}

// Sweep-through purging of gas, and plasma exchange; each row in its own terms.
func TestWashoutPublished(t *testing.T) {
	left := func(theta float64) float64 {
		f, err := ThroughFlow{Capacity: dilutionLitres(1), Volume: dilutionLitres(theta), Flow: FlowMixed}.Flush()
		if err != nil {
			t.Fatal(err)
		}
		return f.Share.High
	}
	volume := func(capacity, target float64) float64 {
		v, err := ThroughFlow{Capacity: dilutionLitres(capacity), Flow: FlowMixed}.VolumeTo(target)
		if err != nil {
			t.Fatal(err)
		}
		return v.In(units.Litre)
	}
	for _, r := range published.Load(t, "exchange_vectors").Where("law", "washout") {
		var got float64
		switch inputs := r.Text("inputs"); {
		case strings.HasPrefix(r.Text("id"), "ach-"):
			continue
		case inputs == "V=3.4;21%->1%":
			got = volume(3.4, 1.0/21)
		case inputs == "21%->1%":
			got = volume(1, 1.0/21)
		case inputs == "20%->5%":
			got = volume(1, 0.25)
		case strings.HasPrefix(inputs, "theta="):
			got = 100 * (1 - left(r.Input("inputs", "theta")))
		default:
			t.Fatalf("%s: inputs %q are in no known form", r.Text("id"), inputs)
		}
		dilutionNear(t, r.Text("id")+" ("+r.Source()+")", got, r.Float("published"), r.Float("tolerance"))
		dilutionNear(t, r.Text("id")+" recomputed", got, r.Float("computed"), 1e-7)
	}
}

// Sweep-through purging of 1000 ft³ from 21 % to 1.25 % with purge gas that holds
// 0.01 %: 2830 ft³ (Crowl and Louvar, Chemical Process Safety, inerting chapter;
// from memory). The purge gas is a general refill: shares count from it.
func TestWashoutImpurePurge(t *testing.T) {
	v, err := ThroughFlow{Capacity: dilutionLitres(100), Flow: FlowMixed}.VolumeTo((1.25 - 0.01) / (21 - 0.01))
	if err != nil {
		t.Fatal(err)
	}
	dilutionNear(t, "ft³", 10*v.In(units.Litre), 2830, 5)
}

// Tanks in series against Poisson tables and a published pair of tanks.
func TestTanksPublished(t *testing.T) {
	for _, r := range published.Load(t, "exchange_vectors").Where("law", "tanks in series") {
		f := ThroughFlow{
			Capacity: dilutionLitres(1), Volume: dilutionLitres(r.Input("inputs", "theta")),
			Flow: FlowTanks, Tanks: int(r.Input("inputs", "N")),
		}
		got, err := f.Flush()
		if err != nil {
			t.Fatal(err)
		}
		dilutionNear(t, r.Text("id")+" ("+r.Source()+")", got.Share.High, r.Float("published"), r.Float("tolerance"))
		dilutionNear(t, r.Text("id")+" recomputed", got.Share.High, r.Float("computed"), r.Float("computed")*6e-10)
	}
}

// EXCHANGE.md, computed; N = 3 also checked there by integration.
func TestTanksValues(t *testing.T) {
	sizes := []int{1, 2, 3, 5, 10, 50}
	for theta, want := range map[float64][]float64{
		1:   {.367879441, .270670566, .224041808, .175467370, .125110036, .056325006},
		1.5: {.223130160, .124467671, .081928849, .043343667, .013683920, 4.6806e-5},
	} {
		for i, n := range sizes {
			dilutionNear(t, "tanks", tanksShare(n, theta), want[i], 6e-10)
		}
	}
	dilutionNear(t, "1000 tanks", tanksShare(1000, 1), .01261461, 6e-9)
}

// tanksSlow sums the Poisson terms in 400-bit arithmetic: λ^j/j! over Σ to its
// far end, which is e^λ.
func tanksSlow(n int, theta float64) (share, outlet float64) {
	float := func(x float64) *big.Float { return new(big.Float).SetPrec(400).SetFloat64(x) }
	lambda := new(big.Float).SetPrec(400).Mul(float(float64(n)), float(theta))
	term, total, below, weighted := float(1), float(0), float(0), float(0)
	mean, _ := lambda.Float64()
	for j := 0; float64(j) < 3*mean+400; j++ {
		total.Add(total, term)
		if j < n {
			below.Add(below, term)
			weighted.Add(weighted, new(big.Float).SetPrec(400).Mul(term, float(float64(n-j))))
		}
		term.Mul(term, lambda)
		term.Quo(term, float(float64(j+1)))
	}
	share, _ = new(big.Float).Quo(new(big.Float).Quo(weighted, float(float64(n))), total).Float64()
	outlet, _ = new(big.Float).Quo(below, total).Float64()
	return share, outlet
}

func TestTanksAgainstLongArithmetic(t *testing.T) {
	for _, n := range []int{1, 2, 3, 4, 7, 15, 16, 17, 40, 120, 400} {
		for _, theta := range []float64{1e-9, 1e-3, 0.1, 0.5, 0.9, 0.999999, 1, 1.000001, 1.1, 1.49, 1.51, 2, 4, 8} {
			share, outlet := tanksSlow(n, theta)
			slack := 1e-14 * (10 + float64(n)*theta)
			if got := tanksShare(n, theta); math.Abs(got-share) > slack*share {
				t.Errorf("%d tanks, θ %v: share %v, want %v", n, theta, got, share)
			}
			if got := tanksOutlet(n, theta); math.Abs(got-outlet) > slack*outlet {
				t.Errorf("%d tanks, θ %v: outlet %v, want %v", n, theta, got, outlet)
			}
		}
	}
}

// What leaves is what the box loses: -dShare/dθ is the outlet's share.
func TestTanksBalance(t *testing.T) {
	for _, n := range []int{1, 3, 10, 50} {
		for theta := 0.1; theta < 3; theta += 0.1 {
			const h = 1e-4
			slope := (tanksShare(n, theta-h) - tanksShare(n, theta+h)) / (2 * h)
			dilutionNear(t, "slope", slope, tanksOutlet(n, theta), 1e-6)
		}
	}
}

// Tanks lie between mixed and plug, and more tanks are nearer to plug.
func TestTanksOrder(t *testing.T) {
	for theta := 0.05; theta < 4; theta += 0.05 {
		before := math.Exp(-theta)
		for n := 1; n <= 64; n *= 2 {
			x := tanksShare(n, theta)
			if x > before+1e-15 || x < flowPlug(theta)-1e-15 {
				t.Errorf("%d tanks at θ %v leave %v; half as many left %v", n, theta, x, before)
			}
			before = x
		}
	}
}

// The volume found leaves the target.
func TestVolumeToRoundTrip(t *testing.T) {
	for _, f := range []ThroughFlow{{Flow: FlowMixed}, {Flow: FlowPlug}, {Flow: FlowTanks, Tanks: 1}, {Flow: FlowTanks, Tanks: 12}, {Flow: FlowTanks, Tanks: 10_000}} {
		f.Capacity = dilutionLitres(7.3)
		for _, target := range []float64{1, 0.9, 0.5, 0.1, 0.01, 1e-6} {
			v, err := f.VolumeTo(target)
			if err != nil {
				t.Fatal(err)
			}
			f.Volume = v
			got, err := f.Flush()
			if err != nil {
				t.Fatal(err)
			}
			dilutionNear(t, "share", got.Share.High, target, 1e-10*target+1e-14)
		}
	}
	unknown, err := ThroughFlow{Capacity: dilutionLitres(1)}.VolumeTo(0.5)
	mixed, _ := ThroughFlow{Capacity: dilutionLitres(1), Flow: FlowMixed}.VolumeTo(0.5)
	if err != nil || unknown != mixed {
		t.Errorf("unknown flow wants %v, %v; want the mixed one's %v", unknown, err, mixed)
	}
}

// EXCHANGE.md: drain-then-fill (1-r)^n < continuous e^(-nr) < fill-then-drain
// (1+r)^-n for the same fluid.
func TestFlushAgainstDrains(t *testing.T) {
	c := dilutionLitres(9)
	for _, r := range []float64{0.01, 0.1, 0.3, 0.9} {
		for n := 1; n < 12; n++ {
			drains, err := Remaining(System{Capacity: c}, dilutionRepeat(c.Scale(r), n))
			if err != nil {
				t.Fatal(err)
			}
			f, err := ThroughFlow{Capacity: c, Volume: c.Scale(r * float64(n)), Flow: FlowMixed}.Flush()
			if err != nil {
				t.Fatal(err)
			}
			if last := math.Pow(1+r, -float64(n)); !(drains < f.Share.High && f.Share.High < last) {
				t.Errorf("r %v n %d: %v, %v, %v are out of order", r, n, drains, f.Share.High, last)
			}
		}
	}
}

// With exactly one capacity passed, plug flow has just run clean.
func TestFlushPlugEnd(t *testing.T) {
	for theta, want := range map[float64][2]float64{0: {1, 1}, 0.75: {0.25, 1}, 1: {0, 0}, 2: {0, 0}} {
		got, err := ThroughFlow{Capacity: dilutionLitres(4), Volume: dilutionLitres(4 * theta), Flow: FlowPlug}.Flush()
		if err != nil || got.Share.High != want[0] || got.Outlet.High != want[1] {
			t.Errorf("θ %v: %v, %v, %v; want %v", theta, got.Share, got.Outlet, err, want)
		}
	}
}

func TestFlushUnknownFlowHoldsAll(t *testing.T) {
	for theta := 0.0; theta < 3; theta += 0.25 {
		f := ThroughFlow{Capacity: dilutionLitres(4), Volume: dilutionLitres(4 * theta)}
		all, err := f.Flush()
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range []ThroughFlow{{Flow: FlowMixed}, {Flow: FlowPlug}, {Flow: FlowTanks, Tanks: 5}} {
			f.Flow, f.Tanks = k.Flow, k.Tanks
			one, err := f.Flush()
			if err != nil {
				t.Fatal(err)
			}
			if one.Share.Low < all.Share.Low-1e-15 || one.Share.High > all.Share.High+1e-15 ||
				one.Outlet.Low < all.Outlet.Low-1e-15 || one.Outlet.High > all.Outlet.High+1e-15 {
				t.Errorf("θ %v: %v leaves %v and lets out %v; unknown says %v and %v", theta, f.Flow, one.Share, one.Outlet, all.Share, all.Outlet)
			}
		}
		if !slices.Contains(all.Caveats, CleanOutletProvesNothing) {
			t.Error("no warning about a clean outlet")
		}
	}
}

func TestFlushFaults(t *testing.T) {
	c := dilutionLitres(5)
	cases := []struct {
		name string
		f    ThroughFlow
		want string
	}{
		{"no box", ThroughFlow{}, "capacity 0 L"},
		{"negative", ThroughFlow{Capacity: c, Volume: dilutionLitres(-1)}, "volume: -1 L"},
		{"out of range", ThroughFlow{Capacity: c, Volume: units.Litre.Of(math.NaN())}, "volume: out of range"},
		{"flow", ThroughFlow{Capacity: c, Flow: 9}, "flow 9"},
		{"no tanks", ThroughFlow{Capacity: c, Flow: FlowTanks}, "0 tanks; want 1 to 10000"},
		{"stray tanks", ThroughFlow{Capacity: c, Flow: FlowMixed, Tanks: 3}, "3 tanks with a flow that is mixed"},
	}
	for _, k := range cases {
		got, err := k.f.Flush()
		if err == nil || got.Share != (Share{1, 1}) || !strings.Contains(err.Error(), k.want) {
			t.Errorf("%s: %v, %v; want an error with %q", k.name, got.Share, err, k.want)
		}
	}
	mixed := ThroughFlow{Capacity: c, Flow: FlowMixed}
	for _, target := range []float64{0, 1e-16, -1, 2, math.NaN()} {
		if v, err := mixed.VolumeTo(target); err == nil || !v.IsZero() {
			t.Errorf("target %v: %v, %v; want an error", target, v, err)
		}
	}
	if v, err := (ThroughFlow{Capacity: c, Flow: FlowPlug}).VolumeTo(0); err != nil || v != c {
		t.Errorf("plug flow to nothing: %v, %v; want the capacity", v, err)
	}
	// A flood through a drop leaves nothing, and no NaN.
	for _, k := range []ThroughFlow{{Flow: FlowMixed}, {Flow: FlowPlug}, {Flow: FlowTanks, Tanks: 10_000}, {Flow: FlowTanks, Tanks: 1}} {
		k.Capacity, k.Volume = units.Litre.Of(1e-14), dilutionLitres(10_000)
		got, err := k.Flush()
		if err != nil || got.Share != (Share{}) || got.Outlet != (Share{}) {
			t.Errorf("%v: %v, %v, %v; want nothing left", k.Flow, got.Share, got.Outlet, err)
		}
	}
}

func BenchmarkTanksShare(b *testing.B) {
	for _, n := range []int{5, 1000} {
		b.Run(map[int]string{5: "5", 1000: "1000"}[n], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				tanksShare(n, 1.2)
			}
		})
	}
}

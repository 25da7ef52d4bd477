package numerics

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
	"gonum.org/v1/gonum/mat"
)

// box is one random two-zone service; litres, litres a minute, minutes.
type box struct {
	sump, held, flow, minutes float64
	drains, refills           []float64
}

func randomBox(r *rand.Rand) box {
	draw := func(low, high float64) float64 { return math.Round((low+(high-low)*r.Float64())*1e4) / 1e4 }
	b := box{sump: draw(1, 9), held: draw(0.5, 12), flow: draw(0, 6), minutes: draw(0, 3)}
	for range 1 + r.IntN(8) {
		b.drains = append(b.drains, draw(0, b.sump))
		b.refills = append(b.refills, []float64{0, 0, draw(0, 1)}[r.IntN(3)])
	}
	return b
}

// mixing is exp(A·t) of the zones' differential equations, by gonum.
func (b box) mixing() *mat.Dense {
	k := b.flow * b.minutes
	a := mat.NewDense(2, 2, []float64{-k / b.sump, k / b.sump, k / b.held, -k / b.held})
	var e mat.Dense
	e.Exp(a)
	return &e
}

// follow is the service by matrices: shares of sump and held back after each run.
func (b box) follow() (rows [][3]float64) {
	state := mat.NewVecDense(2, []float64{1, 1})
	mix := b.mixing()
	for i, d := range b.drains {
		left := 1 - d/b.sump
		swap := mat.NewDiagDense(2, []float64{left, 1})
		var x, y mat.VecDense
		x.MulVec(swap, state)
		x.SetVec(0, x.AtVec(0)+b.refills[i]*d/b.sump)
		y.MulVec(mix, &x)
		state = &y
		total := (b.sump*x.AtVec(0) + b.held*x.AtVec(1)) / (b.sump + b.held)
		rows = append(rows, [3]float64{total, y.AtVec(0), y.AtVec(1)})
	}
	return rows
}

func (b box) ours(t *testing.T) exchange.Traced {
	t.Helper()
	sump, held := units.Litre.Of(b.sump), units.Litre.Of(b.held)
	m, err := exchange.MixingRun{Flow: units.Litre.Of(b.flow), Minutes: b.minutes, Sump: sump, Held: held}.Share()
	if err != nil {
		t.Fatal(err)
	}
	var passes []exchange.Pass
	for i, d := range b.drains {
		passes = append(passes, exchange.Pass{Drain: units.Litre.Of(d), RefillOldShare: b.refills[i]})
	}
	traced, err := exchange.WhatIf(exchange.System{Capacity: sump.Add(held), Sump: sump, Mixing: m}, passes)
	if err != nil {
		t.Fatal(err)
	}
	return traced
}

// The two-zone model against the matrix exponential, on random services.
func TestTwoZonesAgainstMatrixExponential(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 52))
	worst, steps := 0.0, 0
	for range 5000 {
		b := randomBox(r)
		got := b.ours(t).Rows
		for i, want := range b.follow() {
			for k, x := range [3]float64{got[i].Share, got[i].Sump, got[i].Held} {
				off := math.Abs(x - want[k])
				if !(off <= 1e-13) {
					t.Errorf("%+v pass %d: ours %v, theirs %v", b, i+1, x, want[k])
				}
				worst = max(worst, off)
			}
			steps++
		}
	}
	t.Logf("5000 services of %d passes, worst %.1e of a share", steps, worst)
}

// Many equal cycles at once: a power of the cycle's matrix.
func TestManyCyclesAgainstMatrixPower(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 16))
	worst := 0.0
	for range 1000 {
		b := randomBox(r)
		n := 1 + r.IntN(40)
		d := b.drains[0]
		b.drains, b.refills = make([]float64, n), make([]float64, n)
		for i := range b.drains {
			b.drains[i] = d
		}
		var cycle, all mat.Dense
		cycle.Mul(b.mixing(), mat.NewDiagDense(2, []float64{1 - d/b.sump, 1}))
		all.Pow(&cycle, n)
		rows := b.ours(t).Rows
		for i, x := range [2]float64{rows[n-1].Sump, rows[n-1].Held} {
			off := math.Abs(x - all.At(i, 0) - all.At(i, 1))
			if !(off <= 1e-13) {
				t.Errorf("%+v: ours %v, theirs %v", b, x, all.At(i, 0)+all.At(i, 1))
			}
			worst = max(worst, off)
		}
	}
	t.Logf("1000 services, worst %.1e of a share", worst)
}

// The factors per cycle against gonum's eigenvalues.
func TestLongRunAgainstEigen(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 16))
	worst := 0.0
	for range 2000 {
		b := randomBox(r)
		sump, held, d := units.Litre.Of(b.sump), units.Litre.Of(b.held), b.drains[0]
		m, err := exchange.MixingRun{Flow: units.Litre.Of(b.flow), Minutes: b.minutes, Sump: sump, Held: held}.Share()
		if err != nil {
			t.Fatal(err)
		}
		got, err := exchange.LongRunFactor(exchange.System{Capacity: sump.Add(held), Sump: sump, Mixing: m}, units.Litre.Of(d))
		if err != nil {
			t.Fatal(err)
		}
		var cycle mat.Dense
		cycle.Mul(b.mixing(), mat.NewDiagDense(2, []float64{1 - d/b.sump, 1}))
		var e mat.Eigen
		if !e.Factorize(&cycle, mat.EigenNone) {
			t.Fatal("no eigenvalues")
		}
		v := e.Values(nil)
		large, small := max(real(v[0]), real(v[1])), min(real(v[0]), real(v[1]))
		off := max(math.Abs(got.PerCycle-large), math.Abs(got.Fading-small))
		if !(off <= 1e-13) {
			t.Errorf("%+v: ours %v %v, theirs %v", b, got.PerCycle, got.Fading, v)
		}
		worst = max(worst, off)
	}
	t.Logf("2000 boxes, worst %.1e", worst)
}

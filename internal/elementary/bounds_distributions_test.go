package elementary

import (
	"math"
	"math/rand/v2"
	"testing"
)

// chances gives the middle, both tails and the seams of NormalQuantile.
func chances(r *rand.Rand) float64 {
	switch r.IntN(4) {
	case 0:
		seams := []float64{0.075, 0.925, math.Exp(-16), 1 - math.Exp(-16), math.Exp(-100)}
		return seams[r.IntN(len(seams))] * (1 - math.Exp2(-20-33*r.Float64()))
	case 1:
		return math.Exp2(-1073 * r.Float64())
	}
	return 1 - r.Float64()*(1-0x1p-53)
}

func TestStatedBoundsOfDistributions(t *testing.T) {
	for _, b := range []bound{
		{"Erf", Erf, wideErf, []draw{uniform(-6.2, 6.2), uniform(-1, 1), spread(-1000, 0, true), around(0.75, -0.75, 6)}, 20000, 1.5},
		{"Erfc", Erfc, wideErfc, []draw{uniform(-6, 6), uniform(0, 27), spread(-60, 0, true), around(erfHalf, -erfHalf, -6)}, 20000, 2},
		{"NormalPDF", NormalPDF, wideNormalPDF, []draw{uniform(-8, 8), uniform(-37.5, 37.5)}, 20000, 1},
		{"NormalCDF", NormalCDF, wideNormalCDF, []draw{uniform(-6, 6), uniform(-37.5, 0), spread(-60, 0, true), around(erfHalf*sqrtTwo, -erfHalf*sqrtTwo, 8.5)}, 20000, 2.5},
		{"LogGamma", LogGamma, wideLogGamma, []draw{uniform(0, 12), around(1, 2), around(0.5, 1.3, 3, 10), spread(-1000, 1000, false), uniform(0, 200)}, 20000, 3},
	} {
		t.Run(b.name, b.check)
	}
}

// TestNormalQuantileBound checks the oracle's distribution at the result: what
// is missing there, over the density, is the error of z.
func TestNormalQuantileBound(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	worst := tally{}
	for range few(20000) {
		p := chances(r)
		z := bigOf(NormalQuantile(p))
		miss := quo(sub(bigOf(p), wideNormalCDF(z)), wideNormalPDF(z))
		worst.add(ulpError(NormalQuantile(p), add(z, miss)), p)
	}
	worst.report(t, "ulp", 4)
}

// A tally keeps the worst of many errors and where it was.
type tally struct {
	worst float64
	at    []float64
}

func (w *tally) add(off float64, at ...float64) {
	if !(off <= w.worst) {
		w.worst, w.at = off, at
	}
}

func (w *tally) report(t *testing.T, unit string, stated float64) {
	t.Helper()
	t.Logf("worst %.3g %s at %v, stated %g", w.worst, unit, w.at, stated)
	if !(w.worst < stated) {
		t.Errorf("worst %.3g %s at %v, stated %g", w.worst, unit, w.at, stated)
	}
}

// degrees of freedom, whole and as the Welch-Satterthwaite formula gives them.
func someDegrees() []float64 {
	return []float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 16.7524, 20, 25.3, 30, 50, 99, 100.01, 150, 0.1, 0.5, 1.5, 2.7, 7.25}
}

func TestStudentBounds(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	var cdf, pdf, quantile, heavy tally
	each := few(20000) / len(someDegrees())
	for _, dof := range someDegrees() {
		oracle := newWideStudent(dof)
		for i := range each {
			p := r.Float64() / 2
			if i%4 == 0 {
				p = math.Exp2(-60 * r.Float64())
			}
			q := StudentQuantile(p, dof)
			if q == 0 || math.IsInf(q, 0) || (q < 0) != (p < 0.5) {
				t.Fatalf("StudentQuantile(%v, %v) = %v", p, dof, q)
			}
			size := bigOf(math.Abs(q))
			tail, density := oracle.tail(size), oracle.density(size)
			cdf.add(relativeError(StudentCDF(-math.Abs(q), dof), tail), q, dof)
			pdf.add(relativeError(StudentPDF(q, dof), density), q, dof)
			if q > 0 {
				tail = sub(bigOf(1), tail)
			}
			off := math.Abs(float(quo(quo(sub(tail, bigOf(p)), density), size)))
			if dof >= 1 {
				quantile.add(off, p, dof)
			} else {
				heavy.add(off, p, dof)
			}
		}
	}
	cdf.report(t, "relative, CDF", 1e-13)
	pdf.report(t, "relative, PDF", 1e-13)
	quantile.report(t, "relative, quantile", 1e-13)
	heavy.report(t, "relative, quantile below 1 degree", 1e-12)
}

func someShapes() []float64 {
	return []float64{0.05, 0.1, 0.25, 0.43, 0.5, 0.75, 1, 1.5, 2, 2.5, 3, 4.25, 5, 7.5, 9.99, 10, 12, 16, 20.25, 30, 42, 50, 75, 100, 128.5}
}

func TestGammaBounds(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	var small, large tally
	each := few(20000) / len(someShapes())
	for _, a := range someShapes() {
		oracle := newWideGamma(a)
		for range each {
			x := a * math.Exp2(3*r.NormFloat64()/math.Sqrt(a+1))
			p := oracle.below(bigOf(x))
			q := sub(bigOf(1), p)
			gotP, gotQ := RegularizedGammaP(a, x), RegularizedGammaQ(a, x)
			if float(p) <= 0.5 {
				small.add(relativeError(gotP, p), a, x)
				large.add(math.Abs(float(sub(bigOf(gotQ), q))), a, x)
				continue
			}
			large.add(math.Abs(float(sub(bigOf(gotP), p))), a, x)
			if a >= 0.5 && float(q) > 1e-30 { // further out the oracle cancels; see the far tails
				small.add(relativeError(gotQ, q), a, x)
			}
		}
	}
	small.report(t, "relative, the smaller of P and Q", 1e-13)
	large.report(t, "absolute, the larger", 2e-15)
}

// TestFarTails raises the precision so that 1 - P keeps its digits.
func TestFarTails(t *testing.T) {
	var gamma, student, normal tally
	atPrecision(1500, func() {
		r := rand.New(rand.NewPCG(9, 10))
		for _, a := range []float64{0.5, 1, 3.5, 25, 300} {
			oracle := newWideGamma(a)
			for range few(60) {
				x := a + 600*r.Float64()
				q := sub(bigOf(1), oracle.below(bigOf(x)))
				if gotQ := RegularizedGammaQ(a, x); float(q) > 1e-290 {
					gamma.add(relativeError(gotQ, q), a, x)
				}
			}
		}
		for _, dof := range []float64{20, 101.5, 1000, 9999, 10000, 12345.6, 1e6, 1e9} {
			oracle := newWideStudent(dof)
			for range few(50) {
				x := 36 * r.Float64()
				if tail := oracle.tail(bigOf(x)); float(tail) > 1e-290 {
					student.add(relativeError(StudentCDF(-x, dof), tail), x, dof)
				}
			}
		}
		for range few(100) {
			x := 36 * r.Float64()
			normal.add(relativeError(NormalCDF(-x), half(sub(bigOf(1), wideErf(quo(bigOf(x), constants().sqrt2))))), x)
		}
	})
	gamma.report(t, "relative, Q", 1e-13)
	student.report(t, "relative, Student", 1e-13)
	normal.report(t, "relative, normal", 4e-16)
}

// TestGammaOfLargeShapes compares with sums of Poisson chances.
func TestGammaOfLargeShapes(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	var q, p tally
	for _, n := range []int{150, 1000, 5000, 9999, 10000, 10001, 100000, 1000000} {
		for range max(2, few(int(20000/math.Sqrt(float64(n))))) {
			a := float64(n)
			x := a + 6*math.Sqrt(a)*(2*r.Float64()-1)
			want := widePoissonBelow(n, bigOf(x))
			q.add(relativeError(RegularizedGammaQ(a, x), want), a, x)
			p.add(relativeError(RegularizedGammaP(a, x), sub(bigOf(1), want)), a, x)
		}
	}
	q.report(t, "relative, Q", 1e-13)
	p.report(t, "relative, P", 1e-13)
}

func TestBetaBounds(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	var small, large tally
	shapes := []float64{0.05, 0.3, 0.5, 1, 1.5, 2, 3.25, 7, 10, 18.5, 40, 75}
	for _, a := range shapes {
		for _, b := range shapes {
			oracle := newWideBeta(bigOf(a), bigOf(b))
			for range few(20000) / len(shapes) / len(shapes) {
				x := r.Float64()
				if r.Uint64()&1 == 0 {
					x = a / (a + b) * math.Exp(r.NormFloat64()/math.Sqrt(a+b))
				}
				x = math.Min(x, 1-1e-9)
				share := oracle.below(bigOf(x), sub(bigOf(1), bigOf(x)))
				got := RegularizedBeta(a, b, x)
				if float(share) <= 0.5 {
					small.add(relativeError(got, share), a, b, x)
				}
				large.add(math.Abs(float(sub(bigOf(got), share))), a, b, x)
			}
		}
	}
	for _, a := range []float64{1e3, 12345.5, 1e6} {
		for _, b := range []float64{2.5, 1e3, 1e6} {
			oracle := newWideBeta(bigOf(a), bigOf(b))
			for range max(2, few(20)) {
				mean := a / (a + b)
				x := mean + 5*(2*r.Float64()-1)*math.Sqrt(mean*(1-mean)/(a+b))
				x = math.Min(x, 1-1e-9)
				share := oracle.below(bigOf(x), sub(bigOf(1), bigOf(x)))
				if float(share) <= 0.5 {
					small.add(relativeError(RegularizedBeta(a, b, x), share), a, b, x)
				}
			}
		}
	}
	small.report(t, "relative up to 1/2", 2e-13)
	large.report(t, "absolute", 5e-14)
}

func TestChiSquareQuantileBound(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	var whole, less tally
	each := few(20000) / len(someShapes())
	for _, a := range someShapes() {
		oracle := newWideGamma(a)
		for i := range each {
			p := r.Float64()
			if i%4 == 0 {
				p = math.Exp2(-60 * r.Float64())
			}
			x := ChiSquareQuantile(p, 2*a)
			if x < 1e-280 {
				continue
			}
			at := bigOf(x / 2)
			off := math.Abs(float(quo(sub(oracle.below(at), bigOf(p)), oracle.density(at))))
			if a >= 0.5 {
				whole.add(off, p, 2*a)
			} else {
				less.add(off, p, 2*a)
			}
		}
	}
	whole.report(t, "relative, 1 degree up", 1e-12)
	less.report(t, "relative, below 1 degree", 1e-11)
}

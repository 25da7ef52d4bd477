package elementary

import (
	"math"
	"math/rand/v2"
	"testing"
)

// near fails unless got/want is 1 to within slack.
func near(t *testing.T, what string, got, want, slack float64) {
	t.Helper()
	if !(math.Abs(got-want) <= slack*math.Abs(want)) {
		t.Errorf("%s: got %.17g, want %.17g", what, got, want)
	}
}

// TestClosedForms: cases of the distributions that have a formula of their own.
func TestClosedForms(t *testing.T) {
	for p := 0.001; p < 0.5; p += 0.0137 {
		near(t, "Student 1 degree (Cauchy)", StudentQuantile(p, 1), -1/Tan(math.Pi*p), 1e-14)
		near(t, "Student 2 degrees", StudentQuantile(p, 2), (2*p-1)/math.Sqrt(2*p*(1-p)), 1e-14)
		near(t, "chi-square 2 degrees (exponential)", ChiSquareQuantile(p, 2), -2*Log1p(-p), 1e-14)
		z := NormalQuantile(p / 2)
		near(t, "chi-square 1 degree (squared normal)", ChiSquareQuantile(1-p, 1), z*z, 1e-13)
		near(t, "beta 1, b", RegularizedBeta(1, 3.5, p), -Expm1(3.5*Log1p(-p)), 1e-14)
		near(t, "beta a, 1", RegularizedBeta(3.5, 1, p), Pow(p, 3.5), 1e-14)
		near(t, "gamma 1/2", RegularizedGammaQ(0.5, 30*p), Erfc(math.Sqrt(30*p)), 1e-14)
	}
}

// TestDiscreteSums: the slow obvious versions of the binomial and Poisson tails.
func TestDiscreteSums(t *testing.T) {
	for n := 1; n <= 12; n++ {
		for _, x := range []float64{0.01, 0.3, 0.5, 0.9} {
			atLeast, choose := 0.0, 1.0
			for k := n; k >= 1; k-- {
				atLeast += choose * IntPow(x, k) * IntPow(1-x, n-k)
				near(t, "binomial", RegularizedBeta(float64(k), float64(n-k+1), x), atLeast, 2e-14)
				choose *= float64(k) / float64(n-k+1)
			}
		}
		for _, m := range []float64{0.1, 1, 2.5, 20} {
			below, term := 0.0, Exp(-m)
			for k := range n {
				below += term
				term *= m / float64(k+1)
			}
			near(t, "Poisson", RegularizedGammaQ(float64(n), m), below, 1e-14)
		}
	}
}

func TestThereAndBack(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	for range few(5000) {
		x := 600 * (r.Float64() - 0.5)
		near(t, "Log(Exp)", Log(Exp(x))+1000, x+1000, 4e-16)
		if x > -50 { // further down Expm1 is too close to -1 to tell
			near(t, "Log1p(Expm1)", Log1p(Expm1(x/10)), x/10, 1e-13)
		}
		p := chances(r)
		if z := NormalQuantile(p); p < 0.5 {
			near(t, "normal", NormalCDF(z), p, 2e-15*(1+z*z))
		}
		dof := math.Exp2(20 * r.Float64())
		if p > 1e-200 && p < 0.5 {
			near(t, "Student", StudentCDF(StudentQuantile(p, dof), dof), p, 2e-12)
		}
		if x := ChiSquareQuantile(p, dof); p > 1e-200 && x > 1e-300 {
			near(t, "chi-square", RegularizedGammaP(dof/2, x/2), p, 1e-11)
		}
	}
}

func TestSymmetries(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 26))
	for range few(5000) {
		x := 30 * (r.Float64() - 0.5)
		for _, f := range []func(float64) float64{Sin, Tan, Erf} {
			if f(-x) != -f(x) {
				t.Errorf("odd function at %v: %v and %v", x, f(x), f(-x))
			}
		}
		if Cos(-x) != Cos(x) || NormalPDF(-x) != NormalPDF(x) {
			t.Errorf("even function at %v", x)
		}
		near(t, "sin² + cos²", Sin(x)*Sin(x)+Cos(x)*Cos(x), 1, 5e-16)
		near(t, "both sides of the normal", NormalCDF(x)+NormalCDF(-x), 1, 3e-16)
		near(t, "erf + erfc", Erf(x)+Erfc(x), 1, 3e-16)
		dof, a, p := math.Exp2(20*r.Float64()), math.Exp2(20*r.Float64()), r.Float64()
		near(t, "both sides of Student's", StudentCDF(x, dof)+StudentCDF(-x, dof), 1, 3e-16)
		if got, want := StudentQuantile(1-p, dof), -StudentQuantile(p, dof); 1-(1-p) == p && got != want {
			t.Errorf("Student quantiles of %v: %v and %v", p, want, got)
		}
		near(t, "P + Q", RegularizedGammaP(a, a*2*p)+RegularizedGammaQ(a, a*2*p), 1, 3e-16)
		if got, want := RegularizedBeta(a, dof, p), 1-RegularizedBeta(dof, a, 1-p); 1-(1-p) == p && math.Abs(got-want) > 2e-14 {
			t.Errorf("mirrored beta of %v, %v at %v: %v and %v", a, dof, p, got, want)
		}
	}
}

// TestUpperSides: above the middle the statements are absolute.
func TestUpperSides(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 28))
	var student, beta tally
	for _, dof := range []float64{0.3, 1, 4, 33.3, 500} {
		oracle := newWideStudent(dof)
		for range few(500) {
			x := 6 * r.Float64()
			student.add(math.Abs(float(sub(bigOf(StudentCDF(x, dof)), sub(bigOf(1), oracle.tail(bigOf(x)))))), x, dof)
		}
	}
	for _, a := range []float64{1000, 54321, 1e6} {
		for _, b := range []float64{0.5, 70, 1e6} {
			oracle := newWideBeta(bigOf(a), bigOf(b))
			for range few(20) {
				mean := a / (a + b)
				x := math.Min(mean+3*r.Float64()*math.Sqrt(mean*(1-mean)/(a+b)), 1-1e-9)
				share := oracle.below(bigOf(x), sub(bigOf(1), bigOf(x)))
				beta.add(math.Abs(float(sub(bigOf(RegularizedBeta(a, b, x)), share))), a, b, x)
			}
		}
	}
	student.report(t, "absolute, Student above 0", 2e-15)
	beta.report(t, "absolute, beta above the mean", 5e-14)
}

package elementary

import "math"

// ShapeMin and ShapeMax bound the shape parameters of the incomplete gamma and
// beta functions and the degrees of freedom; outside them the functions return
// NaN (an infinite number of degrees of freedom is the normal distribution).
const (
	ShapeMin = 1e-10
	ShapeMax = 1e10
)

// RegularizedGammaP returns P(a, x), the share of a gamma distribution of
// shape a below x: relative error below 1e-13 where P <= 1/2, absolute error
// below 2e-15 elsewhere.
//
// A chi-square variable with n degrees of freedom is below x with probability
// P(n/2, x/2); a Poisson variable of mean m is at least N+1 with probability
// P(N+1, m). Below 1e-290 digits are lost to underflow. P(a, 0) is 0 and
// P(a, +Inf) is 1; x < 0 or a outside ShapeMin..ShapeMax gives NaN.
func RegularizedGammaP(a, x float64) float64 {
	p, _ := incompleteGamma(a, x)
	return p
}

// RegularizedGammaQ returns 1 - P(a, x) without losing the digits of a far
// upper tail: relative error below 1e-13 where Q <= 1/2 and a >= 1/2, absolute
// error below 2e-15 elsewhere.
//
// A Poisson variable of mean m is at most N with probability Q(N+1, m), good
// for N in the millions. The ends are those of RegularizedGammaP.
func RegularizedGammaQ(a, x float64) float64 {
	_, q := incompleteGamma(a, x)
	return q
}

// incompleteGamma returns P(a, x) and Q(a, x).
func incompleteGamma(a, x float64) (p, q float64) {
	const largeShape = 1e4
	switch {
	case !(a >= ShapeMin && a <= ShapeMax && x >= 0):
		return math.NaN(), math.NaN()
	case x == 0:
		return 0, 1
	case x > 1e12: // far above the mean of the largest shape
		return 1, 0
	case a >= largeShape:
		return gammaUniform(a, x)
	}
	prefix := gammaPrefix(a, x)
	if x < a+1 {
		p = float64(prefix * gammaSeries(a, x))
		return p, 1 - p
	}
	q = float64(prefix * float64(a*gammaFraction(a, x)))
	return 1 - q, q
}

// gammaDeviance returns a ln(a/x) + x - a >= 0, good to its last digits even
// where x is close to a (Loader, Fast and Accurate Computation of Binomial
// Probabilities, 2000, for the idea).
func gammaDeviance(a, x float64) twofold {
	log := logRatio(twofold{a, 0}, twofold{x, 0})
	return log.scaled(a).plus(twoSum(x, -a))
}

// logRatio returns ln(a/b) for positive a and b.
func logRatio(a, b twofold) twofold {
	if a.hi < float64(b.hi*0x1p-900) || a.hi > float64(b.hi*0x1p900) || a.hi < 0x1p-900 || b.hi < 0x1p-900 {
		return logTwofold(a).plus(logTwofold(b).negated())
	}
	return logTwofold(a.over(b))
}

// gammaPrefix returns x^a exp(-x) / Γ(a+1).
func gammaPrefix(a, x float64) float64 {
	e := expTwofold(gammaDeviance(a, x).negated())
	return float64(e*oneOverSqrt2Pi) / float64(math.Sqrt(a)*gammaStar(a))
}

// gammaSeries returns 1 + x/(a+1) + x²/((a+1)(a+2)) + ... for x < a+1.
func gammaSeries(a, x float64) float64 {
	sum, term := 1.0, 1.0
	for n := 1.0; term > float64(0x1p-56*sum); n++ {
		term = float64(term * (x / (a + n)))
		sum += term
	}
	return sum
}

// gammaFraction returns Legendre's continued fraction for
// exp(x) x^-a Γ(a, x), x >= a+1 (Abramowitz and Stegun 6.5.31), by Lentz's method.
func gammaFraction(a, x float64) float64 {
	const steps = 20000 // more than any a below largeShape asks for
	b := x + 1 - a
	c := math.Inf(1)
	d := 1 / b
	f := d
	for n := 1.0; n < steps; n++ {
		top := float64(n * (a - n))
		b += 2
		d = 1 / (b + float64(top*d))
		c = b + top/c
		delta := float64(c * d)
		f = float64(f * delta)
		if math.Abs(delta-1) < 0x1p-52 {
			break
		}
	}
	return f
}

// gammaUniform returns P and Q for a >= 10^4.
//
// With t²/2 = x/a - 1 - ln(x/a) the integrand becomes exp(-a t²/2) f(t), f
// smooth, and a few moments of the normal tail add up to the result (Temme,
// SIAM J. Math. Anal. 10, 1979, for the substitution).
func gammaUniform(a, x float64) (p, q float64) {
	deviance := gammaDeviance(a, x)
	if deviance.hi > 750 {
		if x < a {
			return 0, 1
		}
		return 1, 0
	}
	step := 1 / math.Sqrt(a)
	if x < a {
		step = -step
	}
	tail := normalTailSum(deviance.shifted(2), step, temme)
	tail = tail / gammaStar(a)
	if x < a {
		return tail, 1 - tail
	}
	return 1 - tail, tail
}

// temme returns the coefficient of t^k in t/(x/a - 1) as a series in t.
func temme(k int) float64 {
	return [...]float64{1, -1.0 / 3, 1.0 / 12, -2.0 / 135, 1.0 / 864, 1.0 / 2835, -0x1.76e06fec7273bp-13,
		0x1.48c5892f7cd83p-15, -0x1.255370652afc1p-19, -0x1.f1b22f594c6b5p-20, 0x1.bd6d21e4b4109p-21,
		-0x1.7b5f9a2d0465cp-23, 0x1.ccf5ceb7f0d9fp-28, 0x1.6097d55c37c1cp-27, -0x1.2d2197c7a2faap-28,
		0x1.f6e66d24d5c8ap-31, -0x1.c0d9b6edf2b0bp-36, -0x1.0070a87340428p-34, 0x1.ac9475c463659p-36,
		-0x1.61ca701fd754ap-38}[k]
}

const temmeTerms = 20

// normalTailSum returns the sum over k of c(k) step^k times the k-th moment
// of the standard normal density above z >= 0, where square is z².
func normalTailSum(square twofold, step float64, c func(int) float64) float64 {
	z := math.Sqrt(square.hi)
	density := float64(oneOverSqrt2Pi * expTwofold(square.shifted(-0.5)))
	even, odd := normalTailAt(z, square), density
	sum := even + float64(float64(step*c(1))*odd)
	power, stepPower := 1.0, step
	for k := 2; k < temmeTerms; k++ {
		power = float64(power * z)
		stepPower = float64(stepPower * step)
		next := float64(power*density) + float64(float64(k-1)*even)
		even, odd = odd, next
		sum += float64(float64(stepPower*c(k)) * next)
	}
	return sum
}

package elementary

import "math"

// RegularizedBeta returns I_x(a, b), the share of a beta distribution below x:
// relative error below 2e-13 where the result is at most 1/2, absolute error
// below 5e-14 elsewhere, for a and b up to 1e6.
//
// A binomial variable of n trials at chance x is at least k with probability
// I_x(k, n-k+1). For an upper tail ask for RegularizedBeta(b, a, 1-x). Below
// 1e-290 digits are lost to underflow. I_0 is 0, I_1 is 1; x outside 0..1, a
// or b outside ShapeMin..ShapeMax gives NaN. The time grows with the root of
// a and b.
func RegularizedBeta(a, b, x float64) float64 {
	inside := a >= ShapeMin && a <= ShapeMax && b >= ShapeMin && b <= ShapeMax
	switch {
	case !inside || !(x >= 0 && x <= 1):
		return math.NaN()
	case x == 0 || x == 1:
		return x
	}
	return betaShare(a, b, twofold{x, 0}, twoSum(1, -x))
}

// betaShare returns I_x(a, b) with y = 1 - x given apart, both above 0.
func betaShare(a, b float64, x, y twofold) float64 {
	if betaDirect(a, b, x.hi, y.hi) {
		return betaTail(a, b, x, y)
	}
	return 1 - betaTail(b, a, y, x)
}

// betaDirect says whether the continued fraction for I_x(a, b) is the one to
// use: below the mean it gives the small side, and it is quick except close to
// 1, where the other side's is.
func betaDirect(a, b, x, y float64) bool {
	const close = 1e-3
	if float64(b*x) < float64(a*y) {
		return float64((a+1)*y) >= close
	}
	return float64((b+1)*x) < close
}

// betaTail returns I_x(a, b) by its continued fraction.
func betaTail(a, b float64, x, y twofold) float64 {
	prefix := betaPrefix(a, b, x, y)
	if prefix == 0 {
		return 0
	}
	return prefix / betaFraction(a, b, x.hi, y.hi)
}

// betaPrefix returns x^a y^b / B(a, b).
func betaPrefix(a, b float64, x, y twofold) float64 {
	total := twoSum(a, b)
	deviance := logRatio(twofold{a, 0}, total.times(x)).scaled(a)
	deviance = deviance.plus(logRatio(twofold{b, 0}, total.times(y)).scaled(b))
	shapes := gammaStar(total.hi) / float64(gammaStar(a)*gammaStar(b))
	root := math.Sqrt(float64(a*b) / total.hi)
	return float64(float64(expTwofold(deviance.negated())*oneOverSqrt2Pi) * float64(root*shapes))
}

// betaFraction returns the continued fraction F in
// I_x(a, b) = x^a y^b / (B(a, b) F), by Lentz's method (DiDonato and Morris,
// ACM TOMS 18, 1992, equation 9: two steps of the classical one at a time).
func betaFraction(a, b, x, y float64) float64 {
	const steps = 100000 // some 12000 are the most seen, both shapes at ShapeMax
	lambda := float64(a*y) - float64(b*x)
	f := float64(a*(lambda+1)) / (a + 1)
	c, d := f, 0.0
	for n := 1.0; n < steps; n++ {
		s := a + float64(2*n)
		last := float64(float64(n*(b-n)) * float64(x*x))
		top := float64((a+n-1)*(a+b+n-1)) / float64((s-1)*(s-1))
		top = float64(top * last)
		bottom := n + float64(n*float64((b-n)*x))/(s-1)
		bottom += float64((a+n)*(lambda+1+float64(n*(1+y)))) / (s + 1)
		d = 1 / (bottom + float64(top*d))
		c = bottom + top/c
		delta := float64(c * d)
		f = float64(f * delta)
		if math.Abs(delta-1) < 0x1p-52 {
			break
		}
	}
	return f
}

package exchange

import (
	"math"

	"example.com/meniscus/internal/elementary"
)

// tanksShare is the share of old fluid left in n equal mixed tanks in series
// after theta capacities of new fluid: (1/n)·Σ P(X <= k-1), k = 1..n, X Poisson of
// mean λ = n·θ. Below θ = 1 it is (1-θ)·P(X <= n-1) + p(n), both positive; above,
// where those would cancel, it is p(n-1)/n times the sum of (i+1)·p(n-1-i)/p(n-1).
func tanksShare(n int, theta float64) float64 {
	if theta == 0 {
		return 1
	}
	top := tanksPoisson(n, theta)
	if theta <= 1 {
		return min(1, float64((1-theta)*tanksOutlet(n, theta))+float64(top*theta))
	}
	size, lambda := float64(n), float64(n)*theta
	sum, ratio := 0.0, 1.0
	for i := range n {
		add := float64(float64(i+1) * ratio)
		sum += add
		if add < sum*1e-17 {
			break
		}
		ratio *= (size - 1 - float64(i)) / lambda
	}
	return top / size * sum
}

// tanksOutlet is the old share that leaves the last tank: P(X <= n-1).
func tanksOutlet(n int, theta float64) float64 {
	if theta == 0 {
		return 1
	}
	return elementary.RegularizedGammaQ(float64(n), float64(n)*theta)
}

// tanksPoisson is the Poisson probability of n-1 at mean n·θ. Written out with
// Stirling's formula the large terms cancel on paper and not in the computer:
// exp(-n(θ - 1 - ln θ)) / (θ·√(2πn)·e^s).
func tanksPoisson(n int, theta float64) float64 {
	size := float64(n)
	ln := elementary.Log(theta)
	// Near θ = 1 the subtractions are exact and ln θ is small with all its digits.
	exponent := -float64(size*(theta-1-ln)) - ln - tanksStirling(n)
	return elementary.Exp(exponent) / math.Sqrt(2*math.Pi*size)
}

// tanksStirling is lnΓ(n) less its Stirling formula (n - 1/2)·ln n - n + ln(2π)/2.
// The series (Abramowitz and Stegun, 6.1.41; from memory) is good to 1e-16 from
// n = 16.
func tanksStirling(n int) float64 {
	x := float64(n)
	if n < 16 {
		const halfLn2Pi = 0.91893853320467274178032973640562
		return elementary.LogGamma(x) - (float64((x-0.5)*elementary.Log(x)) - x + halfLn2Pi)
	}
	q := 1 / float64(x*x)
	return (1.0/12 - float64(q*(1.0/360-float64(q*(1.0/1260-float64(q/1680)))))) / x
}

package exchange

import (
	"math"

	"example.com/meniscus/internal/elementary"
)

// intervalNormal returns the probability below z and the density at z of the
// standard normal, to an absolute 1e-15. Both from one exponential: the interval
// asks for hundreds of pairs, and the kernel's last-digit versions would double
// its time.
//
// Rational approximation: J. F. Hart and others, Computer Approximations (1968),
// number 5666; from memory, compared with the kernel by the tests.
func intervalNormal(z float64) (below, density float64) {
	x := math.Abs(z)
	if x > 37 {
		if z > 0 {
			return 1, 0
		}
		return 0, 0
	}
	e := elementary.Exp(-float64(float64(x*x) / 2))
	density = e * 0.3989422804014327
	tail := float64(e * intervalTail(x))
	if z > 0 {
		return 1 - tail, density
	}
	return tail, density
}

// intervalTail is the probability above x >= 0 over exp(-x²/2).
func intervalTail(x float64) float64 {
	if x >= 7.07106781186547 {
		// Continued fraction of the tail, cut where x makes the rest vanish.
		return 1 / float64((x+1/(x+2/(x+3/(x+4/(x+0.65)))))*2.506628274631)
	}
	n := float64(0.0352624965998911*x) + 0.700383064443688
	n = float64(n*x) + 6.37396220353165
	n = float64(n*x) + 33.912866078383
	n = float64(n*x) + 112.079291497871
	n = float64(n*x) + 221.213596169931
	n = float64(n*x) + 220.206867912376
	d := float64(0.0883883476483184*x) + 1.75566716318264
	d = float64(d*x) + 16.064177579207
	d = float64(d*x) + 86.7807322029461
	d = float64(d*x) + 296.564248779674
	d = float64(d*x) + 637.333633378831
	d = float64(d*x) + 793.826512519948
	d = float64(d*x) + 440.413735824752
	return n / d
}

package exchange

import "math"

// likelyLanes is how many capacities are worked side by side: a power is a chain
// of products that each wait for the last, and four chains wait no longer than one.
const likelyLanes = 4

// positions is position at several capacities, to the same bits.
func (k likely) positions(n int, x float64, c [likelyLanes]float64) (u [likelyLanes]float64) {
	var done [likelyLanes]bool
	for open, round := likelyLanes, 0; open > 0 && round < 30; round++ {
		at, slope := k.shares(n, c, u)
		for i := range u {
			if done[i] {
				continue
			}
			if slope[i] >= 0 {
				u[i], done[i] = 1, true
				open--
				continue
			}
			step := (x - at[i]) / slope[i]
			u[i] = min(1, max(0, u[i]+step))
			if math.Abs(step) < 1e-12 {
				done[i] = true
				open--
			}
		}
	}
	return u
}

// shares is share at several capacities and positions, to the same bits.
func (k likely) shares(n int, c, u [likelyLanes]float64) (x, slope [likelyLanes]float64) {
	first, later := k.first[1]-k.first[0], k.later[1]-k.later[0]
	var then, base [likelyLanes]float64
	var empty [likelyLanes]bool
	for i := range c {
		left := c[i] - k.first[0] - float64(u[i]*first)
		then[i] = c[i] - k.later[0] - float64(u[i]*later)
		if left <= 0 || n > 1 && then[i] <= 0 {
			slope[i], empty[i] = -1, true
			continue
		}
		x[i], slope[i], base[i] = left/c[i], -first/left, then[i]/c[i]
	}
	power := likelyPowers(base, n-1)
	for i := range x {
		if empty[i] {
			continue
		}
		if n > 1 {
			x[i] *= power[i]
			slope[i] -= float64(float64(n-1) * float64(later/then[i]))
		}
		slope[i] *= x[i]
	}
	return x, slope
}

func likelyPowers(x [likelyLanes]float64, n int) [likelyLanes]float64 {
	a, b, c, d := 1.0, 1.0, 1.0, 1.0
	for range n {
		a *= x[0]
		b *= x[1]
		c *= x[2]
		d *= x[3]
	}
	return [...]float64{a, b, c, d}
}

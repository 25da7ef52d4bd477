package exchange

import (
	"math"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// likely is a plan's doubt: every capacity in its range equally likely, and one
// unknown position within their ranges for all drains of the box, because a box
// that gives much once gives much again. Two drains of one box are far from
// independent, and taking them as such would flatter the plan.
type likely struct {
	low, high    float64 // capacity, litres
	first, later [2]float64
	tail         float64
}

func (r Request) likely() likely {
	ends := func(n int) [2]float64 {
		return [2]float64{r.acting(n, planSmallest).In(units.Litre), r.acting(n, planLargest).In(units.Litre)}
	}
	return likely{
		low: r.Capacity.Low().In(units.Litre), high: r.Capacity.High().In(units.Litre),
		first: ends(1), later: ends(2), tail: (1 - r.coverage()) / 2,
	}
}

func (r Request) coverage() float64 {
	if r.Coverage == 0 {
		return intervalUsual
	}
	return r.Coverage
}

// intervals fills in the interval of every row.
func (r Request) intervals(rows []Row) {
	k := r.likely()
	for i := range rows {
		rows[i].Interval = measure.Interval{Coverage: r.coverage()}
		rows[i].Interval.Low, rows[i].Interval.High = k.quantile(i+1, k.tail), k.quantile(i+1, 1-k.tail)
		rows[i].Chance = k.chance(i+1, r.Target+float64(r.Target*cyclesGuard))
	}
}

// fluidLikely is the interval of the fluid needed: it rises evenly with the
// position in the range of the drains.
func (r Request) fluidLikely(least, most FluidNeed) units.Range[units.VolumeDim] {
	tail := float64((1 - r.coverage()) / 2)
	width := most.Total.Sub(least.Total)
	cut := width.Scale(tail)
	likely, _ := units.NewRange(least.Total.Add(cut), most.Total.Sub(cut))
	return likely
}

// quantile is the share after n cycles that is not exceeded with probability p.
func (k likely) quantile(n int, p float64) float64 {
	switch {
	case k.first[0] == k.first[1] && k.later[0] == k.later[1]:
		x, _ := k.share(n, k.low+float64(p*(k.high-k.low)), 0)
		return x
	case k.low == k.high:
		x, _ := k.share(n, k.low, 1-p)
		return x
	case k.first == k.later:
		return likelyPower(1-k.ratio(p), n)
	}
	low, _ := k.share(n, k.low, 1)
	high, _ := k.share(n, k.high, 0)
	return likelyRoot(low, high, func(x float64) float64 { return k.below(n, x) - p })
}

// likelyStill is how near to zero is near enough.
const likelyStill = 1e-11

// likelyRoot finds where a rising function crosses zero between low and high, by
// false position; where one end stays put its value is halved (the Illinois
// rule), so that both ends close in.
func likelyRoot(low, high float64, f func(float64) float64) float64 {
	below, above := f(low), f(high)
	if below >= 0 {
		return low
	}
	if above <= 0 {
		return high
	}
	before := 0.0
	for range 60 {
		mid := low + float64((high-low)*float64(below/(below-above)))
		at := f(mid)
		if math.Abs(at) <= likelyStill {
			return mid
		}
		if at < 0 {
			low, below = mid, at
			if before < 0 {
				above = float64(above / 2)
			}
		} else {
			high, above = mid, at
			if before > 0 {
				below = float64(below / 2)
			}
		}
		before = at
	}
	return low + float64((high-low)/2)
}

// share is the old share after n cycles at capacity c and position u, and its
// slope in u.
func (k likely) share(n int, c, u float64) (x, slope float64) {
	first, later := k.first[1]-k.first[0], k.later[1]-k.later[0]
	left, then := c-k.first[0]-float64(u*first), c-k.later[0]-float64(u*later)
	if left <= 0 || n > 1 && then <= 0 {
		return 0, -1
	}
	x, slope = left/c, -first/left
	if n > 1 {
		x *= likelyPower(then/c, n-1)
		slope -= float64(float64(n-1) * float64(later/then))
	}
	return x, x * slope
}

// ratio is the part d/C of the box that one drain takes, not exceeded with
// probability 1 - p. With all drains alike it decides every row.
func (k likely) ratio(p float64) float64 {
	return likelyRoot(k.later[0]/k.high, k.later[1]/k.low, func(r float64) float64 { return p - k.taking(r) })
}

// taking is the probability that a drain takes more than the part r: the area of
// the capacities and drains with d > r·C.
func (k likely) taking(r float64) float64 {
	width := k.later[1] - k.later[0]
	// Below the first bound every drain takes more, above the second none.
	all := min(k.high, max(k.low, k.later[0]/r))
	none := min(k.high, max(k.low, k.later[1]/r))
	above := func(c float64) float64 { return min(1, max(0, float64((k.later[1]-float64(r*c))/width))) }
	area := (all - k.low) + float64((none-all)*float64((above(all)+above(none))/2))
	return area / (k.high - k.low)
}

// chance is the probability that the share after n cycles is at most x.
func (k likely) chance(n int, x float64) float64 {
	best, _ := k.share(n, k.low, 1)
	worst, _ := k.share(n, k.high, 0)
	switch {
	case worst <= x:
		return 1
	case best > x:
		return 0
	case k.first[0] == k.first[1] && (n == 1 || k.later[0] == k.later[1]):
		return (k.capacityOf(n, x, 0) - k.low) / (k.high - k.low)
	case k.low == k.high:
		return 1 - k.position(n, x, k.low)
	}
	return min(1, max(0, k.below(n, x)))
}

// below is the probability that the share after n cycles is at most x: for each
// capacity the positions beyond the one that gives x, integrated between the
// capacities where that position leaves the range.
func (k likely) below(n int, x float64) float64 {
	all, none := k.capacityOf(n, x, 0), k.capacityOf(n, x, 1)
	half := float64((none - all) / 2)
	sum, rule := 0.0, intervalRule(12)
	var c [12]float64
	for i, side := range [...]float64{-1, 1} {
		for j, node := range rule {
			c[6*i+j] = all + half + float64(float64(side*node[0])*half)
		}
	}
	for i := 0; i < len(c); i += likelyLanes {
		for lane, u := range k.positions(n, x, [likelyLanes]float64(c[i:])) {
			sum += float64(rule[(i+lane)%6][1] * (1 - u))
		}
	}
	return (all - k.low + float64(half*sum)) / (k.high - k.low)
}

// capacityOf is the capacity at which position u gives the share x, kept in range.
func (k likely) capacityOf(n int, x, u float64) float64 {
	return likelyRoot(k.low, k.high, func(c float64) float64 {
		at, _ := k.share(n, c, u)
		return at - x
	})
}

// position is the u in 0..1 that gives the share x at capacity c. The share falls
// and bends upward in u, so that Newton's method climbs from 0 without passing it.
func (k likely) position(n int, x, c float64) float64 {
	u := 0.0
	for range 30 {
		at, slope := k.share(n, c, u)
		if slope >= 0 {
			return 1
		}
		step := (x - at) / slope
		u = min(1, max(0, u+step))
		if math.Abs(step) < 1e-12 {
			break
		}
	}
	return u
}

func likelyPower(x float64, n int) float64 {
	p := 1.0
	for range n {
		p *= x
	}
	return p
}

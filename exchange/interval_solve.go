package exchange

import "math"

// intervalReach is how many deviations to each side of a share its capacities are
// looked at: beyond, the probability is 0 or 1 to twelve digits.
const intervalReach = 7

// intervalStill is the step at which Newton's method has arrived: the next would
// be a small part of it.
const intervalStill = 1e-9

// fill sets the interval of r, and reports whether it settled.
func (m *intervalModel) fill(r *ShareInterval) bool {
	tail := float64((1 - r.Coverage) / 2)
	ends := [...]*float64{&r.Low, &r.High}
	at := [...]float64{tail, 1 - tail}
	middle := m.at(m.mid())
	if middle.sd == 0 { // the share rises with the capacity: its quantiles are the capacity's
		for i, p := range at {
			*ends[i] = m.at(m.capacityAt(p)).plain
		}
		r.Median, r.Method = middle.plain, ByDefinition
		return true
	}
	if m.unruly {
		return false
	}
	before := [...]float64{m.at(m.capacityAt(at[0])).mean, m.at(m.capacityAt(at[1])).mean}
	for _, nodes := range [...]int{12, 24, 48} {
		rule, agree := intervalRule(nodes), nodes > 12
		for i, p := range at {
			x, odd, ok := m.quantile(p, before[i], rule)
			if !ok {
				return false
			}
			agree = agree && math.Abs(x-before[i]) <= intervalAgree
			*ends[i], before[i] = x, x
			if odd > float64(0.02*math.Abs(x-middle.mean)) {
				return false
			}
		}
		if !agree && m.high > m.low {
			continue
		}
		var ok bool
		r.Median, _, ok = m.quantile(0.5, middle.mean, rule)
		r.Method, r.Nodes = ByQuadrature, len(m.points)
		return ok
	}
	return false
}

func (m *intervalModel) capacityAt(p float64) float64 {
	return m.low + float64(p*(m.high-m.low))
}

// quantile finds the share that is not exceeded with probability p, starting
// from a guess. odd is how far the excess of the causes moved it: where that is
// much, a series about the normal is the wrong tool.
func (m *intervalModel) quantile(p, guess float64, rule [][2]float64) (x, odd float64, ok bool) {
	x = guess
	for range 8 {
		first, width := m.look(x, rule)
		from := x
		x, odd, ok = m.settle(p-first, x)
		if !ok {
			return x, odd, false
		}
		// The window was laid around the guess: a long way from it, lay another.
		if math.Abs(x-from) <= width {
			return x, odd, true
		}
	}
	return x, odd, false
}

// look lays the rule over the capacities at which the share x is neither nearly
// sure nor nearly impossible. It returns the probability of the capacities below
// them, for which the share is sure to be less, and the deviation there.
func (m *intervalModel) look(x float64, rule [][2]float64) (first, sd float64) {
	low, high, middle := m.window(x)
	m.points = m.points[:0]
	if low == high {
		p := m.at(low)
		p.weight = 1
		m.points = append(m.points, p)
		return 0, p.sd
	}
	half := float64((high - low) / 2)
	centre, scale := low+half, half/(m.high-m.low)
	for _, side := range [...]float64{-1, 1} {
		for _, node := range rule {
			p := m.at(centre + float64(float64(side*node[0])*half))
			p.weight = float64(node[1] * scale)
			m.points = append(m.points, p)
		}
	}
	return (low - m.low) / (m.high - m.low), m.at(middle).sd
}

// window returns the capacities between which the share x matters, and the one at
// which it is the mean.
func (m *intervalModel) window(x float64) (low, high, middle float64) {
	c := m.mid()
	p := m.at(c)
	if m.low == m.high || p.slope == 0 {
		return m.low, m.high, c
	}
	for range 6 {
		next := min(m.high, max(m.low, c+float64((x-p.mean)/p.slope)))
		near := math.Abs(next-c)*p.slope <= float64(0.3*p.sd)
		if c, p = next, m.at(next); near {
			break // a window has room to spare
		}
	}
	low, high = c, c
	for reach := intervalReach * p.sd / p.slope; low > m.low && float64((x-m.at(low).mean)/m.at(low).sd) < intervalReach-1; reach *= 1.5 {
		low = max(m.low, c-reach)
	}
	for reach := intervalReach * p.sd / p.slope; high < m.high && float64((m.at(high).mean-x)/m.at(high).sd) < intervalReach-1; reach *= 1.5 {
		high = min(m.high, c+reach)
	}
	return low, high, c
}

// settle solves for the share whose probability over the points is p, by Newton's
// method kept within what has been tried.
func (m *intervalModel) settle(p, x float64) (at, odd float64, ok bool) {
	least, most := -math.MaxFloat64, math.MaxFloat64
	for range 60 {
		below, density, bend := m.distribution(x)
		if below < p {
			least = x
		} else {
			most = x
		}
		if density <= 0 {
			return x, 0, false
		}
		step := (p - below) / density
		if limit := 2 * m.points[0].sd; math.Abs(step) > limit {
			step = math.Copysign(limit, step)
		}
		next := x + step
		if next < least || next > most {
			next = least + float64((most-least)/2)
		}
		if math.Abs(next-x) <= intervalStill {
			return next, math.Abs(bend) / density, true
		}
		x = next
	}
	return x, 0, false
}

// distribution sums the probability below x, its density, and the part that the
// excess of the causes has in it.
func (m *intervalModel) distribution(x float64) (below, density, bend float64) {
	for i := range m.points {
		p := &m.points[i]
		z := (x - p.mean) / p.sd
		cdf, pdf := intervalNormal(z)
		square := float64(z * z)
		third := float64(p.skew / 6 * (square - 1))
		fourth := float64(p.excess / 24 * float64(z*(square-3)))
		sixth := float64(p.skew * p.skew / 72 * float64(z*(float64(square*(square-10))+15)))
		below += float64(p.weight * (cdf - float64(pdf*(third+fourth+sixth))))
		density += float64(p.weight * float64(pdf/p.sd))
		bend += float64(p.weight * float64(pdf*fourth))
	}
	return below, density, bend
}

// chance is the probability of a share of at most x; ok is false where a series
// about the normal is the wrong tool.
func (m *intervalModel) chance(x float64) (p float64, ok bool) {
	if m.at(m.mid()).sd == 0 {
		return m.chanceByCapacity(x), true
	}
	if m.unruly {
		return 0, false
	}
	first, _ := m.look(x, intervalRule(48))
	below, _, bend := m.distribution(x)
	return min(1, max(0, first+below)), math.Abs(bend) <= 0.003
}

// chanceByCapacity is the part of the capacities whose share is at most x, where
// the readings leave no doubt.
func (m *intervalModel) chanceByCapacity(x float64) float64 {
	low, high := m.low, m.high
	switch {
	case x < m.at(low).plain:
		return 0
	case x >= m.at(high).plain:
		return 1
	}
	for range 60 {
		c := low + float64((high-low)/2)
		if m.at(c).plain <= x {
			low = c
		} else {
			high = c
		}
	}
	return (low - m.low) / (m.high - m.low)
}

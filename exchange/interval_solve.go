package exchange

import "math"

// intervalReach is how many deviations to each side of a share its capacities are
// looked at: beyond, the probability is 0 or 1 to twelve digits.
const intervalReach = 7

// intervalStill is the step at which Newton's method has arrived: the next is a
// few hundredths of it, since its slope leaves out the skewness.
const intervalStill = 3e-8

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
	var windows [2]intervalWindow
	before := [...]float64{m.at(m.capacityAt(at[0])).mean, m.at(m.capacityAt(at[1])).mean}
	for _, nodes := range [...]int{12, 24, 48} {
		rule, agree := intervalRule(nodes), nodes > 12
		for i, p := range at {
			x, odd, ok := m.quantile(p, before[i], rule, &windows[i])
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
		r.Median, _, ok = m.quantile(0.5, middle.mean, rule, &intervalWindow{})
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
func (m *intervalModel) quantile(p, guess float64, rule [][2]float64, w *intervalWindow) (x, odd float64, ok bool) {
	x = guess
	for range 8 {
		if !w.serves(x) {
			*w = m.window(x)
		}
		x, odd, ok = m.settle(p-m.look(*w, rule), x)
		if !ok {
			return x, odd, false
		}
		if w.serves(x) {
			return x, odd, true
		}
	}
	return x, odd, false
}

// intervalWindow is the capacities at which a share is neither nearly sure nor
// nearly impossible. The zero value serves no share.
type intervalWindow struct {
	low, high float64 // capacity
	share, sd float64 // laid around this share, with this deviation there
}

// serves says that the window still holds what matters for the share x: it has
// room for one deviation.
func (w intervalWindow) serves(x float64) bool { return math.Abs(x-w.share) < w.sd }

// look lays the rule over the window, and returns the probability of the
// capacities below it, for which the share is sure to be less.
func (m *intervalModel) look(w intervalWindow, rule [][2]float64) (first float64) {
	if need := 2 * len(rule); cap(m.points) < need {
		m.points = make([]intervalPoint, 0, need)
	}
	m.points = m.points[:0]
	if w.low == w.high {
		p := m.at(w.low)
		p.weight = 1
		m.points = append(m.points, p)
		return 0
	}
	half := float64((w.high - w.low) / 2)
	centre, scale := w.low+half, half/(m.high-m.low)
	for _, side := range [...]float64{-1, 1} {
		for _, node := range rule {
			p := m.at(centre + float64(float64(side*node[0])*half))
			p.weight = float64(node[1] * scale)
			m.points = append(m.points, p)
		}
	}
	return (w.low - m.low) / (m.high - m.low)
}

// window lays a window around the share x.
func (m *intervalModel) window(x float64) intervalWindow {
	c := m.mid()
	p := m.at(c)
	if m.low == m.high || p.slope == 0 {
		return intervalWindow{m.low, m.high, x, math.MaxFloat64}
	}
	for range 6 {
		next := min(m.high, max(m.low, c+float64((x-p.mean)/p.slope)))
		near := math.Abs(next-c)*p.slope <= float64(0.3*p.sd)
		if c, p = next, m.at(next); near {
			break // a window has room to spare
		}
	}
	reach := intervalReach * p.sd / p.slope
	return intervalWindow{m.edge(x, c, -reach), m.edge(x, c, reach), x, p.sd}
}

// edge goes from capacity c by reach, and on until the share x is some deviations
// away or the range ends.
func (m *intervalModel) edge(x, c, reach float64) float64 {
	for {
		at := min(m.high, max(m.low, c+reach))
		p := m.at(at)
		if at == m.low || at == m.high || math.Abs(x-p.mean) >= float64((intervalReach-1)*p.sd) {
			return at
		}
		reach *= 1.5
	}
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
	first := m.look(m.window(x), intervalRule(48))
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

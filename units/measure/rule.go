package measure

import (
	"fmt"
	"math"

	"example.com/meniscus/internal/elementary"
)

// Up to fewNodes a rule is one Gauss-Legendre rule and needs no memory of its
// own; beyond, it is equal panels of fewNodes each.
const (
	fewNodes  = 32
	mostNodes = 1024
)

// node is one value of the input: its weight and what is left in doubt there.
type node struct {
	weight float64
	Component
}

// rule is a mixture of finitely many components, with its mean, deviation and ends.
type rule struct {
	nodes     []node
	mean, sd  float64
	low, high float64 // beyond them there is nothing float64 could show
}

// rule evaluates the mixture at n nodes, in room where they fit.
func (m Mixture) rule(n int, room []node) (r rule, err error) {
	r = rule{nodes: room[:0]}
	at := m.Low
	defer func() {
		if p := recover(); p != nil {
			r, err = rule{}, fmt.Errorf("given %v the function panicked: %s; want a component", at, quote(fmt.Sprint(p)))
		}
	}()
	if n > len(room) {
		r.nodes = make([]node, 0, n)
	}
	half := abscissas(min(n, fewNodes))
	panels := max(1, n/fewNodes)
	width := (m.High - m.Low) / float64(panels)
	for panel := range panels {
		middle := m.Low + float64((float64(panel)+0.5)*width)
		for _, a := range half {
			for _, x := range [2]float64{middle - float64(width/2*a.x), middle + float64(width/2*a.x)} {
				at = x
				c := m.Given(x)
				if err := c.check(); err != nil {
					return rule{}, fmt.Errorf("given %v: %w", x, err)
				}
				r.nodes = append(r.nodes, node{a.w / float64(2*panels), c})
			}
		}
	}
	r.moments()
	return r, nil
}

// beyondNormal is the z outside which a normal tail, below 1e-17, adds nothing to a sum near 1.
const beyondNormal = 8.5

func (r *rule) moments() {
	r.low, r.high = r.nodes[0].Mean, r.nodes[0].Mean
	for _, c := range r.nodes {
		r.mean += float64(c.weight * c.Mean)
		r.low = math.Min(r.low, c.Mean-float64(beyondNormal*c.SD))
		r.high = math.Max(r.high, c.Mean+float64(beyondNormal*c.SD))
	}
	square := 0.0
	for _, c := range r.nodes {
		d := c.Mean - r.mean
		square += float64(c.weight * (float64(d*d) + float64(c.SD*c.SD)))
	}
	r.sd = math.Sqrt(square)
}

// at returns the probability of at most x, and the density there.
func (r *rule) at(x float64) (p, density float64) {
	for i := range r.nodes {
		c := &r.nodes[i]
		d := x - c.Mean
		switch {
		case d >= float64(beyondNormal*c.SD): // also a component without doubt
			p += c.weight
		case d > -float64(beyondNormal*c.SD):
			z := d / c.SD
			f := elementary.NormalPDF(z)
			p += float64(c.weight * (elementary.NormalCDF(z) - float64(c.Skew/6*(float64(z*z)-1)*f)))
			density += float64(c.weight / c.SD * f * (1 + float64(c.Skew/6*z*(float64(z*z)-3))))
		}
	}
	return p, density
}

// quantile solves at(x) = p by Newton's method within a bracket, from start.
func (r *rule) quantile(p, start float64) float64 {
	low, high, x := r.low, r.high, start
	if !(x > low && x < high) {
		x = float64(low/2) + float64(high/2)
	}
	for range 200 {
		q, density := r.at(x)
		if q < p {
			low = x
		} else {
			high = x
		}
		next := x - (q-p)/density
		newton := next >= low && next <= high // not where the density is 0
		if !newton {
			next = float64(low/2) + float64(high/2)
		}
		move := math.Abs(next - x)
		x = next
		// A Newton step squares the error: after one of 1e-5 what is left is near 1e-10.
		if move == 0 || newton && move <= float64(settled*r.sd) {
			break
		}
	}
	return x
}

// abscissa is a node of a Gauss-Legendre rule on (-1, 1) right of the middle, and its weight.
type abscissa struct{ x, w float64 }

// abscissas returns the right half of the rule with 16 or 32 nodes. Computed to
// 40 digits; the test compares them with internal/elementary.
func abscissas(n int) []abscissa {
	if n == 16 {
		return []abscissa{
			{0.0950125098376374401853, 0.1894506104550684962853},
			{0.2816035507792589132304, 0.1826034150449235888667},
			{0.4580167776572273863424, 0.1691565193950025381893},
			{0.6178762444026437484466, 0.1495959888165767320815},
			{0.7554044083550030338951, 0.1246289712555338720524},
			{0.8656312023878317438804, 0.0951585116824927848099},
			{0.9445750230732325760779, 0.0622535239386478928628},
			{0.9894009349916499325961, 0.0271524594117540948517},
		}
	}
	return []abscissa{
		{0.0483076656877383162348, 0.0965400885147278005667},
		{0.1444719615827964934851, 0.0956387200792748594190},
		{0.2392873622521370745446, 0.0938443990808045656391},
		{0.3318686022821276497799, 0.0911738786957638847128},
		{0.4213512761306353453641, 0.0876520930044038111427},
		{0.5068999089322293900237, 0.0833119242269467552221},
		{0.5877157572407623290407, 0.0781938957870703064717},
		{0.6630442669302152009751, 0.0723457941088485062253},
		{0.7321821187402896803874, 0.0658222227763618468376},
		{0.7944837959679424069630, 0.0586840934785355471452},
		{0.8493676137325699701336, 0.0509980592623761761961},
		{0.8963211557660521239653, 0.0428358980222266806568},
		{0.9349060759377396891709, 0.0342738629130214331026},
		{0.9647622555875064307738, 0.0253920653092620594557},
		{0.9856115115452683354001, 0.0162743947309056706051},
		{0.9972638618494815635449, 0.0070186100094700966004},
	}
}

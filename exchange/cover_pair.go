package exchange

import (
	"cmp"
	"slices"
)

// pairNeed finds the cheapest sum of b and one label from each list that covers the
// need. As cost rises with volume in a list, the smallest label that suffices is
// the best partner.
func (s *coverSearch) pairNeed(b coverLabel, first, second []coverLabel) {
	rest := s.need - min(s.need, b.volume)
	j, limit := len(second), s.limit-b.cost
	for i := range first {
		x := &first[i]
		if s.steps--; s.steps <= 0 || x.cost > limit {
			return
		}
		for j > 0 && x.volume+second[j-1].volume >= rest {
			j--
			s.steps--
		}
		if j == len(second) {
			continue
		}
		if y := &second[j]; x.cost+y.cost <= limit {
			s.offer(b, *x, *y)
			limit = s.limit - b.cost // a find brings it down
		}
		if j == 0 {
			return // a larger label leaves more over
		}
	}
}

// pairMoney finds the largest sum of b and one label from each list that the limit
// pays for: the largest label affordable is the best partner.
func (s *coverSearch) pairMoney(b coverLabel, first, second []coverLabel) {
	limit, least := s.limit-b.cost, s.need-min(s.need, b.volume)
	j := len(second) - 1
	for i := range first {
		x := &first[i]
		for j >= 0 && x.cost+second[j].cost > limit {
			j--
			s.steps--
		}
		if s.steps--; s.steps <= 0 || j < 0 {
			return
		}
		if x.volume+second[j].volume >= least {
			s.offer(b, *x, second[j])
			least = s.need - min(s.need, b.volume)
		}
	}
}

// offer takes a purchase if it is the best so far, and then asks for nothing worse.
func (s *coverSearch) offer(a, b, c coverLabel) {
	f := &s.found
	cost, volume, packs := a.cost+b.cost+c.cost, a.volume+b.volume+c.volume, a.packs+b.packs+c.packs
	order := cmp.Or(cmp.Compare(cost, f.cost), cmp.Compare(volume, f.volume), cmp.Compare(packs, f.packs))
	if s.spend {
		order = cmp.Or(cmp.Compare(f.volume, volume), cmp.Compare(cost, f.cost), cmp.Compare(packs, f.packs))
	}
	if f.ok && order > 0 {
		return
	}
	counts := s.try[:len(f.counts)]
	clear(counts)
	for _, l := range [...]coverLabel{a, b, c} {
		s.count(l, counts)
	}
	s.left -= coverTieCost
	if f.ok && order == 0 && slices.Compare(counts, f.counts) <= 0 {
		return
	}
	f.ok, f.cost, f.volume, f.packs = true, cost, volume, packs
	copy(f.counts, counts)
	if s.spend {
		s.need = volume
	} else {
		s.limit = cost
	}
}

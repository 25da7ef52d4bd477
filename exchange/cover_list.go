package exchange

import (
	"cmp"
	"slices"
)

// list makes the useful labels of some items, volume and cost both rising. Items
// that come later among the offers go first, so that of two labels that tie the
// last node tells the better.
func (s *coverSearch) list(i int, items []coverItem) {
	list := append(s.lists[i][:0], coverLabel{node: -1})
	for _, it := range items {
		if it.most == 0 {
			list = s.addAny(list, it)
			continue
		}
		// Any number up to the limit is a sum of these lots, each taken or not.
		for rest, lot := s.affordable(it), uint64(1); rest > 0; lot *= 2 {
			lot = min(lot, rest)
			list = s.addLot(list, it, lot)
			rest -= lot
		}
	}
	s.lists[i] = list
}

// affordable is how many of a limited item a purchase may hold.
func (s *coverSearch) affordable(it coverItem) uint64 {
	n := uint64(it.most)
	if !s.spend {
		n = it.enough(s.need)
	}
	if it.price > 0 {
		n = min(n, uint64(s.limit/it.price))
	}
	if n > coverMostLots {
		s.left = 0
		return 0
	}
	return n
}

// open says that a label may still grow.
func (s *coverSearch) open(c coverLabel) bool { return s.spend || c.volume < s.need }

// addAny extends every label by any number of an item: a label of the result,
// plus one more of the item, is again a candidate for the result.
func (s *coverSearch) addAny(list []coverLabel, it coverItem) []coverLabel {
	out := s.spare[:0]
	for i, j := 0, 0; s.left > 0; {
		more := j < len(out) && s.open(out[j])
		switch {
		case i < len(list) && (!more || list[i].volume <= out[j].volume+it.size):
			var keep int
			if out, keep, _ = s.push(out, list[i]); j > keep {
				j = keep // labels already extended were taken back: go on from the new one
			}
			i++
		case more:
			var keep int
			if out, keep = s.extend(out, out[j], it, 1); j+1 > keep {
				j = keep
			} else {
				j++
			}
		default:
			s.spare = list
			return out
		}
	}
	s.spare = list
	return out
}

// addLot extends every label by a lot of the item or leaves it.
func (s *coverSearch) addLot(list []coverLabel, it coverItem, lot uint64) []coverLabel {
	out := s.spare[:0]
	for i, j := 0, 0; s.left > 0; {
		more := j < len(list) && s.open(list[j])
		switch {
		case i < len(list) && (!more || list[i].volume <= list[j].volume+it.size*lot):
			out, _, _ = s.push(out, list[i])
			i++
		case more:
			out, _ = s.extend(out, list[j], it, lot)
			j++
		default:
			s.spare = list
			return out
		}
	}
	s.spare = list
	return out
}

// extend pushes a label and a lot of the item. A node is made for what is kept
// only.
func (s *coverSearch) extend(out []coverLabel, from coverLabel, it coverItem, lot uint64) ([]coverLabel, int) {
	c := coverLabel{
		volume: from.volume + it.size*lot,
		cost:   from.cost + it.price*int64(lot),
		packs:  from.packs + int32(lot),
		node:   int32(len(s.nodes)),
	}
	if s.hopeless(c) {
		s.left--
		return out, len(out)
	}
	node := coverNode{parent: from.node, item: int32(it.at), count: int32(lot)}
	if from.node >= 0 && s.nodes[from.node].item == node.item {
		// One node an item keeps the chains as short as there are offers.
		node.parent = s.nodes[from.node].parent
		node.count += s.nodes[from.node].count
	}
	s.nodes = coverAppend(s.nodes, node)
	out, keep, kept := s.push(out, c)
	if kept {
		s.left--
		if len(s.nodes) == coverMostNodes {
			s.left = 0
		}
	} else {
		s.nodes = s.nodes[:c.node]
	}
	return out, keep
}

// coverAppend doubles a full slice: append alone grows a long one by quarters, and
// so copies it many times.
func coverAppend[T any](list []T, v T) []T {
	if len(list) == cap(list) {
		list = slices.Grow(list, len(list)+64)
	}
	return append(list, v)
}

// push adds a label no smaller than the last, unless it is useless, and takes
// back those it makes useless. It returns how many of the old ones it kept.
func (s *coverSearch) push(out []coverLabel, c coverLabel) ([]coverLabel, int, bool) {
	s.left--
	if s.hopeless(c) {
		return out, len(out), false
	}
	for len(out) > 0 {
		last := out[len(out)-1]
		if last.volume == c.volume {
			if s.compare(last, c) <= 0 {
				return out, len(out), false
			}
		} else if last.cost < c.cost || last.cost == c.cost && !s.spend {
			if !s.open(last) {
				return out, len(out), false // enough already, and less left over
			}
			break
		}
		out = out[:len(out)-1]
	}
	if len(out) == coverMostList {
		s.left = 0
	}
	return coverAppend(out, c), len(out), true
}

// compare orders labels of equal volume, the better first: of two with equal cost
// and number, the one with more of the earliest offer. The nodes of a label go
// from the earliest offer to the latest.
func (s *coverSearch) compare(a, b coverLabel) int {
	if c := cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(a.packs, b.packs)); c != 0 {
		return c
	}
	for x, y := a.node, b.node; x != y; {
		if x < 0 || y < 0 {
			return cmp.Compare(y, x) // as many containers in all: cannot be
		}
		m, n := s.nodes[x], s.nodes[y]
		if c := cmp.Or(cmp.Compare(m.item, n.item), cmp.Compare(n.count, m.count)); c != 0 {
			return c
		}
		x, y = m.parent, n.parent
		s.left--
	}
	return 0
}

func (s *coverSearch) count(c coverLabel, counts []int) {
	for n := c.node; n >= 0; n = s.nodes[n].parent {
		counts[s.nodes[n].item] += int(s.nodes[n].count)
	}
}

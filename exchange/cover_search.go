package exchange

import (
	"cmp"
	"math/bits"
	"slices"
)

const (
	// coverMostLabels bounds the work of one purchase to some tens of milliseconds.
	coverMostLabels = 1 << 19
	// coverSmallTable is the most multiples of a common step that sizes of one
	// family may make of the need.
	coverSmallTable = 1 << 12
)

// coverLabel is a choice of containers, kept only by what it comes to.
type coverLabel struct {
	volume uint64
	cost   int64
	packs  int32
	node   int32 // index of its coverNode; -1: no containers
}

// coverNode says how a label came about: count of item on top of the parent.
type coverNode struct {
	parent int32
	item   int32 // place among the offers
	count  int32
}

type coverSolution struct {
	ok     bool
	cost   int64
	volume uint64
	packs  int32
	counts []int
}

// coverSearch finds the best purchase of at most a given cost.
//
// The offers are split in two halves. For each half it lists every sum of
// volume and cost that could be part of a best purchase; the best pair of one
// label from each list is then found in one pass. A label is left out where
// another costs less and holds no less, or where even at the best price for
// volume it could not be finished within the limit. Labels of equal cost all
// stay: the smaller one may leave less over.
type coverSearch struct {
	need  uint64
	best  coverItem // the lowest price for volume
	limit int64
	left  int // labels that may still be made
	nodes []coverNode
	found coverSolution
}

func (s *coverSearch) find(first, second []coverItem, n int) bool {
	s.nodes = s.nodes[:0]
	s.found = coverSolution{counts: make([]int, n)}
	a := s.list(first)
	b := s.list(second)
	if s.left <= 0 {
		return false
	}
	s.pair(a, b)
	return s.found.ok
}

// leastCost is the cost of a volume at the best price, rounded up to a step.
func (s *coverSearch) leastCost(volume uint64) int64 {
	h, l := bits.Mul64(volume, uint64(s.best.price))
	q, r := bits.Div64(h%s.best.size, l, s.best.size)
	if r > 0 {
		q++
	}
	return int64(q)
}

// hopeless says that even at the best price the rest is past the limit.
func (s *coverSearch) hopeless(c coverLabel) bool {
	if c.cost > s.limit {
		return true
	}
	if c.volume >= s.need {
		return false
	}
	h, l := bits.Mul64(s.need-c.volume, uint64(s.best.price))
	mh, ml := bits.Mul64(uint64(s.limit-c.cost), s.best.size)
	return h > mh || h == mh && l > ml
}

// list returns the useful labels of some items, volume and cost both rising.
func (s *coverSearch) list(items []coverItem) []coverLabel {
	list := []coverLabel{{node: -1}}
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
	return list
}

// affordable is how many of a limited item a purchase may hold.
func (s *coverSearch) affordable(it coverItem) uint64 {
	n := it.enough(s.need)
	if it.price > 0 {
		n = min(n, uint64(s.limit/it.price))
	}
	return n
}

// addAny extends every label by any number of an item: a label of the result,
// plus one more of the item, is again a candidate for the result.
func (s *coverSearch) addAny(list []coverLabel, it coverItem) []coverLabel {
	out := make([]coverLabel, 0, 2*len(list)+16)
	for i, j := 0, 0; s.left > 0; {
		var c coverLabel
		more := j < len(out) && out[j].volume < s.need
		switch {
		case i < len(list) && (!more || list[i].volume <= out[j].volume+it.size):
			c = list[i]
			i++
		case more:
			c = s.extend(out[j], it, 1)
			j++
		default:
			return out
		}
		var keep int
		if out, keep = s.push(out, c); j > keep {
			j = keep // labels already extended were taken back: go on from the new one
		}
	}
	return out
}

// addLot extends every label by a lot of the item or leaves it.
func (s *coverSearch) addLot(list []coverLabel, it coverItem, lot uint64) []coverLabel {
	out := make([]coverLabel, 0, 2*len(list))
	for i, j := 0, 0; s.left > 0; {
		more := j < len(list) && list[j].volume < s.need
		switch {
		case i < len(list) && (!more || list[i].volume <= list[j].volume+it.size*lot):
			out, _ = s.push(out, list[i])
			i++
		case more:
			out, _ = s.push(out, s.extend(list[j], it, lot))
			j++
		default:
			return out
		}
	}
	return out
}

func (s *coverSearch) extend(from coverLabel, it coverItem, lot uint64) coverLabel {
	node := coverNode{parent: from.node, item: int32(it.at), count: int32(lot)}
	if from.node >= 0 && s.nodes[from.node].item == node.item {
		// One node an item keeps the chains as short as there are offers.
		node.parent = s.nodes[from.node].parent
		node.count += s.nodes[from.node].count
	}
	s.nodes = append(s.nodes, node)
	return coverLabel{
		volume: from.volume + it.size*lot,
		cost:   from.cost + it.price*int64(lot),
		packs:  from.packs + int32(lot),
		node:   int32(len(s.nodes) - 1),
	}
}

// push adds a label no smaller than the last, unless it is useless, and takes
// back those it makes useless. It returns how many of the old ones it kept.
func (s *coverSearch) push(out []coverLabel, c coverLabel) ([]coverLabel, int) {
	s.left--
	if s.hopeless(c) {
		return out, len(out)
	}
	for len(out) > 0 {
		last := out[len(out)-1]
		if last.volume == c.volume {
			if s.compare(last, c) <= 0 {
				return out, len(out)
			}
		} else if last.cost <= c.cost {
			if last.volume >= s.need {
				return out, len(out) // enough already, and less left over
			}
			return append(out, c), len(out)
		}
		out = out[:len(out)-1]
	}
	return append(out, c), 0
}

// compare orders labels of equal volume, the better first.
func (s *coverSearch) compare(a, b coverLabel) int {
	if c := cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(a.packs, b.packs)); c != 0 || a.node == b.node {
		return c
	}
	var x, y [coverMostOffers]int
	s.count(a, x[:])
	s.count(b, y[:])
	return -slices.Compare(x[:], y[:])
}

func (s *coverSearch) count(c coverLabel, counts []int) {
	for n := c.node; n >= 0; n = s.nodes[n].parent {
		counts[s.nodes[n].item] += int(s.nodes[n].count)
	}
}

// pair finds the best sum of one label from each list that covers the need.
// As cost rises with volume in a list, the smallest label that suffices is the
// best partner.
func (s *coverSearch) pair(a, b []coverLabel) {
	j := len(b)
	for _, x := range a {
		for j > 0 && x.volume+b[j-1].volume >= s.need {
			j--
		}
		if j < len(b) {
			s.offer(x, b[j])
		}
	}
}

func (s *coverSearch) offer(a, b coverLabel) {
	f := &s.found
	cost, volume, packs := a.cost+b.cost, a.volume+b.volume, a.packs+b.packs
	if cost > s.limit {
		return
	}
	c := cmp.Or(cmp.Compare(cost, f.cost), cmp.Compare(volume, f.volume), cmp.Compare(packs, f.packs))
	if f.ok && c > 0 {
		return
	}
	counts := make([]int, len(f.counts))
	s.count(a, counts)
	s.count(b, counts)
	if f.ok && c == 0 && slices.Compare(counts, f.counts) <= 0 {
		return
	}
	s.found = coverSolution{true, cost, volume, packs, counts}
}

// coverHalves splits the items so that both lists stay short: sizes with a
// useful common step go together, as their sums coincide.
func coverHalves(need uint64, items []coverItem) (first, second []coverItem) {
	type family struct {
		step  uint64
		items []coverItem
	}
	var families []family
	for _, it := range items {
		i := slices.IndexFunc(families, func(f family) bool {
			return need/coverGCD(f.step, it.size) <= coverSmallTable
		})
		if i < 0 {
			families = append(families, family{it.size, []coverItem{it}})
			continue
		}
		families[i].step = coverGCD(families[i].step, it.size)
		families[i].items = append(families[i].items, it)
	}
	slices.SortStableFunc(families, func(x, y family) int { return cmp.Compare(x.step, y.step) })
	sums := [2]float64{1, 1} // rough count of sums each half can make
	halves := [2][]coverItem{}
	for _, f := range families {
		h := 0
		if sums[1] < sums[0] {
			h = 1
		}
		sums[h] *= 1 + float64(need/f.step)
		halves[h] = append(halves[h], f.items...)
	}
	return halves[0], halves[1]
}

package exchange

import "math/bits"

// The work of one purchase, all its searches together, is bounded to some tens of
// milliseconds and some megabytes.
const (
	coverMostLabels = 1 << 21 // labels looked at, one that is kept counting twice
	coverMostList   = 1 << 16 // labels of one list
	coverMostNodes  = 1 << 18 // labels kept, of all lists
	coverMostPairs  = 6 << 20 // steps of pairing the lists
	// coverTieCost is what weighing two equal purchases counts as, in labels.
	coverTieCost = 16
	// coverMostLots keeps numbers of containers within 32 bits, whatever is added up.
	coverMostLots = 1 << 24
	// coverSmallTable is the most multiples of a common step that sizes of one
	// family may make of the need.
	coverSmallTable = 1 << 13
)

// coverLabel is a choice of containers, kept only by what it comes to.
type coverLabel struct {
	volume uint64
	cost   int64
	packs  int32
	node   int32 // index of its coverNode; -1: no containers
}

// coverNode says how a label came about: count of item on top of the parent, whose
// items come later among the offers.
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

// coverSearch finds the best purchase of at least a need and at most a given cost:
// the cheapest, or, to spend money, the largest.
//
// The offers are split in three parts. For each part it lists every sum of volume
// and cost that could be part of a best purchase; the best of the sums of one label
// from each list are then found without listing those: for each label of the
// shortest list, in one pass over the other two. A label is left out where another
// costs less and holds no less, or where even at the best price for volume it could
// not be finished within the limit. Labels of equal cost all stay where the cheapest
// is sought: the smaller one may leave less over.
type coverSearch struct {
	need  uint64
	best  coverItem // the lowest price for volume
	limit int64
	spend bool // seek the largest volume, at least the need, not the least cost
	left  int  // labels that may still be looked at
	steps int  // of pairing that may still be made
	nodes []coverNode
	lists [3][]coverLabel
	spare []coverLabel
	found coverSolution
	try   [coverMostOffers]int
}

// begin is for each purchase sought; the work allowed is for all of them.
func (s *coverSearch) begin(best coverItem) {
	if s.best.size == 0 {
		s.left, s.steps = coverMostLabels, coverMostPairs
	}
	s.best, s.spend = best, false
}

// find reports whether a purchase was found; where the work is spent there is none.
func (s *coverSearch) find(split coverSplit, n int) bool {
	s.found = coverSolution{counts: make([]int, n)}
	a, b, c := s.sums(split.thirds)
	if len(b)*(len(a)+len(c))/2 > s.steps {
		// Three lists of much the same length are slow to pair where two are not.
		a, b, c = s.sums(split.halves)
	}
	if s.exhausted() || len(b)*(len(a)+len(c))/2 > s.steps {
		s.left = 0
		return false
	}
	for _, outer := range b {
		if s.spend {
			s.pairMoney(outer, a, c)
		} else {
			s.pairNeed(outer, a, c)
		}
	}
	return s.found.ok && !s.exhausted()
}

// sums lists the parts, the shortest in the middle.
func (s *coverSearch) sums(parts [3][]coverItem) (a, b, c []coverLabel) {
	s.nodes = s.nodes[:0]
	for i, items := range parts {
		s.list(i, items)
	}
	a, b, c = s.lists[0], s.lists[1], s.lists[2]
	if len(a) < len(b) {
		a, b = b, a
	}
	if len(c) < len(b) {
		b, c = c, b
	}
	return a, b, c
}

func (s *coverSearch) exhausted() bool { return s.left <= 0 || s.steps <= 0 }

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

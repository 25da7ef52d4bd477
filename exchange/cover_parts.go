package exchange

import (
	"cmp"
	"slices"
)

// coverSplit holds the items in three parts, and in two beside an empty one.
type coverSplit struct{ thirds, halves [3][]coverItem }

// coverFamily is sizes with a useful common step, whose sums coincide.
type coverFamily struct {
	step  uint64
	items []coverItem
}

func coverParts(need uint64, items []coverItem) coverSplit {
	var families []coverFamily
	for _, it := range items {
		i := slices.IndexFunc(families, func(f coverFamily) bool {
			return need/coverGCD(f.step, it.size) <= coverSmallTable
		})
		if i < 0 {
			families = append(families, coverFamily{it.size, []coverItem{it}})
			continue
		}
		families[i].step = coverGCD(families[i].step, it.size)
		families[i].items = append(families[i].items, it)
	}
	slices.SortStableFunc(families, func(x, y coverFamily) int { return cmp.Compare(x.step, y.step) })
	return coverSplit{coverDeal(need, families, 3), coverDeal(need, families, 2)}
}

// coverDeal keeps families together, and the parts' lists about as short.
func coverDeal(need uint64, families []coverFamily, n int) (parts [3][]coverItem) {
	sums := []float64{1, 1, 1}[:n] // rough count of sums each part can make
	for _, f := range families {
		p := slices.Index(sums, slices.Min(sums))
		sums[p] *= 1 + float64(need/f.step)
		parts[p] = append(parts[p], f.items...)
	}
	for _, part := range parts {
		slices.SortFunc(part, func(x, y coverItem) int { return cmp.Compare(y.at, x.at) })
	}
	return parts
}

package measure

import (
	"errors"
	"slices"
)

var errNoOutcome = errors.New("measure: outcome of no simulation; want one from Simulate")

// rank is which of the results, counted from 1 upwards, stands for probability p.
func (o *Outcome) rank(p float64) int {
	return min(max(int(float64(p*float64(o.trials))+0.5), 1), o.trials)
}

// ranked is the order statistic for p by selection: what is asked of a million
// values is rarely worth sorting them.
func (o *Outcome) ranked(p float64) float64 {
	o.mu.Lock()
	defer o.mu.Unlock()
	at := o.rank(p) - 1
	if !o.sorted {
		selectAt(o.kept, at)
	}
	return o.kept[at]
}

// order sorts the kept values once.
func (o *Outcome) order() []float64 {
	o.mu.Lock()
	defer o.mu.Unlock()
	if !o.sorted {
		slices.Sort(o.kept)
		o.sorted = true
	}
	return o.kept
}

// selectAt puts the k-th smallest value at index k, smaller ones before it and
// larger ones after (Hoare's quickselect). The pivot is the median of three;
// should that go badly on some arrangement of values, what is left is sorted,
// so that the work stays bounded.
func selectAt(x []float64, k int) {
	low, high := 0, len(x)-1
	for rounds := 0; high-low > 16; rounds++ {
		if rounds > 64 {
			break
		}
		left, right := partition(x, low, high)
		switch {
		case k <= right:
			high = right
		case k >= left:
			low = left
		default:
			return // between them all are equal to the pivot
		}
	}
	slices.Sort(x[low : high+1])
}

// partition arranges x[low..high] so that x[low..right] <= pivot <= x[left..high],
// and all between are equal to it.
func partition(x []float64, low, high int) (left, right int) {
	pivot := medianOfThree(x[low], x[int(uint(low+high)>>1)], x[high])
	left, right = low, high
	for left <= right {
		for x[left] < pivot {
			left++
		}
		for x[right] > pivot {
			right--
		}
		if left <= right {
			x[left], x[right] = x[right], x[left]
			left++
			right--
		}
	}
	return left, right
}

func medianOfThree(a, b, c float64) float64 { return max(min(a, b), min(max(a, b), c)) }

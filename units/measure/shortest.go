package measure

// Shortest returns the shortest interval that holds results with probability p
// (JCGM 101:2008 7.7): for a lopsided distribution shorter than Interval.
// Its ends are found where the density is flattest and wander from seed to seed
// more than those of Interval do. A p outside (0, 1) is an error.
func (o *Outcome) Shortest(p float64) (Interval, error) {
	if err := o.check("shortest interval", p); err != nil {
		return Interval{}, err
	}
	if o.kept != nil {
		return o.shortestKept(p), nil
	}
	return o.shortestBinned(p), nil
}

func (o *Outcome) shortestKept(p float64) Interval {
	sorted := o.order()
	span := min(max(int(float64(p*float64(o.trials))+0.5), 0), o.trials-1)
	best := Interval{sorted[0], sorted[span], p}
	for i := 1; i+span < len(sorted); i++ {
		if w := sorted[i+span] - sorted[i]; w < best.Width() {
			best.Low, best.High = sorted[i], sorted[i+span]
		}
	}
	return best
}

// shortestBinned slides the low end over the edges of the bins while the high end follows.
func (o *Outcome) shortestBinned(p float64) Interval {
	n, best := float64(o.trials), Interval{o.least, o.most, p}
	span := float64(p * n)
	below, reached, j := 0.0, 0.0, 0 // results below the low end; below bin j
	for i, c := range o.counts {
		low, _ := o.bounds(i)
		for j < len(o.counts) && reached+float64(o.counts[j]) < below+span {
			reached += float64(o.counts[j])
			j++
		}
		if j == len(o.counts) {
			break
		}
		if high := o.reach(j, below+span-reached); c > 0 && high-low < best.Width() {
			best.Low, best.High = low, high
		}
		below += float64(c)
	}
	return best
}

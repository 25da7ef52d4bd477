package measure

// find returns the bin that holds the result of the given rank, counted from 1,
// and how many results lie below that bin.
func (o *Outcome) find(rank int) (bin int, below uint64) {
	for i, n := range o.counts {
		if below+n >= uint64(rank) {
			return i, below
		}
		below += n
	}
	return len(o.counts) - 1, below // not reached: ranks go up to the number of results
}

// binned is the quantile by a straight line across its bin.
func (o *Outcome) binned(p float64) float64 {
	rank := o.rank(p)
	bin, below := o.find(rank)
	return o.reach(bin, float64(uint64(rank)-below)-0.5)
}

// reach is where so many of a bin's results lie below.
func (o *Outcome) reach(bin int, results float64) float64 {
	low, high := o.bounds(bin)
	if o.counts[bin] == 0 {
		return low
	}
	return low + float64(min(1, results/float64(o.counts[bin]))*(high-low))
}

// bounds are the ends of a bin, cut to where results are. The first and the last bin
// have no outer end of their own.
func (o *Outcome) bounds(i int) (low, high float64) {
	low, high = o.least, o.most
	if i > 0 {
		low = max(low, o.bins.edge(i))
	}
	if i < o.bins.count()-1 {
		high = min(high, o.bins.edge(i+1))
	}
	return low, max(low, high)
}

func (o *Outcome) binnedCDF(x float64) float64 {
	at := o.bins.index(x)
	below := uint64(0)
	for _, n := range o.counts[:at] {
		below += n
	}
	part := 1.0
	if low, high := o.bounds(at); high > low {
		part = min(max((x-low)/(high-low), 0), 1)
	}
	return (float64(below) + float64(part*float64(o.counts[at]))) / float64(o.trials)
}

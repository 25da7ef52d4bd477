package measure

import (
	"fmt"
	"math"
	"slices"
)

// lane is one of a fixed number of interleaved sequences of blocks. Each draws
// from a stream of its own and is summed in order by one worker, and the lanes
// are added in order at the end, so that the result is the same however many
// workers there were.
type lane struct {
	n           float64
	sum, square float64 // of value - shift
	least, most float64
	err         *trialError
}

// trialError says which trial failed.
type trialError struct {
	trial int
	what  string
}

func (e *trialError) Error() string {
	return fmt.Sprintf("trial %d: %s; want a finite number from the model wherever its inputs can be", e.trial, e.what)
}

// runLane runs every lanes-th block from the l-th.
func (r *run) runLane(c *crew, l int, b *bench, counts []uint64) (failed *trialError) {
	block := l
	defer func() {
		if p := recover(); p != nil {
			failed = &trialError{block * blockTrials, "in its block the model or a draw panicked: " + quote(fmt.Sprint(p))}
		}
	}()
	r.plan.begin(b, l)
	for ; block < r.plan.blocks(); block += lanes {
		if c.ctx.Err() != nil {
			return nil
		}
		y, ok := r.plan.run(b, block)
		if !ok {
			return b.trialError(block)
		}
		r.lane[l].take(y, r.shift)
		if r.kept != nil {
			copy(r.kept[block*blockTrials:], y)
		} else {
			r.bins.take(counts, y)
		}
		c.tell(len(y))
	}
	return nil
}

func (b *bench) trialError(block int) *trialError {
	row := b.badRow[:min(len(b.badRow), 8)]
	return &trialError{block*blockTrials + b.bad, fmt.Sprintf("the model gives %v at %v", b.badValue, row)}
}

func (l *lane) take(y []float64, shift float64) {
	if l.n == 0 {
		l.least, l.most = y[0], y[0]
	}
	sum, square, least, most := l.sum, l.square, l.least, l.most
	for _, v := range y {
		d := v - shift
		sum += d
		square += float64(d * d)
		if v < least {
			least = v
		}
		if v > most {
			most = v
		}
	}
	l.sum, l.square, l.least, l.most = sum, square, least, most
	l.n += float64(len(y))
}

// pilot runs the first block on its own: the bins are laid out by it.
func (p *plan) pilot() (values []float64, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = &trialError{0, "in its block the model or a draw panicked: " + quote(fmt.Sprint(r))}
		}
	}()
	b := p.newBench()
	p.begin(b, 0)
	y, ok := p.run(b, 0)
	if !ok {
		return nil, b.trialError(0)
	}
	slices.Sort(y)
	return y, nil
}

// outcome adds up the lanes in order.
func (r *run) outcome() (*Outcome, error) {
	o := &Outcome{trials: r.plan.trials, bins: r.bins, counts: r.counts, kept: r.kept}
	n, sum, square := 0.0, 0.0, 0.0
	for i := range r.lane {
		l := &r.lane[i]
		if l.n == 0 {
			continue
		}
		if n == 0 {
			o.least, o.most = l.least, l.most
		}
		o.least, o.most = min(o.least, l.least), max(o.most, l.most)
		n, sum, square = n+l.n, sum+l.sum, square+l.square
	}
	offset := sum / n
	o.mean = r.shift + offset
	if n > 1 {
		o.u = math.Sqrt(max(0, square-float64(offset*sum)) / (n - 1))
	}
	if !finite(o.mean) || !finite(o.u) {
		return nil, fmt.Errorf("results with mean %v and standard deviation %v; want values whose squares are finite", o.mean, o.u)
	}
	return o, nil
}

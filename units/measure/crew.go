package measure

import (
	"context"
	"sync"
	"sync/atomic"
)

// run is a simulation under way.
type run struct {
	plan  *plan
	shift float64 // near every value, so that sums of squares lose no digits
	bins  bins
	lane  []lane
	kept  []float64

	mu     sync.Mutex // guards counts
	counts []uint64
}

// simulate shares the lanes among workers and waits for all of them.
func simulate(ctx context.Context, r *run, workers int, progress func(done, trials int)) error {
	ctx, cancel := context.WithCancel(ctx)
	var wait sync.WaitGroup
	defer wait.Wait()
	defer cancel() // runs first: a panic in progress must not leave workers behind
	c := crew{ctx: ctx, done: make(chan int), left: make(chan struct{}), report: progress != nil}
	c.working.Store(int64(workers))
	for range workers {
		wait.Add(1)
		go func() {
			defer wait.Done()
			r.work(&c)
		}()
	}
	for total := 0; ; {
		select {
		case n := <-c.done:
			total += n
			progress(total, r.plan.trials)
		case <-c.left:
			return r.verdict(ctx)
		}
	}
}

// crew is what the workers of one simulation share.
type crew struct {
	ctx           context.Context
	next, working atomic.Int64
	report        bool
	done          chan int      // trials of each block finished
	left          chan struct{} // closed by the last worker
}

// tell reports a block, unless nobody listens any more.
func (c *crew) tell(n int) {
	if !c.report {
		return
	}
	select {
	case c.done <- n:
	case <-c.ctx.Done():
	}
}

// work takes lanes until none is left.
func (r *run) work(c *crew) {
	defer func() {
		if c.working.Add(-1) == 0 {
			close(c.left)
		}
	}()
	var counts []uint64
	if r.kept == nil {
		counts = make([]uint64, r.bins.count())
	}
	b := r.plan.newBench()
	for l := int(c.next.Add(1)) - 1; l < lanes; l = int(c.next.Add(1)) - 1 {
		r.lane[l].err = r.runLane(c, l, b, counts)
	}
	r.merge(counts)
}

func (r *run) merge(counts []uint64) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.counts == nil {
		r.counts = counts
		return
	}
	for i, n := range counts {
		r.counts[i] += n
	}
}

// verdict is the error of the earliest trial that failed, whoever met it first.
func (r *run) verdict(ctx context.Context) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	var first *trialError
	for i := range r.lane {
		if e := r.lane[i].err; e != nil && (first == nil || e.trial < first.trial) {
			first = e
		}
	}
	if first != nil {
		return first
	}
	return nil
}

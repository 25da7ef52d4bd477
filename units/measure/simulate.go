package measure

import (
	"context"
	"errors"
	"fmt"
)

// Simulation is a formula to be tried many times with its inputs drawn at random
// from their causes (JCGM 101:2008).
type Simulation struct {
	Inputs []Input
	// Model is the formula; x holds the inputs in order and then the Draws, and
	// is the model's to scribble on but not to keep. With more than one worker
	// it is called by several goroutines at once.
	Model func(x []float64) float64
	// Draws are further inputs of the caller's own shape. They draw from the
	// stream they are given and from nothing else; with more than one worker
	// they are called by several goroutines at once.
	Draws []func(*Stream) float64
	// Trials is how many times, 1 to 2^30; 1e6 settles a 95 % interval to about
	// 0.3 % of the standard deviation (JCGM 101:2008 7.2).
	Trials int
	Seed   uint64
	// Workers is how many goroutines share the work, 1 to 64; 0 means 1. The result
	// is the same to the last bit whatever their number.
	Workers int
	// Keep every value, up to 2^24 of them, for quantiles that are order
	// statistics. Otherwise values are counted into fine bins, in memory that
	// does not grow with Trials; see Outcome.Resolution.
	Keep bool
	// Progress, if any, is told from the caller's goroutine how many trials are done.
	// It is no part of the formula: its panic stops the workers and goes to the caller.
	Progress func(done, trials int)
}

// Bounds of a simulation. lanes is also the most workers: sums are kept per lane, so
// that their order does not depend on who did the work.
const (
	mostTrials = 1 << 30
	mostKept   = 1 << 24
	lanes      = 64
)

// Simulate runs the trials and returns the distribution of the result. Shared
// causes are drawn once a trial and so stay shared. The same seed gives the same
// bits on every machine with any number of workers. No goroutine outlives the call.
//
// Cancelling ctx stops it within one block of 1024 trials a worker, with the
// context's error. A model that gives NaN, an infinity or a panic is an error
// that names the first such trial; so are inputs that are not valid and figures
// out of range.
func Simulate(ctx context.Context, s Simulation) (*Outcome, error) {
	o, err := s.run(ctx)
	if err != nil {
		return nil, fmt.Errorf("measure: simulate: %w", err)
	}
	return o, nil
}

func (s Simulation) run(ctx context.Context) (*Outcome, error) {
	if ctx == nil {
		return nil, errors.New("no context; want context.Background() at least")
	}
	if err := s.check(); err != nil {
		return nil, err
	}
	p := newPlan(s)
	pilot, err := p.pilot()
	if err != nil {
		return nil, err
	}
	r := &run{plan: p, shift: pilot[len(pilot)/2], lane: make([]lane, lanes)}
	if r.bins, err = newBins(pilot); err != nil {
		return nil, err
	}
	if s.Keep {
		r.kept = make([]float64, s.Trials)
	}
	if err := simulate(ctx, r, max(1, s.Workers), s.Progress); err != nil {
		return nil, err
	}
	return r.outcome()
}

func (s Simulation) check() error {
	faults := []error{checkInputs(s.Inputs), sameMeanings(s.Inputs)}
	if s.Model == nil {
		faults = append(faults, errors.New("no model; want a function of the inputs"))
	}
	for i, d := range s.Draws {
		if d == nil {
			faults = append(faults, fmt.Errorf("draw %d of %d is nil; want a function of a stream", i+1, len(s.Draws)))
		}
	}
	if s.Trials < 1 || s.Trials > mostTrials {
		faults = append(faults, fmt.Errorf("%d trials; want 1 to %d", s.Trials, mostTrials))
	}
	if s.Keep && s.Trials > mostKept {
		faults = append(faults, fmt.Errorf("%d values to keep; want at most %d, or Keep off", s.Trials, mostKept))
	}
	if s.Workers < 0 || s.Workers > lanes {
		faults = append(faults, fmt.Errorf("%d workers; want 1 to %d, or 0 for one", s.Workers, lanes))
	}
	return errors.Join(faults...)
}

// sameMeanings refuses inputs whose sum would be refused: one id, two meanings.
func sameMeanings(inputs []Input) error {
	var g gathering
	for _, in := range inputs {
		g.addAll(in.Of.doubt.terms, 1)
	}
	return g.fault
}

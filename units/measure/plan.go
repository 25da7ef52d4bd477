package measure

import (
	"cmp"
	"slices"
)

// blockTrials is how many trials are drawn at once, cause by cause; changing it
// changes every simulated result.
const blockTrials = 1024

// plan is a simulation laid out for speed: every cause once, with the inputs it
// enters, so that a draw is made once and added wherever it belongs.
type plan struct {
	seed      uint64
	trials    int
	estimates []float64 // one row: the inputs, then room for the caller's own draws
	causes    []drawn
	draws     []func(*Stream) float64
	model     func([]float64) float64
}

// drawn is one cause and where its draws go.
type drawn struct {
	cause *Cause
	into  []slot
}

type slot struct {
	column int
	scale  float64
}

func newPlan(s Simulation) *plan {
	p := &plan{seed: s.Seed, trials: s.Trials, draws: s.Draws, model: s.Model}
	p.estimates = append(estimates(s.Inputs), make([]float64, len(s.Draws))...)
	var uses []use
	for i, in := range s.Inputs {
		for _, t := range in.Of.doubt.terms {
			uses = append(uses, use{input: i, term: t})
		}
	}
	slices.SortStableFunc(uses, func(a, b use) int { return cmp.Compare(a.term.Cause.id, b.term.Cause.id) })
	for _, u := range uses {
		if n := len(p.causes); n == 0 || p.causes[n-1].cause.id != u.term.Cause.id {
			p.causes = append(p.causes, drawn{cause: u.term.Cause})
		}
		last := &p.causes[len(p.causes)-1]
		last.into = append(last.into, slot{u.input, u.term.Scale})
	}
	return p
}

// blocks is how many blocks the trials make; the last may be short.
func (p *plan) blocks() int { return (p.trials-1)/blockTrials + 1 }

// bench is what one worker needs to run a block, made once.
type bench struct {
	stream     Stream
	rows, z, y []float64
	// bad is where the model first gave no finite number: which row, and with what.
	bad      int
	badRow   []float64
	badValue float64
}

func (p *plan) newBench() *bench {
	return &bench{
		rows: make([]float64, blockTrials*len(p.estimates)), z: make([]float64, blockTrials), y: make([]float64, blockTrials), bad: -1,
	}
}

// begin starts the stream of a lane.
func (p *plan) begin(b *bench, lane int) { b.stream = *NewStream(p.seed, uint64(lane)) }

// run draws one block and returns the model's values, or false where one is not finite.
func (p *plan) run(b *bench, block int) ([]float64, bool) {
	n, before := min(blockTrials, p.trials-block*blockTrials), b.stream
	p.draw(b, n)
	y, width := b.y[:n], len(p.estimates)
	for t := range y {
		at := t * width
		y[t] = p.model(b.rows[at : at+width : at+width])
		if !finite(y[t]) {
			b.bad, b.badValue = t, y[t]
			b.stream = before
			p.draw(b, n) // again: the model may have scribbled on its row
			b.badRow = b.rows[at : at+width]
			return nil, false
		}
	}
	return y, true
}

func (p *plan) draw(b *bench, n int) {
	width := len(p.estimates)
	rows := b.rows[:n*width]
	for at := 0; at < len(rows); at += width {
		copy(rows[at:], p.estimates)
	}
	for _, d := range p.causes {
		d.cause.fill(b.z[:n], &b.stream)
		for _, to := range d.into {
			add(rows, b.z[:n], to, width)
		}
	}
	first := width - len(p.draws)
	for t := range n {
		for i, draw := range p.draws {
			rows[t*width+first+i] = draw(&b.stream)
		}
	}
}

// add puts scale·z into one column of the rows.
func add(rows, z []float64, to slot, width int) {
	at := to.column
	for _, v := range z {
		rows[at] += float64(to.scale * v)
		at += width
	}
}

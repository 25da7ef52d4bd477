package exchange

import (
	"math"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
)

// estimatePoint is a reading that counts.
type estimatePoint struct {
	marker  float64 // new fluid subtracted
	weight  float64
	drained int // drains before it
}

// estimateFit fits ln(marker) = start + x(step), where x is the sum over the
// drains before of ln(1 - d/C) and step = -ln(1 - mean/C): for equal drains a
// straight line in the number of drains.
type estimateFit struct {
	m      Markers
	mean   units.Volume
	ratios []float64 // drain/mean
	points []estimatePoint
	start  float64
	step   float64
	// At each point, for the current start and step:
	x, slope  []float64 // x and its derivative by step
	off       []float64 // residual of ln(marker), or what stands for it
	weights   []float64 // of off
	sum       float64   // of weights
	slopeMean float64
	spread    float64 // Σ weights·(slope - mean)²
	squares   float64 // Σ weights·off²
}

func estimateNewFit(m Markers) *estimateFit {
	f := &estimateFit{m: m}
	total := units.Volume{}
	for _, d := range m.Drains {
		total = total.Add(d)
	}
	f.mean = total.Scale(1 / float64(len(m.Drains)))
	for i, d := range m.Drains {
		f.ratios = append(f.ratios, d.Ratio(f.mean))
		if w := m.weight(i); w > 0 {
			f.points = append(f.points, estimatePoint{m.Readings[i] - m.Fresh, w, i})
		}
	}
	return f
}

// place works out everything that depends on start and step. It is false
// where some drain would be more than the capacity.
func (f *estimateFit) place(start, step float64) bool {
	f.start, f.step = start, step
	x, slope, ok := f.curve(len(f.ratios))
	if !ok {
		return false
	}
	f.x, f.slope, f.off, f.weights = f.x[:0], f.slope[:0], f.off[:0], f.weights[:0]
	f.sum, f.slopeMean, f.spread, f.squares = 0, 0, 0, 0
	for _, p := range f.points {
		line := start + x[p.drained]
		off, w := elementary.Log(p.marker)-line, p.weight
		if f.m.Noise == AbsoluteNoise {
			// The residual of the marker itself, in proportion to the fit, weighted by
			// the fit squared: the same normal equations serve both kinds of noise.
			fit := elementary.Exp(line)
			off, w = p.marker/fit-1, float64(w*float64(fit*fit))
		}
		f.x = append(f.x, x[p.drained])
		f.slope = append(f.slope, slope[p.drained])
		f.off = append(f.off, off)
		f.weights = append(f.weights, w)
		f.sum += w
		f.slopeMean += float64(w * slope[p.drained])
		f.squares += float64(w * float64(off*off))
	}
	f.slopeMean /= f.sum
	for i, w := range f.weights {
		d := f.slope[i] - f.slopeMean
		f.spread += float64(w * float64(d*d))
	}
	return f.sum > 0 && f.sum <= math.MaxFloat64 && f.squares <= math.MaxFloat64
}

// curve returns x and its slope before each of n drains; drains past those
// taken are of mean volume.
func (f *estimateFit) curve(n int) (x, slope []float64, ok bool) {
	share := -elementary.Expm1(-f.step) // mean/C
	rest := elementary.Exp(-f.step)
	x, slope = make([]float64, n), make([]float64, n)
	for k := 1; k < n; k++ {
		ratio := 1.0
		if k <= len(f.ratios) {
			ratio = f.ratios[k-1]
		}
		left := 1 - float64(ratio*share)
		if !(left > 0) {
			return nil, nil, false
		}
		x[k] = x[k-1] + elementary.Log1p(-float64(ratio*share))
		slope[k] = slope[k-1] - float64(ratio*rest)/left
	}
	return x, slope, true
}

// solve finds start and step by Gauss-Newton with halved steps; for equal
// drains and relative noise the first step is already exact.
func (f *estimateFit) solve() error {
	if err := f.begin(); err != nil {
		return err
	}
	for range 200 {
		start, step, squares := f.start, f.step, f.squares
		dStart, dStep := f.improve()
		for half := 0; ; half++ {
			if f.place(start+dStart, step+dStep) && f.squares <= squares {
				break
			}
			if half == 60 {
				f.place(start, step) // no better point in reach: the last one stands
				return f.settled(dStart, dStep)
			}
			dStart, dStep = dStart/2, dStep/2
		}
		if math.Abs(dStep) <= 1e-14*max(1, math.Abs(step)) && math.Abs(dStart) <= 1e-14*max(1, math.Abs(start)) {
			return nil
		}
	}
	return f.settled(f.improve())
}

// begin starts from the level line: it lies in range for any drains.
func (f *estimateFit) begin() error {
	if !f.place(elementary.Log(f.points[0].marker), 0) || f.spread <= 0 {
		return &UnsettledError{Reason: "the weights leave nothing to fit; want readings before and after a drain, of like weight", More: -1}
	}
	return nil
}

// improve is one Gauss-Newton step.
func (f *estimateFit) improve() (dStart, dStep float64) {
	offMean, product := 0.0, 0.0
	for i, w := range f.weights {
		offMean += float64(w * f.off[i])
	}
	offMean /= f.sum
	for i, w := range f.weights {
		product += float64(w * float64((f.slope[i]-f.slopeMean)*(f.off[i]-offMean)))
	}
	if f.spread <= 0 {
		return offMean, 0
	}
	dStep = product / f.spread
	return offMean - float64(dStep*f.slopeMean), dStep
}

// settled accepts a last step that is within rounding of none.
func (f *estimateFit) settled(dStart, dStep float64) error {
	const slack = 1e-7
	if math.Abs(dStep) <= slack*max(1, math.Abs(f.step)) && math.Abs(dStart) <= slack*max(1, math.Abs(f.start)) {
		return nil
	}
	return &UnsettledError{Reason: "the fit does not settle; want readings that fall from drain to drain", More: -1}
}

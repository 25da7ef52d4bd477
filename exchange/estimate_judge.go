package exchange

import (
	"fmt"
	"math"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
)

// estimate judges the fit and turns it into a capacity.
func (f *estimateFit) estimate() (CapacityEstimate, error) {
	e := CapacityEstimate{Start: elementary.Exp(f.start), Step: f.step}
	e.Scatter, e.DoF = f.scatter(f.squares, len(f.points)-2)
	slopeU := 1 / math.Sqrt(f.spread)
	e.StepU = e.Scatter * slopeU
	startU := math.Sqrt(1/f.sum + float64(f.slopeMean*f.slopeMean)/f.spread)
	e.StartU = e.Start * e.Scatter * startU
	factor := estimateFactor(e.DoF)
	if e.Step <= 0 || e.Step <= factor*e.StepU {
		return e, f.refuseSlope(e, factor)
	}
	dof := f.bend(&e)
	if e.Straightness == StepsShrink && e.Curvature > estimateFactor(dof)*e.CurvatureU {
		return e, &UnsettledError{More: -1, Reason: fmt.Sprintf(
			"the steps of the marker shrink by %.3g ± %.2g a drain: the box does not mix fully and the law would give too small a capacity; run the gears longer between drains, or take the capacity from the procedure",
			e.Curvature, e.CurvatureU)}
	}
	return f.capacity(e, factor)
}

// capacity fills in what follows from the step.
func (f *estimateFit) capacity(e CapacityEstimate, factor float64) (CapacityEstimate, error) {
	e.Capacity = f.capacityAt(e.Step)
	relative := estimateRelative(e.Step) * e.StepU
	e.U = e.Capacity.Scale(relative)
	e.Low = f.capacityAt(e.Step + float64(factor*e.StepU))
	for _, d := range f.m.Drains[:len(f.m.Drains)-1] {
		if e.Low.Compare(d) < 0 {
			e.Low = d // a box holds what came out of it
		}
	}
	if least := e.Step - float64(factor*e.StepU); least > 0 {
		if high := f.capacityAt(least); high.Valid() {
			e.High = high
		}
	}
	if !e.Capacity.Valid() || !e.U.Valid() || e.Capacity.Compare(units.Litre.Of(systemMostLitres)) > 0 {
		return e, &UnsettledError{More: -1, Reason: fmt.Sprintf("the marker falls so little that the capacity would be past %d L; want larger drains or a better marker", systemMostLitres)}
	}
	e.More = f.more(e, func(_ int, stepU float64) bool {
		return estimateRelative(e.Step)*stepU <= f.wanted()
	})
	e.Notes = f.notes(e)
	return e, nil
}

// capacityAt is mean/(1 - exp(-step)).
func (f *estimateFit) capacityAt(step float64) units.Volume {
	return f.mean.Scale(1 / -elementary.Expm1(-step))
}

// estimateRelative is |dC/dstep|/C.
func estimateRelative(step float64) float64 {
	return elementary.Exp(-step) / -elementary.Expm1(-step)
}

// estimateFactor is the half-width of a 95 % interval in standard errors; no
// degrees of freedom stand for no end of them.
func estimateFactor(dof float64) float64 {
	if dof == 0 {
		return elementary.NormalQuantile(estimateConfidence)
	}
	return elementary.StudentQuantile(estimateConfidence, dof)
}

// scatter is the standard deviation of a reading of weight 1: from the
// residuals, or as known where that is larger.
func (f *estimateFit) scatter(squares float64, dof int) (s, count float64) {
	if dof > 0 {
		s = math.Sqrt(squares / float64(dof))
	}
	if f.m.ReadingU > 0 && f.m.ReadingU >= s {
		return f.m.ReadingU, 0
	}
	return s, float64(dof)
}

func (f *estimateFit) refuseSlope(e CapacityEstimate, factor float64) error {
	if e.Step <= 0 {
		return &UnsettledError{Reason: fmt.Sprintf("the marker does not fall: step %.3g; want readings that fall from drain to drain", e.Step), More: -1}
	}
	more := f.more(e, func(points int, stepU float64) bool {
		dof := e.DoF
		if dof > 0 {
			dof = float64(points - 2)
		}
		return e.Step > estimateFactor(dof)*stepU
	})
	return &UnsettledError{Reason: fmt.Sprintf("the slope is within its error of 0: step %.3g ± %.2g", e.Step, factor*e.StepU), More: more}
}

func (f *estimateFit) wanted() float64 {
	if f.m.Wanted == 0 {
		return estimateWanted
	}
	return f.m.Wanted
}

// more is the fewest further samples, of the same scatter, that satisfy enough
// when the fit stays as it is; -1 where none up to 200 do.
func (f *estimateFit) more(e CapacityEstimate, enough func(points int, stepU float64) bool) int {
	n := len(f.ratios)
	x, slope, ok := f.curve(n + estimateMostMore)
	if !ok || f.spread <= 0 {
		return -1
	}
	weight := 0.0
	for _, p := range f.points {
		weight += p.weight
	}
	weight /= float64(len(f.points))
	sum, mean, spread := f.sum, f.slopeMean, f.spread
	for k := 0; ; k++ {
		if enough(len(f.points)+k, e.Scatter/math.Sqrt(spread)) {
			return k
		}
		if k == estimateMostMore {
			return -1
		}
		w := weight
		if f.m.Noise == AbsoluteNoise {
			fit := elementary.Exp(f.start + x[n+k])
			w = float64(w * float64(fit*fit))
		}
		// The spread about the mean, one point more.
		d := slope[n+k] - mean
		spread += float64(float64(w*sum) / (sum + w) * float64(d*d))
		mean += float64(d*w) / (sum + w)
		sum += w
	}
}

// bend fits what the line leaves over by the square of the number of drains. It
// returns the degrees of freedom of that.
func (f *estimateFit) bend(e *CapacityEstimate) (dof float64) {
	if len(f.points) < 3 {
		return 0
	}
	q := f.square()
	left, along := 0.0, 0.0
	for i, w := range f.weights {
		left += float64(w * float64(q[i]*q[i]))
		along += float64(w * float64(q[i]*f.off[i]))
	}
	if !(left > 1e-12*f.sum) {
		return 0 // no room for a bend: all readings at two places
	}
	square := along / left
	e.Curvature = 2 * square // second difference of ln(marker)
	if f.m.ReadingU == 0 && len(f.points) < 4 {
		return 0 // three readings bend as they like
	}
	// With a known reading error, what even a bent line leaves over is no noise
	// to hide the bend behind.
	s, dof := f.m.ReadingU, 0.0
	if s == 0 {
		s, dof = f.scatter(max(f.squares-float64(square*along), 0), len(f.points)-3)
	}
	e.CurvatureU = 2 * s / math.Sqrt(left)
	e.Straightness = Straight
	if size := math.Abs(e.Curvature); size > estimateBend*e.Step && size > e.CurvatureU {
		e.Straightness = StepsShrink
		if e.Curvature < 0 {
			e.Straightness = StepsGrow
		}
	}
	return dof
}

// square is the square of the drains before each point, less what start and
// step could take up of it.
func (f *estimateFit) square() []float64 {
	q := make([]float64, len(f.points))
	mean, along := 0.0, 0.0
	for i, w := range f.weights {
		q[i] = float64(f.slope[i] * f.slope[i])
		mean += float64(w * q[i])
	}
	mean /= f.sum
	for i, w := range f.weights {
		along += float64(w * float64((f.slope[i]-f.slopeMean)*(q[i]-mean)))
	}
	along /= f.spread
	for i := range q {
		q[i] -= mean + float64(along*(f.slope[i]-f.slopeMean))
	}
	return q
}

func (f *estimateFit) notes(e CapacityEstimate) []string {
	notes := []string{"The law is for full mixing: run the gears between drains. With incomplete mixing the capacity comes out too small."}
	share := 100 * math.Abs(e.Curvature) / e.Step
	switch e.Straightness {
	case StepsShrink:
		notes = append(notes, fmt.Sprintf("The steps of the marker shrink by %.0f %% a drain: incomplete mixing is likely; take the capacity as a lower bound.", share))
	case StepsGrow:
		notes = append(notes, fmt.Sprintf("The steps of the marker grow by %.0f %% a drain, which incomplete mixing does not do: check the reading of new fluid and the volumes.", share))
	case StraightnessUnknown:
		notes = append(notes, "Too few readings to see a bend: incomplete mixing would not show.")
	}
	switch {
	case e.More > 0:
		notes = append(notes, fmt.Sprintf("About %s would bring the standard error to %.2g %%.", estimateSamples(e.More), 100*f.wanted()))
	case e.More < 0:
		notes = append(notes, fmt.Sprintf("No number of further samples would bring the standard error to %.2g %%: want a better marker.", 100*f.wanted()))
	}
	return notes
}

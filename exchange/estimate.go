package exchange

import (
	"errors"
	"fmt"
	"math"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
)

// Noise says how a marker's reading error behaves.
type Noise uint8

const (
	// RelativeNoise is an error in proportion to the reading, as of most
	// concentrations: the fit is of ln(marker). It is the zero value.
	RelativeNoise Noise = iota
	// AbsoluteNoise is an error of the same size for every reading, as of a
	// colour index read off a scale: the fit is of the marker itself.
	AbsoluteNoise
)

// Markers are readings of one property of the fluid in successive drained
// samples: dye, wear metal, colour against a calibrated scale; anything that is
// linear in the share of old fluid.
type Markers struct {
	// Readings holds one for each drain, in order, in any one unit. A sample
	// shows the share before its own drain. 2 to 1000.
	Readings []float64
	// Drains holds the volume of each of those drains, refilled with new fluid
	// each time. The last one does not matter.
	Drains []units.Volume
	// Weights of the readings, relative to each other; nil is equal weights. A
	// reading of weight zero counts for nothing and may be missing (any number).
	Weights []float64
	// Fresh is what new fluid reads; it is subtracted.
	Fresh float64
	Noise Noise
	// ReadingU is the standard uncertainty of one reading of weight 1, where it
	// is known: a share of it for RelativeNoise, in its unit for AbsoluteNoise.
	// Zero: taken from the residuals. The larger of the two counts.
	ReadingU float64
	// Wanted is the relative standard error of the capacity at which it counts
	// as settled; zero is 0.05.
	Wanted float64
}

// Straightness is whether the fall of the marker shows the box to mix fully.
type Straightness uint8

const (
	// StraightnessUnknown: three readings cannot show a bend, unless the
	// uncertainty of a reading is known.
	StraightnessUnknown Straightness = iota
	// Straight: no bend to speak of beside its error.
	Straight
	// StepsShrink: the steps of ln(marker) shrink from drain to drain by more
	// than a twentieth of a step and more than their error: incomplete mixing is
	// likely, and the capacity then comes out too small.
	StepsShrink
	// StepsGrow: they grow as much, which incomplete mixing does not do: look for
	// a wrong reading of new fluid, or a wrong volume.
	StepsGrow
)

// String returns "unknown", "straight", "steps shrink" or "steps grow".
func (s Straightness) String() string {
	switch s {
	case Straight:
		return "straight"
	case StepsShrink:
		return "steps shrink"
	case StepsGrow:
		return "steps grow"
	}
	return "unknown"
}

// MarshalText returns String; a value that is none of them is an error.
func (s Straightness) MarshalText() ([]byte, error) {
	if s > StepsGrow {
		return nil, fmt.Errorf("exchange: straightness %d; want 0 to %d", uint8(s), uint8(StepsGrow))
	}
	return []byte(s.String()), nil
}

// CapacityEstimate is a capacity worked out from markers. Standard errors are
// one standard deviation.
type CapacityEstimate struct {
	Capacity  units.Volume
	U         units.Volume // standard error of Capacity
	Low, High units.Volume // ends of its 95 % interval; High zero: no upper end
	// Start and Step are the fitted line: the marker began at Start, new fluid
	// subtracted, and its logarithm falls by Step for a drain of mean volume.
	Start, StartU float64
	Step, StepU   float64
	DoF           float64 // degrees of freedom; 0: no end of them, where ReadingU counts
	Scatter       float64 // standard deviation of a reading of weight 1, as ReadingU
	// Curvature is how much the step shrinks from one drain to the next.
	Curvature, CurvatureU float64
	Straightness          Straightness
	More                  int // further samples for the wanted error; 0: settled; -1: no number does
	Notes                 []string
	Steps                 working.Steps
}

// UnsettledError is what markers are refused with that cannot say a capacity.
type UnsettledError struct {
	Reason string
	More   int // further samples that would settle it; -1: no number does, or not known
}

// Error returns the reason and what would help.
func (e *UnsettledError) Error() string {
	switch {
	case e == nil:
		return "exchange: estimate: unsettled"
	case e.More > 0:
		return fmt.Sprintf("exchange: estimate: %s; about %s would settle it", e.Reason, estimateSamples(e.More))
	}
	return "exchange: estimate: " + e.Reason
}

func estimateSamples(n int) string {
	if n == 1 {
		return "1 more sample"
	}
	return fmt.Sprintf("%d more samples", n)
}

// EstimateCapacity returns the capacity of a box from a marker in successive
// drained samples. In a fully mixing box the marker falls by the factor
// 1 - d/C with each drain, so the slope of ln(marker) against the number of
// drains gives C; drains of unlike volumes each count with their own. The fit
// is weighted least squares; the standard errors come from the residuals.
//
// It refuses, with an *UnsettledError, what the readings cannot say: a marker
// that does not fall, a slope within its error of 0 (at 95 %), a bend shown at
// 95 % (the box does not mix fully, so the law would come out biased). A bend
// suspected but not shown is a note: the law is for full mixing only, and with
// incomplete mixing the capacity comes out too small. Malformed input is an
// error naming every fault.
//
// Checked against a published exponential fit (Boomer homework 2, 2001); two
// standard errors printed there count a point of weight zero and are not met.
func EstimateCapacity(m Markers) (CapacityEstimate, error) {
	if err := m.check(); err != nil {
		return CapacityEstimate{}, err
	}
	f := estimateNewFit(m)
	if err := f.solve(); err != nil {
		return CapacityEstimate{}, err
	}
	e, err := f.estimate()
	if err != nil {
		return CapacityEstimate{}, err
	}
	e.Steps = f.steps(e)
	return e, nil
}

// Measured returns the estimate as a reading with a cause of doubt of its own,
// normal, or Student's t where the error came from the residuals: to carry
// through a plan or a budget. The id names that cause, one estimate, one id; a
// bad id is an error, and so is an uncertainty below zero or out of range.
func (e CapacityEstimate) Measured(id string) (measure.Volume, error) {
	if !e.U.Valid() || e.U.Sign() < 0 {
		return measure.Volume{}, fmt.Errorf("exchange: estimate: standard uncertainty %s; want zero or more, as EstimateCapacity gives it", e.U)
	}
	if e.U.IsZero() {
		return measure.MeasuredExactly(e.Capacity), nil
	}
	shape := measure.Normal
	if e.DoF > 0 {
		shape = measure.Student
	}
	cause, err := measure.NewCause(id, "capacity from markers", shape, e.DoF)
	if err != nil {
		return measure.Volume{}, fmt.Errorf("exchange: estimate: %w", err)
	}
	return measure.NewMeasured(e.Capacity, measure.Term{Cause: cause, Scale: e.U.In(units.Litre)})
}

const (
	estimateMostReadings = 1000
	estimateWanted       = 0.05
	estimateConfidence   = 0.975 // one tail of 95 %
	estimateBend         = 0.05  // of a step; our judgement
	estimateMostMore     = 200
)

func (m Markers) check() error {
	n := len(m.Readings)
	if n < 2 || n > estimateMostReadings || len(m.Drains) != n || (m.Weights != nil && len(m.Weights) != n) {
		return fmt.Errorf("exchange: estimate: %d readings, %d drains, %d weights; want 2 to %d readings, a drain for each, and a weight for each or none at all",
			n, len(m.Drains), len(m.Weights), estimateMostReadings)
	}
	var faults []error
	counted := 0
	for i := range n {
		faults = append(faults, m.checkAt(i))
		if m.weight(i) > 0 {
			counted++
		}
	}
	for _, c := range [...]struct {
		name string
		x    float64
	}{{"reading uncertainty", m.ReadingU}, {"wanted relative error", m.Wanted}} {
		if !scheduleWithin(c.x, 1e12) {
			faults = append(faults, fmt.Errorf("exchange: estimate: %s %g; want 0 or more", c.name, c.x))
		}
	}
	if !(math.Abs(m.Fresh) <= 1e12) || m.Noise > AbsoluteNoise {
		faults = append(faults, fmt.Errorf("exchange: estimate: new fluid reads %g with noise kind %d; want a number up to 1e12 and kind 0 or 1", m.Fresh, m.Noise))
	}
	if counted < 2 || counted == 2 && m.ReadingU == 0 {
		faults = append(faults, fmt.Errorf("exchange: estimate: %d readings that count; want 3, or 2 with a known reading uncertainty", counted))
	}
	return errors.Join(faults...)
}

func (m Markers) checkAt(i int) error {
	var faults []error
	if d := m.Drains[i]; !d.Valid() || d.Sign() <= 0 || d.Compare(units.Litre.Of(systemMostLitres)) > 0 {
		faults = append(faults, fmt.Errorf("exchange: estimate: drain %d is %s; want above 0, at most %d L", i+1, d, systemMostLitres))
	}
	w := m.weight(i)
	if !scheduleWithin(w, 1e12) {
		faults = append(faults, fmt.Errorf("exchange: estimate: weight %d is %g; want 0 to 1e12", i+1, w))
	}
	if c := m.Readings[i] - m.Fresh; w > 0 && !(c > 0 && c <= 1e12) {
		faults = append(faults, fmt.Errorf("exchange: estimate: reading %d is %g above new fluid; want above 0, at most 1e12", i+1, c))
	}
	return errors.Join(faults...)
}

func (m Markers) weight(i int) float64 {
	if m.Weights == nil {
		return 1
	}
	return m.Weights[i]
}

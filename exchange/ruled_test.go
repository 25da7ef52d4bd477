package exchange

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// Causes without a fourth moment rule an interval from a thousandth of the variance
// on: with A = Σ scale/(C - d) over the drains of a cause, ΣA² of those against ΣA² of
// all, worked out here drain by drain.
func TestUnrulyCausesRuleFromAThousandth(t *testing.T) {
	cause := func(id string, shape measure.Shape, dof float64) *measure.Cause {
		c, err := measure.NewCause(id, id, shape, dof)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	causes := []*measure.Cause{
		cause("clean1", measure.Normal, 0), cause("clean2", measure.Rectangular, 0),
		cause("heavy1", measure.Student, 3), cause("heavy2", measure.Student, 4),
	}
	drains := []float64{2, 4, 1}
	r := rand.New(rand.NewPCG(71, 72))
	for i := range 200 {
		scales := make([][3]float64, len(causes))
		squares := make([]float64, len(causes))
		for j := range causes {
			a := 0.0
			for k, d := range drains {
				scales[j][k] = 1e-3 * (0.2 + r.Float64())
				a += scales[j][k] / (8 - d)
			}
			squares[j] = a * a
		}
		// The heavy ones together at just over, or just under, a thousandth of all.
		part := []float64{0.00101, 0.00099}[i%2]
		shrink := math.Sqrt(part / (1 - part) * (squares[0] + squares[1]) / (squares[2] + squares[3]))
		s := MeasuredService{Capacity: units.Exactly(units.Litre.Of(8))}
		for k, d := range drains {
			var terms []measure.Term
			for j, c := range causes {
				scale := scales[j][k]
				if j >= 2 {
					scale *= shrink
				}
				terms = append(terms, measure.Term{Cause: c, Scale: scale})
			}
			reading, err := measure.New(d, terms...)
			if err != nil {
				t.Fatal(err)
			}
			v, err := measure.MeasuredFrom[units.VolumeDim](reading)
			if err != nil {
				t.Fatal(err)
			}
			s.Drains = append(s.Drains, v)
		}
		m, err := newIntervalModel(s)
		if err != nil || m.unruly != (part > 0.001) {
			t.Errorf("case %d: %v of the variance: ruled %v, %v", i, part, m.unruly, err)
		}
	}
}

package units

import (
	"testing"
)

func TestRangeProperties(t *testing.T) {
	ticks := manyTicks(60)
	for _, a := range ticks {
		for _, b := range ticks {
			p, q := fromTicks[LengthDim](a), fromTicks[LengthDim](b)
			r, err := NewRange(p, q)
			if (err == nil) != (a <= b) {
				t.Fatalf("range %d to %d: error %v", a, b, err)
			}
			if err != nil {
				continue
			}
			if !r.Contains(p) || !r.Contains(q) || !r.Contains(r.Mid()) || r.Contains(q.Add(fromTicks[LengthDim](1))) || r.Contains(p.Sub(fromTicks[LengthDim](1))) {
				t.Fatalf("range %d to %d does not hold its ends or its middle, or holds a neighbour", a, b)
			}
			if w := r.Width(); w.Valid() && p.Add(w) != q {
				t.Fatalf("range %d to %d has width %v", a, b, w)
			}
		}
	}
	if !(Range[VolumeDim]{}).IsZero() || !Exactly(Volume{}).IsZero() || Exactly(Litre.Of(1)).IsZero() {
		t.Error("the zero range is not zero")
	}
	widest := Range[VolumeDim]{fromTicks[VolumeDim](-maxTicks), fromTicks[VolumeDim](maxTicks)}
	if !widest.Mid().IsZero() || widest.Width().Valid() {
		t.Errorf("the widest range has middle %v, width %v", widest.Mid(), widest.Width())
	}
}

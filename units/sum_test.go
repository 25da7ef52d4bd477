package units

import (
	"errors"
	"testing"
)

func TestSumNeedsOnlyItsTotalInRange(t *testing.T) {
	top, one := fromTicks[VolumeDim](maxTicks), fromTicks[VolumeDim](1)
	if got := Sum(top, one, one.Neg()); got != top {
		t.Errorf("the sums on the way spoil the total: %v", got)
	}
	if got := Sum(top, one); got.Valid() {
		t.Errorf("past the top: %v", got)
	}
	if got := Sum(top, top, top, top); got.Valid() {
		t.Errorf("far past the top: %v", got)
	}
	if got := Sum(top.Neg(), one.Neg()); got.Valid() {
		t.Errorf("past the bottom: %v", got)
	}
	if got := Sum[VolumeDim](); got != (Volume{}) {
		t.Errorf("nothing sums to %v", got)
	}
	many := make([]Volume, 1000)
	for i := range many {
		many[i] = top
	}
	if got, err := Mean(many...); err != nil || got != top {
		t.Errorf("mean of 1000 equal volumes is %v, %v", got, err)
	}
}

func TestMeanTies(t *testing.T) {
	for _, c := range []struct{ a, b, want int64 }{{1, 2, 2}, {2, 3, 2}, {-1, -2, -2}, {-2, -3, -2}, {-1, 2, 0}, {0, 1, 0}, {-1, 0, 0}} {
		got, err := Mean(fromTicks[MassDim](c.a), fromTicks[MassDim](c.b))
		if err != nil || got.ticks != c.want {
			t.Errorf("mean of %d and %d ticks is %d, %v; want %d", c.a, c.b, got.ticks, err, c.want)
		}
	}
}

func TestMeanErrors(t *testing.T) {
	if _, err := Mean[VolumeDim](); err == nil || err.Error() != "units: mean of no volume; want at least one" {
		t.Errorf("no volumes: %v", err)
	}
	_, err := Mean(Litre.Of(1), Litre.Of(1e9))
	if !errors.Is(err, ErrOutOfRange) || err.Error() != "units: mean of 2: volume 2 is out of range; want valid ones" {
		t.Errorf("out of range: %v", err)
	}
}

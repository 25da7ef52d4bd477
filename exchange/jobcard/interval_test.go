package jobcard

import (
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/units"
)

// The reference service: five drains of 2.4 L, normal with 0.05 L, capacity
// uniform from 11.36 to 14.2 L: 95 % interval 0.3070 to 0.3953 (computed by an
// independent quadrature, uncertainty_vectors EXCH-ref). On a card the drains
// carry rectangular limits, ± 0.05·√3 L, and what they lack is not put back: the
// capacity's part, 0.98 of the doubt, makes the same interval to some 1e-3.
func TestOldShareIntervalAgainstTheReference(t *testing.T) {
	s := simple(12)
	s.Capacity, _ = units.NewRange(litres(11.36), litres(14.2))
	entries := []Entry{FillPlug(at(0), "")}
	for i := range 5 {
		out := plain(2.4)
		out.PlusMinus = litres(0.0866)
		entries = append(entries, DrainOf(at(3*i+1), out), RefillOf(at(3*i+2), plain(2.4)), GearRuns(at(3*i+3), 1))
	}
	got, err := fill(t, s, entries...).OldShareInterval()
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(got.Low-0.306968) > 1e-3 || math.Abs(got.High-0.395287) > 1e-3 {
		t.Errorf("%+v", got)
	}
	if got.CapacityShare < 0.95 {
		t.Errorf("the capacity is %v of the doubt, want about 0.98", got.CapacityShare)
	}
	if _, err := fill(t, s).OldShareInterval(); err == nil {
		t.Error("an interval without a drain")
	}
}

func ExampleCard_OldShareInterval() {
	s := simple(10)
	s.Capacity, _ = units.NewRange(litres(9), litres(11))
	card, _ := Open(s)
	for _, e := range []Entry{FillPlug(at(0), ""), DrainOf(at(1), plain(2)), RefillOf(at(2), plain(2))} {
		_ = card.Append(e)
	}
	got, _ := card.OldShareInterval()
	fmt.Printf("%.3f to %.3f\n", got.Low, got.High)
	// Output: 0.779 to 0.817
}

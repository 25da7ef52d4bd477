package exchange

import (
	"testing"

	"example.com/meniscus/units"
)

// 1 - 0.25^(1/2) = 0.5: half of 8 L, and the box of which 3 L is half.
func TestInverseSteps(t *testing.T) {
	s, err := DrainForSteps(0.25, units.Litre.Of(8), 2)
	const share = "share each drain must take = t = 1 - target^(1/n) = 1 - 0.2500^(1/2) = 0.5000\n"
	if want := share + "drain = C·t = 8.000 L × 0.5000 = 4.000 L\n"; err != nil || s.Text() != want {
		t.Errorf("%v, got\n%swant\n%s", err, s.Text(), want)
	}
	s, err = CapacityForSteps(0.25, units.Litre.Of(3), 2)
	if want := share + "largest capacity = d/t = 3.000 L / 0.5000 = 6.000 L\n"; err != nil || s.Text() != want {
		t.Errorf("%v, got\n%swant\n%s", err, s.Text(), want)
	}
	if s, err := DrainForSteps(2, units.Litre.Of(8), 2); s != nil || err == nil {
		t.Errorf("target 2: %v, %v", s, err)
	}
	if s, err := CapacityForSteps(1, units.Litre.Of(8), 2); s != nil || err == nil {
		t.Errorf("target 1: %v, %v", s, err)
	}
}

package exchange

import (
	"errors"
	"strconv"
	"strings"
	"testing"

	"example.com/meniscus/units"
)

// 0.8³ = 0.512 still misses half, 0.8⁴ = 0.4096 meets it; ln 0.5/ln 0.8 = 3.106.
func TestCyclesSteps(t *testing.T) {
	s, err := CyclesSteps(0.5, units.Litre.Of(10), units.Litre.Of(2))
	if err != nil {
		t.Fatal(err)
	}
	const want = "factor of one cycle = 1 - d/C = 1 - 2.000 L / 10.000 L = 0.8000\n" +
		"cycles, whole or not = ln(target)/ln(1 - d/C) = ln(0.5000)/ln(0.8000) = 3.106\n" +
		"old share after 3 = (1 - d/C)^n = 0.8000^3 = 0.5120 against 0.5000\n" +
		"old share after 4 = (1 - d/C)^n = 0.8000^4 = 0.4096 against 0.5000\n" +
		"cycles = fewest whole number that meets the target = 4\n"
	if got := s.Text(); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

// The working ends in the number that Cycles gives, whatever the box, and shows a
// share on either side of the target.
func TestCyclesStepsAgreesWithCycles(t *testing.T) {
	for _, target := range []float64{1, 0.9, 0.5, 0.25, 0.1, 0.01} {
		for drain := 0.5; drain <= 10; drain += 0.5 {
			c, d := units.Litre.Of(10), units.Litre.Of(drain)
			n, err := Cycles(target, c, d)
			s, stepsErr := CyclesSteps(target, c, d)
			if err != nil || stepsErr != nil {
				t.Fatal(target, drain, err, stepsErr)
			}
			if last := s[len(s)-1].Result; last != strconv.Itoa(n) {
				t.Errorf("target %g, drain %g L: working ends in %s, Cycles says %d", target, drain, last, n)
			}
			if emptied, shown := drain == 10, strings.Contains(s.Text(), "ln("); shown != (!emptied || target == 1) {
				t.Errorf("target %g, drain %g L: logarithm of no share left is shown, or a good one is not:\n%s", target, drain, s.Text())
			}
		}
	}
}

func TestCyclesStepsRefuses(t *testing.T) {
	if s, err := CyclesSteps(0, units.Litre.Of(10), units.Litre.Of(2)); s != nil || !errors.Is(err, ErrCannotMeet) {
		t.Errorf("%v, %v", s, err)
	}
	if s, err := CyclesSteps(0.5, units.Litre.Of(10), units.Litre.Of(12)); s != nil || err == nil {
		t.Errorf("%v, %v", s, err)
	}
}

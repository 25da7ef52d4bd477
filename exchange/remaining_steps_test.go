package exchange

import (
	"strings"
	"testing"
)

func TestRemainingSteps(t *testing.T) {
	sys := System{Capacity: dilutionLitres(8)}
	ds := dilutionList(2, 2)
	s, err := RemainingSteps(sys, ds)
	if err != nil {
		t.Fatal(err)
	}
	const one = "old share after drain 1 = x·(1 - d/C) = 1.0000 × (1 - 2.000 L / 8.000 L) = 0.7500\n" +
		"old share after drain 2 = x·(1 - d/C) = 0.7500 × (1 - 2.000 L / 8.000 L) = 0.5625\n" +
		"old share left = 0.5625\n"
	if got := s.Text(); got != one {
		t.Errorf("got\n%swant\n%s", got, one)
	}
	sys.Sump, sys.Mixing = dilutionLitres(4), 0.5
	s, err = RemainingSteps(sys, ds)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"sump after drain 1 = s·(1 - d/S) = 1.0000 × (1 - 2.000 L / 4.000 L) = 0.5000\n",
		"old share after drain 1 = (S·s + H·h)/C = (4.000 L × 0.5000 + 4.000 L × 1.0000) / 8.000 L = 0.7500\n",
		"sump after running the gears = s + m·(mean - s) = 0.5000 + 0.5000 × (0.7500 - 0.5000) = 0.6250\n",
		"old share left = 0.5938\n", // 0.59375 in full
	} {
		if !strings.Contains(s.Text(), want) {
			t.Errorf("working lacks %q:\n%s", want, s.Text())
		}
	}
	if s, err := RemainingSteps(System{}, ds); err == nil || s != nil {
		t.Errorf("no box: %v, %v", s, err)
	}
	if _, err := RemainingSteps(sys, dilutionRepeat(ds[0], 1001)); err == nil || !strings.Contains(err.Error(), "1001 drains") {
		t.Errorf("%v", err)
	}
	if s, err := RemainingSteps(sys, nil); err != nil || len(s) != 1 {
		t.Errorf("nothing drained: %v, %v", s, err)
	}
}

package exchange

import (
	"strings"
	"testing"

	"example.com/meniscus/units"
)

func TestBoundsSteps(t *testing.T) {
	for _, c := range []struct {
		name   string
		sump   units.Volume
		drains []units.Volume
		want   string
	}{
		{"sump known", dilutionLitres(4), dilutionList(2, 2, 1), // 0.75² × 0.875; 0.5 + 0.5 × 0.5² × 0.75
			"lowest, every run mixes fully = Π(1 - d/C) = (1 - 2.000 L / 8.000 L)^2 × (1 - 1.000 L / 8.000 L) = 0.4922\n" +
				"held back = H = C - S = 8.000 L - 4.000 L = 4.000 L\n" +
				"sump, nothing mixed into it = Π(1 - d/S) = (1 - 2.000 L / 4.000 L)^2 × (1 - 1.000 L / 4.000 L) = 0.1875\n" +
				"highest, the gears never mix = H/C + (S/C)·Π(1 - d/S) = 4.000 L / 8.000 L + 4.000 L / 8.000 L × 0.1875 = 0.5938\n"},
		{"equal ones last", dilutionLitres(4), dilutionList(1, 2, 2), // 0.875 × 0.75²; 0.75 × 0.5²
			"lowest, every run mixes fully = Π(1 - d/C) = (1 - 1.000 L / 8.000 L) × (1 - 2.000 L / 8.000 L)^2 = 0.4922\n" +
				"held back = H = C - S = 8.000 L - 4.000 L = 4.000 L\n" +
				"sump, nothing mixed into it = Π(1 - d/S) = (1 - 1.000 L / 4.000 L) × (1 - 2.000 L / 4.000 L)^2 = 0.1875\n" +
				"highest, the gears never mix = H/C + (S/C)·Π(1 - d/S) = 4.000 L / 8.000 L + 4.000 L / 8.000 L × 0.1875 = 0.5938\n"},
		{"sump not known", units.Volume{}, dilutionList(1, 2),
			"lowest, every run mixes fully = Π(1 - d/C) = (1 - 1.000 L / 8.000 L) × (1 - 2.000 L / 8.000 L) = 0.6562\n" +
				"sump, not known, holds at least = largest drain = 2.000 L\n" +
				"held back = H = C - S = 8.000 L - 2.000 L = 6.000 L\n" +
				"sump, nothing mixed into it = Π(1 - d/S) = (1 - 1.000 L / 2.000 L) × (1 - 2.000 L / 2.000 L) = 0.0000\n" +
				"highest, the gears never mix = H/C + (S/C)·Π(1 - d/S) = 6.000 L / 8.000 L + 2.000 L / 8.000 L × 0.0000 = 0.7500\n"},
		{"nothing drained", units.Volume{}, nil,
			"lowest, every run mixes fully = Π(1 - d/C) = 1.0000\nsump, not known, holds at least = largest drain = 0.000 L\nhighest, nothing was drained = 1.0000\n"},
	} {
		s, err := BoundsSteps(dilutionLitres(8), c.sump, c.drains)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		if got := s.Text(); got != c.want {
			t.Errorf("%s: got\n%swant\n%s", c.name, got, c.want)
		}
	}
}

func TestBoundsStepsRefuses(t *testing.T) {
	if s, err := BoundsSteps(units.Volume{}, units.Volume{}, nil); s != nil || err == nil {
		t.Errorf("no box: %v, %v", s, err)
	}
	many := dilutionRepeat(dilutionLitres(1), 1001)
	if s, err := BoundsSteps(dilutionLitres(8), units.Volume{}, many); s != nil || err == nil || !strings.Contains(err.Error(), "1001 drains; want at most 1000") {
		t.Errorf("%v, %v", s, err)
	}
}

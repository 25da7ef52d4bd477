package jobcard

import (
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units"
)

func TestBudgetOfTheBalance(t *testing.T) {
	b := fill(t, ternSpec(), ternEntries()...).Balance()
	table, err := b.Budget()
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(table.Expanded.U*1000-b.PlusMinus.In(units.Millilitre)) > 1e-6 || table.Expanded.K != 2 {
		t.Errorf("budget says ± %v L, the balance ± %v", table.Expanded.U, b.PlusMinus)
	}
	sum, last := 0.0, 2.0
	for _, c := range b.Contributors() {
		if c.Share > last {
			t.Error("contributors are not in order")
		}
		sum, last = sum+c.Share, c.Share
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("shares add to %v", sum)
	}
}

// Two looks at a coarse mark are all the doubt there is like for like, so the
// jug is all of it; warm and cold, the coefficient joins in.
func TestAdviceNamesTheLargest(t *testing.T) {
	like := fill(t, ternSpec(), FillPlug(at(0), ""), DrainOf(at(1), jug(2.1, 18)), RefillOf(at(2), jug(2.1, 18)))
	if got := like.Advice(); !strings.HasPrefix(got, "jug-a is ") || !strings.Contains(got, "or weigh") {
		t.Errorf("like for like: %q", got)
	}
	s := ternSpec()
	s.Vessels[0].Graduation, s.Vessels[0].ScaleError = units.Millilitre.Of(1), 0
	s.Vessels[0].Material = 2 // glass: hardly grows
	s.Thermometers[0].PlusMinus = units.TemperatureDelta{}
	s.Fluid.Density15 = 0
	unlike := fill(t, s, FillPlug(at(0), ""), DrainOf(at(1), jug(2.1, 90)), RefillOf(at(2), jug(2.0, 18)))
	if got := unlike.Advice(); !strings.Contains(got, "at the same temperature") {
		t.Errorf("hot and cold: %q", got)
	}
	if got := fill(t, simple(10)).Advice(); got != "" {
		t.Errorf("nothing measured: %q", got)
	}
}

package jobcard

import (
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/units"
)

// The scale reads ± 5 g at any load (rectangular) in steps of 1 g, each weighing on
// its own; by hand six weighings give √(6·(25/3 + 1/12)) = 7.11 g, and at about
// 850 g/L that is 8.4 mL, with the coefficient dropping out.
func TestWeighingIsSurer(t *testing.T) {
	card := fill(t, ternSpec(), ternEntries()...)
	byJug := card.Balance()
	byScale, err := card.Weighed("scale-1")
	if err != nil {
		t.Fatal(err)
	}
	if diff := byJug.Net.Best().Sub(byScale.Net.Best()).Abs().In(units.Millilitre); diff > 1e-6 {
		t.Errorf("net differs by %v mL; it is the same fluid", diff)
	}
	if u := byScale.Net.U().In(units.Millilitre); math.Abs(u-8.4) > 0.2 {
		t.Errorf("u by scale %v mL, by hand 8.4", u)
	}
	if byScale.PlusMinus.Compare(byJug.PlusMinus) >= 0 {
		t.Errorf("by scale ± %v, by jug ± %v", byScale.PlusMinus, byJug.PlusMinus)
	}
	if _, err := card.Weighed("bathroom"); err == nil {
		t.Error("weighed on a scale the job has not got")
	}
	s := ternSpec()
	s.Fluid.Density15 = 0
	if _, err := fill(t, s, ternEntries()[:3]...).Weighed("scale-1"); err == nil {
		t.Error("weighed a fluid of unknown density")
	}
}

func ExampleCard_Weighed() {
	s := ternSpec()
	card, _ := Open(s)
	for _, e := range []Entry{FillPlug(at(0), ""), DrainOf(at(1), jug(2, 20)), RefillOf(at(2), jug(2, 20))} {
		_ = card.Append(e)
	}
	byScale, _ := card.Weighed("scale-1")
	fmt.Println(card.Balance().PlusMinus.Text(units.Millilitre, 0), "by jug,", byScale.PlusMinus.Text(units.Millilitre, 0), "by scale")
	// Output: 41 mL by jug, 10 mL by scale
}

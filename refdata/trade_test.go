package refdata

import (
	"testing"

	"example.com/meniscus/units"
)

// The demonstration pack is invented: it must not pass for the figures that the
// trade commonly uses (common practice, no published source), which are check
// values elsewhere: 12 to 15 US qt, 2.5 to 3 US qt a drain, 97 to 115 °F, 15 lbf·ft.
func TestDemoFiguresDifferFromCommonPractice(t *testing.T) {
	p, err := BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	quarts := func(low, high float64) units.Range[units.VolumeDim] {
		r, err := units.NewRange(units.USQuart.Of(low), units.USQuart.Of(high))
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	if len(p.IDs()) < 8 {
		t.Errorf("%d gearboxes; want 8", len(p.IDs()))
	}
	for _, id := range p.IDs() {
		x, _ := p.Procedure(id)
		if x.Capacity == quarts(12, 15) || x.ColdDrain == quarts(2.5, 3) {
			t.Errorf("%s: capacity %v, drain %v are the trade's", id, x.Capacity, x.ColdDrain)
		}
		if x.Window.Low == units.Fahrenheit(97) || x.Window.High == units.Fahrenheit(115) {
			t.Errorf("%s: window %v to %v is the trade's", id, x.Window.Low, x.Window.High)
		}
		for _, plug := range x.Plugs {
			if plug.Torque == units.PoundForceFoot.Of(15) {
				t.Errorf("%s: plug %s has the trade's torque", id, plug.ID)
			}
		}
	}
}

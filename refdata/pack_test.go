package refdata

import "testing"

func TestBuiltInLoads(t *testing.T) {
	p, err := BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range p.IDs() {
		x, _ := p.Procedure(id)
		if x.Capacity.IsZero() || len(x.Plugs) != 3 || len(x.Figures) < 10 {
			t.Errorf("%s: %+v", id, x)
		}
		if _, ok := p.Fluid(x.Fluid); !ok {
			t.Errorf("%s: no fluid %s", id, x.Fluid)
		}
	}
	if len(p.IDs()) < 3 {
		t.Errorf("%v; want at least three gearboxes", p.IDs())
	}
}

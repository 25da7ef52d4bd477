package refdata

import "testing"

// An outline, plug or washer is what the whole copy says, for every procedure.
func TestOutlinesSayWhatProceduresSay(t *testing.T) {
	p, err := BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range p.IDs() {
		whole, _ := p.Procedure(id)
		short, ok := p.Outline(id)
		if !ok {
			t.Fatalf("%s has no outline", id)
		}
		if short != whole.Outline || short.ID != id {
			t.Errorf("%s: the outline is not as in the procedure", id)
		}
		for _, plug := range whole.Plugs {
			if got, ok := p.Plug(id, plug.ID); !ok || got != plug {
				t.Errorf("%s: plug %s is %+v, %v", id, plug.ID, got, ok)
			}
		}
		for _, washer := range whole.Washers {
			if got, ok := p.Washer(id, washer.ID); !ok || got != washer {
				t.Errorf("%s: washer %s is %+v, %v", id, washer.ID, got, ok)
			}
		}
	}
	for _, pack := range []*Pack{p, nil, {}} {
		_, outline := pack.Outline("heron-9")
		_, plug := pack.Plug("heron-9", "drain")
		_, washer := pack.Washer("heron-9", "ring-16")
		_, side := pack.Plug("tern-6", "side")
		_, ring := pack.Washer("tern-6", "side")
		if outline || plug || washer || side || ring {
			t.Error("something is found that is not there")
		}
	}
	if n := testing.AllocsPerRun(100, func() { p.Outline("tern-6"); p.Plug("tern-6", "drain"); p.Washer("tern-6", "ring-16") }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

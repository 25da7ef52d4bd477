package refdata

import (
	"strings"
	"testing"

	"example.com/meniscus/exchange/sealing"
)

// TestBuiltInPackShowsEveryFeature names, for each thing a pack can say, the
// gearbox that says it.
func TestBuiltInPackShowsEveryFeature(t *testing.T) {
	p, err := BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	if len(p.IDs()) != 8 || len(p.Warnings()) != 0 {
		t.Errorf("%v, %v; want eight gearboxes and nothing unusual", p.IDs(), p.Warnings())
	}
	for _, id := range p.IDs() {
		x, _ := p.Procedure(id)
		if _, ok := p.Fluid(x.Fluid); !ok || x.Capacity.IsZero() || len(x.Plugs) < 3 || len(x.Figures) < 10 {
			t.Errorf("%s: %d plugs, %d figures, fluid %q", id, len(x.Plugs), len(x.Figures), x.Fluid)
		}
		for _, f := range x.Figures {
			if f.Source.Title == "" || f.Trust == "" || f.Line == 0 || !strings.HasPrefix(f.File, "builtin/") {
				t.Errorf("%s: %v", id, f)
			}
		}
	}
	one := func(id string) Procedure {
		x, ok := p.Procedure(id)
		if !ok {
			t.Fatalf("no %s", id)
		}
		return x
	}
	coach := one("tern-6-coach")
	f, _ := figureOf(coach.Figures, "capacity.total")
	if len(f.Shadows) != 1 || !coach.Sump.IsZero() || coach.Plugs[0].Spread.IsZero() || coach.Window != one("tern-6").Window {
		t.Errorf("overlaid: %+v", coach)
	}
	for _, plug := range one("snipe-7").Plugs {
		if !plug.Thread.Taper() || plug.Turns == 0 || plug.Washer != "" {
			t.Errorf("taper-plugged: %+v", plug)
		}
	}
	checks := 0
	for _, plug := range one("curlew-4").Plugs {
		if plug.Role == sealing.Check {
			checks++
		}
	}
	if checks != 2 {
		t.Errorf("%d check plugs; want two", checks)
	}
	if f, _ := figureOf(one("godwit-6").Figures, "capacity.total"); !strings.HasSuffix(f.Text, "imp qt") {
		t.Errorf("imperial: %v", f)
	}
	if !one("avocet-9").Window.Low.IsZero() || !one("avocet-9").Washers[0].Reusable {
		t.Error("no window, and a washer that is used again")
	}
	unknown, _ := p.Fluid(one("dunlin-8").Fluid)
	table, _ := p.Fluid("s-6")
	coefficient, _ := p.Fluid("s-8")
	if unknown.Density15 != 0 || unknown.Expansion != 0 || unknown.Table != nil || len(table.Table) != 4 || coefficient.Expansion != 0.00079 {
		t.Errorf("fluids: %+v %+v %+v", unknown, table, coefficient)
	}
	if weak := Weakest(one("avocet-9").Figures, "medium"); len(weak) != 2 {
		t.Errorf("little trusted: %v", weak)
	}
}

func TestCallersCannotChangeThePack(t *testing.T) {
	p, err := LoadLayers(BuiltInLayer())
	if err != nil {
		t.Fatal(err)
	}
	x, _ := p.Procedure("tern-6-coach")
	x.Plugs[0].ID, x.Washers[0].ID, x.Cautions[0], x.Figures[0].Shadows[0].Text = "changed", "changed", "changed", "changed"
	f, _ := p.Fluid("s-6")
	f.Offers[0].Name, f.Notes[0] = "changed", "changed"
	s := p.Shop()
	s.Vessels[0].ID = "changed"
	y, _ := p.Procedure("tern-6-coach")
	g, _ := p.Fluid("s-6")
	if y.Plugs[0].ID == "changed" || y.Washers[0].ID == "changed" || y.Cautions[0] == "changed" || y.Figures[0].Shadows[0].Text == "changed" ||
		g.Offers[0].Name == "changed" || g.Notes[0] == "changed" || p.Shop().Vessels[0].ID == "changed" {
		t.Error("a caller changed the pack")
	}
}

func TestTheZeroPackIsEmpty(t *testing.T) {
	var p Pack
	_, ok := p.Procedure("tern-6")
	_, fluid := p.Fluid("s-2")
	if ok || fluid || p.Has("") || p.IDs() != nil || p.Hash() != "" || p.Edition() != "" || p.Warnings() != nil || p.Shop().ID != "" {
		t.Error("not empty")
	}
}

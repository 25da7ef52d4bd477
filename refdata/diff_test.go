package refdata

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"
)

func figureOf(figures []Figure, key string) (Figure, bool) { return indexFigures(figures).find(key) }

// overlaid loads testdata/base with one file over it.
func overlaid(t *testing.T, file string) (base, over Procedure) {
	t.Helper()
	data, err := os.ReadFile("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	under := Layer{FS: os.DirFS("testdata"), Dir: "base"}
	first, err := LoadLayers(under)
	if err != nil {
		t.Fatal(err)
	}
	second, err := LoadLayers(under, Layer{FS: fstest.MapFS{"over.toml": {Data: data}}})
	if err != nil {
		t.Fatal(err)
	}
	base, _ = first.Procedure("wigeon-5")
	over, _ = second.Procedure("wigeon-5")
	return base, over
}

func TestRemoveTakesValuesAndTables(t *testing.T) {
	base, over := overlaid(t, "valid/overlay/remove-01.toml")
	if base.Sump.IsZero() || base.Window.Low.IsZero() {
		t.Fatal("the base has nothing to remove")
	}
	if !over.Sump.IsZero() || !over.Window.Low.IsZero() || len(over.Window.Note) > 0 {
		t.Errorf("still there: %v %v", over.Sump, over.Window)
	}
	if over.Capacity != base.Capacity || over.Plugs[0].Thread != base.Plugs[0].Thread {
		t.Error("something else went with it")
	}
	for _, f := range over.Figures {
		if f.Key == "capacity.sump" || strings.HasPrefix(f.Key, "window") {
			t.Errorf("a figure of what was removed: %v", f)
		}
	}
	var keys []string
	for _, d := range Diff(base, over) {
		keys = append(keys, d.Key)
	}
	if got := strings.Join(keys, " "); got != "title revision capacity.sump window.low window.high plug.drain.torque" {
		t.Errorf("differs in %s", got)
	}
}

func TestAShadowedFigureKeepsItsPedigree(t *testing.T) {
	_, over := overlaid(t, "valid/plain/overlay-01.toml")
	f, ok := figureOf(over.Figures, "plug.drain.torque")
	if !ok || f.Text != "28 N·m" || f.File != "over.toml" || f.Line != 15 || f.Source.Title != "letter of the invented maker" {
		t.Fatalf("%+v", f)
	}
	if len(f.Shadows) != 1 || f.Shadows[0].Text != "30 N·m" || f.Shadows[0].File != "base/wigeon-5.toml" || f.Shadows[0].Line != 39 {
		t.Errorf("%+v", f.Shadows)
	}
	text := Explain(over)
	if !strings.Contains(text, "plug.drain.torque = 28 N·m\n    from letter of the invented maker, p.1 (manual, 2026-07-07), trust high, over.toml:15\n    in place of 30 N·m: from Saltmarsh workshop sheet 40, p.3 (manual, 2026-02-02), trust high, base/wigeon-5.toml:39\n") {
		t.Error(text)
	}
	for _, f := range over.Figures {
		if !strings.Contains(text, f.Key+" = ") {
			t.Errorf("%s is not explained", f.Key)
		}
	}
}

func TestThreeLayersAndRings(t *testing.T) {
	body := func(id, over, value string) string {
		return "format = 1\nkind = \"procedure\"\nid = \"" + id + "\"\ntitle = \"x\"\nrevision = \"4\"\noverlay_of = \"" + over + "\"\nbased_on = \"3\"\n" +
			"[source.s]\ntitle = \"s\"\nkind = \"manual\"\n[plug.drain.torque]\nvalue = \"" + value + "\"\nfrom = \"s\"\n"
	}
	layer := func(files ...string) Layer {
		m := fstest.MapFS{}
		for i, f := range files {
			m[string(rune('a'+i))+".toml"] = &fstest.MapFile{Data: []byte(f)}
		}
		return Layer{FS: m}
	}
	base := Layer{FS: os.DirFS("testdata"), Dir: "base"}
	p, err := LoadLayers(base, layer(body("wigeon-5", "wigeon-5", "31 N·m")), layer(strings.Replace(body("wigeon-5", "wigeon-5", "29 N·m"), `based_on = "3"`, `based_on = "4"`, 1)))
	if err != nil {
		t.Fatal(err)
	}
	w, _ := p.Procedure("wigeon-5")
	f, _ := figureOf(w.Figures, "plug.drain.torque")
	if f.Text != "29 N·m" || len(f.Shadows) != 2 || f.Shadows[0].Text != "31 N·m" || f.Shadows[1].Text != "30 N·m" {
		t.Errorf("%+v", f)
	}
	found, err := CheckLayers(base, layer(body("teal-1", "teal-2", "31 N·m"), body("teal-2", "teal-1", "31 N·m")))
	if err != nil || len(found) != 2 || found[0].Code != "pack-overlay-cycle" || found[1].Code != "pack-overlay-cycle" {
		t.Errorf("%v %v", found, err)
	}
	var chain []string
	last := "wigeon-5"
	for i := range 10 {
		id := "teal-" + string(rune('0'+i))
		chain = append(chain, body(id, last, "31 N·m"))
		last = id
	}
	found, err = CheckLayers(base, layer(chain...))
	deep := 0
	for _, f := range found {
		if f.Code == "pack-overlay-deep" {
			deep++
		}
	}
	if err != nil || deep != 3 || found[len(found)-1].File != "j.toml" { // h, i and j have eight or more below
		t.Errorf("%v %v", found, err)
	}
}

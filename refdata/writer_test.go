package refdata

import (
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/units"
)

// alike is what a written procedure keeps: all but the places in the files, and
// the name a source has in its file.
func same(a, b Procedure) string {
	return cmp.Diff(a, b, cmp.Comparer(func(x, y sealing.Thread) bool { return x == y }),
		cmp.Comparer(func(x, y units.Range[units.VolumeDim]) bool { return x == y }),
		cmpopts.IgnoreFields(Figure{}, "File", "Line", "Shadows"), cmpopts.IgnoreFields(Source{}, "Name"),
		cmpopts.SortSlices(func(x, y Figure) bool { return x.Key < y.Key }),
		cmp.Comparer(func(x, y units.Volume) bool { return x == y }), cmp.Comparer(func(x, y units.Temperature) bool { return x == y }),
		cmp.Comparer(func(x, y units.Torque) bool { return x == y }), cmp.Comparer(func(x, y units.Length) bool { return x == y }))
}

// everyProcedure gives those of the built-in pack, of an overlaid one and of all
// valid cases.
func everyProcedure(t *testing.T) []Procedure {
	t.Helper()
	list := []Procedure{}
	add := func(layers ...Layer) {
		p, err := LoadLayers(layers...)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range p.procedures {
			list = append(list, x.clone())
		}
	}
	add(BuiltInLayer())
	err := fs.WalkDir(os.DirFS("testdata"), "valid", func(name string, d fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(name, ".toml") {
			data, err := os.ReadFile("testdata/" + name)
			if err != nil {
				return err
			}
			add(Layer{FS: os.DirFS("testdata"), Dir: "base"}, Layer{FS: fstest.MapFS{"case.toml": {Data: data}}})
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func TestWhatIsWrittenReadsBackEqual(t *testing.T) {
	fluid := map[string]string{"s-9": "base/fluid.toml"}
	for _, p := range everyProcedure(t) {
		data, err := p.TOML()
		if err != nil {
			t.Errorf("%s: %v", p.ID, err)
			continue
		}
		files := fstest.MapFS{"p.toml": {Data: data}}
		name := fluid[p.Fluid]
		source, err := os.ReadFile("testdata/" + name)
		if name == "" {
			source, err = os.ReadFile("builtin/fluid-" + strings.ReplaceAll(p.Fluid, "-", "") + ".toml")
		}
		if err != nil {
			t.Fatal(err)
		}
		files["fluid.toml"] = &fstest.MapFile{Data: source}
		pack, err := Load(files, ".")
		if err != nil {
			t.Errorf("%s: %v\n%s", p.ID, err, data)
			continue
		}
		back, _ := pack.Procedure(p.ID)
		if d := same(p, back); d != "" {
			t.Errorf("%s: %s\n%s", p.ID, d, data)
		}
		again, err := back.TOML()
		if err != nil || string(again) != string(data) {
			t.Errorf("%s: written again it differs: %v", p.ID, err)
		}
		if d := Diff(p, back); len(d) != 0 {
			t.Errorf("%s: %v", p.ID, d)
		}
	}
}

func TestWriterFollowsTheValueAndRefusesWhatHasNoSource(t *testing.T) {
	pack, err := BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	p, _ := pack.Procedure("tern-6")
	p.Plugs[1].Torque = units.NewtonMetre.Of(23)
	data, err := p.TOML()
	if err != nil || !strings.Contains(string(data), `"23 N·m"`) {
		t.Errorf("%v\n%s", err, data)
	}
	p.Figures = nil
	if _, err := p.TOML(); err == nil || !strings.Contains(err.Error(), "plug.drain.torque has no source") {
		t.Errorf("%v", err)
	}
	p, _ = pack.Procedure("tern-6")
	p.Title = "left\u202eright"
	if _, err := p.TOML(); err == nil {
		t.Error("a title that no sheet may have was written")
	}
	if _, err := (Procedure{}).TOML(); err == nil {
		t.Error("the zero procedure was written")
	}
}

package refdata

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/internal/allocated"
	"example.com/meniscus/units"
)

// manyPlugs is a procedure that no file could hold, made by a program.
func manyPlugs(n int) Procedure {
	p := Procedure{Outline: Outline{ID: "a", Title: "a"}, Revision: "1"}
	source := Source{Name: "s", Title: "s", Kind: "manual"}
	for i := range n {
		id := fmt.Sprint("p", i)
		p.Plugs = append(p.Plugs, sealing.Plug{ID: id, Torque: units.NewtonMetre.Of(24), Turns: 0.5})
		source.Date = id // each figure of another source, all of one name
		for _, key := range []string{"torque", "turns", "role"} {
			p.Figures = append(p.Figures, Figure{Key: "plug." + id + "." + key, Text: "24 N·m", Source: source, Trust: "high", File: "a.toml", Line: i})
		}
	}
	return p
}

// A procedure made by a program, of a thousand plugs, is compared, explained and
// refused in work that grows with its size, not with the square of it: of the last
// plug's own difference nothing is lost.
func TestManyPlugs(t *testing.T) {
	before, after := manyPlugs(1000), manyPlugs(1000)
	after.Plugs[999].Torque = units.NewtonMetre.Of(25)
	var list []Difference
	used := allocated.Bytes(func() { list = Diff(before, after) })
	if len(list) != 1 || list[0].String() != "plug.p999.torque: 24 N·m -> 25 N·m" || used > 20<<20 { // every path put together for every other is gigabytes
		t.Errorf("%d bytes, %v", used, list)
	}
	var text string
	if bytes := allocated.Bytes(func() { text = Explain(before) }); bytes > 3<<19 || strings.Count(text, "\n") != 1+2*3000 {
		t.Errorf("%d bytes for %d lines", bytes, strings.Count(text, "\n"))
	}
	for i := range before.Figures {
		before.Figures[i].Key = "x"
	}
	if _, err := before.TOML(); err == nil || !strings.HasSuffix(err.Error(), "\nand 1900 more") || len(err.Error()) > 10_000 {
		t.Errorf("%.10000v", err)
	}
	if _, err := manyPlugs(2049).TOML(); err == nil || !strings.Contains(err.Error(), "2049 plugs and 0 washers; want at most 2048 together") {
		t.Errorf("%v", err)
	}
}

// Sources of one name get numbers in the order in which they come, past names that
// are taken.
func TestSourcesOfOneName(t *testing.T) {
	w := writer{renamed: map[string]string{}, taken: map[string]int{}}
	for i, name := range []string{"a", "a", "a-3", "a", "a", "a-3", ""} {
		w.add(line{}, Figure{Source: Source{Name: name, Title: fmt.Sprint(i)}})
	}
	var names []string
	for _, s := range w.sources {
		names = append(names, s.Name)
	}
	if got := strings.Join(names, " "); got != "a a-2 a-3 a-4 a-5 a-3-2 " {
		t.Errorf("%q", got)
	}
}

// A folder of as many faulty files as it may have is refused after few of them: the
// findings say how many were not read.
func TestAFolderOfFaults(t *testing.T) {
	tiny, overlays := fstest.MapFS{}, fstest.MapFS{}
	for i := range mostFiles {
		tiny[fmt.Sprintf("%05d.toml", i)] = &fstest.MapFile{Data: []byte("x")}
		if i < 1000 {
			overlays[fmt.Sprintf("%05d.toml", i)] = &fstest.MapFile{Data: []byte(fmt.Sprintf("format=1\nkind=\"procedure\"\nid=\"a-%d\"\ntitle=\"a\"\noverlay_of=\"b\"\n", i))}
		}
	}
	for _, c := range []struct {
		name, code, last string
		files            fstest.MapFS
		bytes            uint64
	}{
		{"tiny", "pack-not-read", "this file and those after it, 19800 in all, were not read", tiny, 32 << 20},
		{"overlays", "pack-not-told", "this file and others, 800 in all, are at fault as well", overlays, 32 << 20},
	} {
		var found []Finding
		var err error
		used := allocated.Bytes(func() { found, err = Check(c.files, ".") })
		if err != nil || len(found) < mostErrors || len(found) > mostErrors+2 || used > c.bytes {
			t.Fatalf("%s: %d findings, %d bytes, %v", c.name, len(found), used, err)
		}
		if f := found[len(found)-1]; f.Code != c.code || f.Severity != "error" || !strings.Contains(f.Reason, c.last) {
			t.Errorf("%s: %s %v", c.name, f.Code, f)
		}
		if p, err := Load(c.files, "."); p != nil || err == nil || len(err.Error()) > 100_000 || !strings.Contains(err.Error(), c.last) {
			t.Errorf("%s: %.200v", c.name, err)
		}
	}
}

// What stands in a file that was not read is not missed in those that were.
func TestWhatIsNotReadIsNotMissed(t *testing.T) {
	files := fstest.MapFS{"zzz.toml": {Data: []byte(fluidFor("f"))}, "aaa.toml": {Data: []byte(bombHead)}}
	for i := range mostErrors {
		files[fmt.Sprintf("%05d.toml", i)] = &fstest.MapFile{Data: []byte("x")}
	}
	for name, note := range map[string]string{"alone": "", "kept": "# overlay_of\n"} { // order does not matter
		files["aaa.toml"].Data = []byte(note + bombHead)
		files["0.toml"] = files["aaa.toml"]
		found, err := Check(files, ".")
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range found {
			if f.Code == "pack-no-fluid" || f.Code == "sheet-unknown" || f.Severity == "warning" {
				t.Errorf("%s: %v", name, f)
			}
		}
	}
}

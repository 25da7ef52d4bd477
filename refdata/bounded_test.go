package refdata

import (
	"fmt"
	"runtime"
	"strings"
	"testing"

	"example.com/meniscus/exchange/sealing"
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

func allocated(call func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	call()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

// A procedure made by a program, of a thousand plugs, is compared, explained and
// refused in work that grows with its size, not with the square of it: of the last
// plug's own difference nothing is lost.
func TestManyPlugs(t *testing.T) {
	before, after := manyPlugs(1000), manyPlugs(1000)
	after.Plugs[999].Torque = units.NewtonMetre.Of(25)
	var list []Difference
	used := allocated(func() { list = Diff(before, after) })
	if len(list) != 1 || list[0].String() != "plug.p999.torque: 24 N·m -> 25 N·m" || used > 20<<20 { // every path put together for every other is gigabytes
		t.Errorf("%d bytes, %v", used, list)
	}
	var text string
	if bytes := allocated(func() { text = Explain(before) }); bytes > 2<<20 || strings.Count(text, "\n") != 1+2*3000 {
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

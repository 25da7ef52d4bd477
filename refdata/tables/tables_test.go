package tables

import (
	"fmt"
	"os"
	"testing"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/units"
)

func TestTablesAreThoseOfTheTests(t *testing.T) {
	entries, err := os.ReadDir("data")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, e := range entries {
		if e.Name() == "README.md" {
			continue
		}
		ours, err := os.ReadFile("data/" + e.Name())
		if err != nil {
			t.Fatal(err)
		}
		theirs, err := os.ReadFile("../../internal/published/testdata/published/" + e.Name())
		if err != nil || string(ours) != string(theirs) {
			t.Errorf("%s differs from the table the tests use: %v", e.Name(), err)
		}
		n++
	}
	if n < 5 {
		t.Errorf("%d tables", n)
	}
}

func tables(t testing.TB) *Tables {
	t.Helper()
	all, err := Open()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestEveryFigureHasAPedigree(t *testing.T) {
	all := tables(t)
	check := func(what string, p Pedigree) {
		if p.Source == "" || p.Mark == "" {
			t.Errorf("%s: %+v", what, p)
		}
	}
	for _, k := range all.Keys() {
		check(k.Name, k.Pedigree)
	}
	for _, p := range all.Plugs() {
		check(p.Thread.String()+p.Standard, p.Pedigree)
	}
	for _, r := range all.Rings() {
		check(r.Name, r.Pedigree)
	}
	for _, b := range all.Bands() {
		check(b.Thread.String(), b.Pedigree)
	}
	for _, c := range all.Containers() {
		check(c.Name, c.Pedigree)
	}
	if len(all.Keys()) < 50 || len(all.Plugs()) < 60 || len(all.Rings()) < 30 || len(all.Bands()) != 6 || len(all.Containers()) != 10 {
		t.Error("a table lost rows")
	}
}

func TestCallersCannotChangeTheTables(t *testing.T) {
	all := tables(t)
	all.Keys()[0].Name = "changed"
	if all.Keys()[0].Name == "changed" {
		t.Error("changed")
	}
}

func open2() *Tables {
	all, err := Open()
	if err != nil {
		fmt.Println(err)
	}
	return all
}

func ExampleOpen() {
	_, err := Open()
	fmt.Println(err)
	// Output: <nil>
}

func ExampleTables_Key() {
	k, ok := open2().Key(sealing.Drive{Kind: sealing.Hexalobular, Number: 45})
	fmt.Println(k.Size, k.Mark, ok)
	_, ok = open2().Key(sealing.Drive{Kind: sealing.HexSocket, Size: units.Millimetre.Of(9)})
	fmt.Println(ok)
	// Output:
	// 7.93 mm seen true
	// false
}

func ExampleTables_Band() {
	thread, _ := sealing.ParseThread("M16x1.5")
	b, _ := open2().Band(thread)
	fmt.Println(b.Low, "to", b.High, b.Mark)
	// Output: 18 N·m to 64 N·m computed
}

func ExampleTables_Keys() {
	fmt.Println(open2().Keys()[0].Name)
	// Output: 1.5 mm
}

func ExampleTables_Plugs() {
	p := open2().Plugs()[1]
	fmt.Println(p.Thread, p.Key)
	// Output: M10x1 5 mm
}

func ExampleTables_Rings() {
	r := open2().Rings()[0]
	fmt.Println(r.Name, r.Inner, r.Outer)
	// Output: A 8x11.5x1 8.2 mm 11.5 mm
}

func ExampleTables_Bands() {
	fmt.Println(len(open2().Bands()))
	// Output: 6
}

func ExampleTables_Containers() {
	fmt.Println(open2().Containers()[0].Name)
	// Output: 1 US qt
}

func ExamplePedigree_Seen() {
	fmt.Println(Pedigree{Mark: "from memory"}.Seen())
	// Output: false
}

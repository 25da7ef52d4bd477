package sheet_test

import (
	"errors"
	"strconv"
	"strings"
	"testing"

	"example.com/meniscus/internal/sheet"
)

func codes(doc *sheet.Doc) string {
	var list []string
	for _, f := range doc.Faults().All {
		list = append(list, f.Key+" "+strings.TrimPrefix(f.Code, "sheet-"))
	}
	return strings.Join(list, ", ")
}

func TestKindsAndNames(t *testing.T) {
	root := parse(t, "format = 1\ns = \"x\"\nt = \"\"\"x\"\"\"\nl = []\nb = 2\nB = \"x\"\n[g]\n[h]\n[h]\n").Root()
	for name, want := range map[string]sheet.Kind{
		"format": sheet.Integer, "s": sheet.String, "t": sheet.Text, "l": sheet.List, "b": sheet.Broken, "g": sheet.Group, "h": sheet.Group,
		"none": sheet.Absent, "B": sheet.Broken,
	} {
		if got := root.Kind(name); got != want {
			t.Errorf("%s: %d, want %d", name, got, want)
		}
	}
	if got := strings.Join(root.Names(), " "); got != "format s t l g h" {
		t.Errorf("names %s", got)
	}
}

func TestOrderIsTheFiles(t *testing.T) {
	doc := parse(t, "z = \"1\"\na = \"2\"\nl = [\"x\"]\n[m.z]\n[m.a]\nk = \"3\"\n[b]\n[m.k]\n")
	var got []string
	for _, v := range doc.Root().Values() {
		got = append(got, v.Name()+"="+v.String())
	}
	for _, sub := range doc.Root().Sub("m").Subs() {
		got = append(got, sub.Path())
	}
	for _, sub := range doc.Root().Subs() {
		got = append(got, sub.Name())
	}
	if strings.Join(got, " ") != "z=1 a=2 m.z m.a m.k m b" {
		t.Errorf("%s", strings.Join(got, " "))
	}
	doc.Finish()
	if got := codes(doc); got != "l unknown, m.a.k unknown" {
		t.Error(got)
	}
}

func TestIgnore(t *testing.T) {
	doc := parse(t, "[x.y]\na = \"1\"\n[x.y.z]\nb = \"1\"\n[q]\nc = \"1\"\n")
	doc.Root().Sub("x").Ignore()
	doc.Root().Sub("q")
	doc.Finish()
	if got := codes(doc); got != "q.c unknown" {
		t.Error(got)
	}
}

func TestAbsentTables(t *testing.T) {
	doc := parse(t, "id = \"x\"\n[plug]\nx = \"y\"\n")
	drain := doc.Root().Sub("plug").Sub("drain").Sub("washer")
	if drain.Present() || drain.Path() != "plug.drain.washer" || drain.At().Line != 2 || drain.Name() != "washer" {
		t.Errorf("%s at %+v", drain.Path(), drain.At())
	}
	if v := drain.Need("size"); v.OK() || v.Path() != "plug.drain.washer.size" || v.At().Line != 2 || v.KeyAt().Line != 2 {
		t.Errorf("%s at %+v", v.Path(), v.At())
	}
	doc.Root().String("id")
	doc.Root().Sub("plug").String("x")
	if err := doc.Finish(); err != nil {
		t.Errorf("nothing is missing in a table that is not there: %v", err)
	}
}

func TestNeedIsSaidOnce(t *testing.T) {
	doc := parse(t, "[plug]\n")
	for range 3 {
		doc.Root().Need("id")
		doc.Root().NeedSub("source").Need("title")
		doc.Root().Sub("plug").NeedList("cautions")
		doc.Root().Sub("plug").Integer("n")
	}
	doc.Finish()
	doc.Finish()
	if got := codes(doc); got != "id missing, plug.cautions missing, plug.n missing, source missing" {
		t.Error(got)
	}
}

func TestWhole(t *testing.T) {
	for text, want := range map[string][2]bool{ // document, root table
		"a = \"1\"\n":        {true, true},
		"a = 1\n":            {true, true}, // refused, but known by name
		"a b = \"1\"\n":      {true, false},
		"junk\n":             {true, false},
		"A = \"1\"\n":        {true, false},
		"[a\n":               {false, false},
		"[[a]]\n":            {false, false},
		"a = \"\"\"\n":       {false, false},
		"\xff\xfea":          {false, false},
		"[b]\nc d = \"1\"\n": {true, true},
	} {
		doc := parse(t, text)
		if got := [2]bool{doc.Whole(), doc.Root().Whole()}; got != want {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
	if doc := parse(t, "[b]\nc d = \"1\"\n"); doc.Root().Sub("b").Whole() {
		t.Error("table b has an unread line")
	}
}

func TestTake(t *testing.T) {
	doc := parse(t, "a = \"12\"\nb = \"twelve\"\nc = 12\n")
	root := doc.Root()
	if n, ok := sheet.Take(root.Need("a"), "x-number", "write digits", strconv.Atoi); n != 12 || !ok {
		t.Errorf("%d, %v", n, ok)
	}
	bad := func(string) (int, error) { return 7, errors.New("not a number") }
	for _, name := range []string{"b", "c", "none"} {
		if n, ok := sheet.Take(root.String(name), "x-number", "write digits", bad); n != 0 || ok {
			t.Errorf("%s: %d, %v", name, n, ok)
		}
	}
	if got := codes(doc); got != "b x-number, c integer" {
		t.Error(got)
	}
	if f := doc.Faults().All[0]; f.Problem != "not a number" || f.Do != "write digits" || f.Line != 2 || f.Col != 5 {
		t.Errorf("%+v", f)
	}
}

func TestCountAndYesNo(t *testing.T) {
	for text, want := range map[string]string{
		"1": "1", "20": "20", "7": "7", "0": "", "21": "", "01": "", "+1": "", "-1": "", "1.0": "", "": "", "1 ": "", "1000000000": "", "９": "",
	} {
		doc := parse(t, "n = \""+text+"\"\n")
		n, ok := doc.Root().String("n").Count(1, 20)
		if got := strconv.Itoa(n); ok != (want != "") || ok && got != want {
			t.Errorf("%q: %d, %v", text, n, ok)
		}
		if (doc.Err() == nil) != ok {
			t.Errorf("%q: %v", text, doc.Err())
		}
	}
	for text, want := range map[string][2]bool{"yes": {true, true}, "no": {false, true}, "Yes": {}, "true": {}} {
		doc := parse(t, "b = \""+text+"\"\n")
		if yes, ok := doc.Root().String("b").YesNo(); yes != want[0] || ok != want[1] {
			t.Errorf("%q: %v, %v", text, yes, ok)
		}
	}
}

func TestCallersFaultsSortIn(t *testing.T) {
	doc := parse(t, "a = \"1\"\nb = 2\nl = [\"x\",\n \"y\"]\n[t]\n")
	list, _ := doc.Root().List("l")
	doc.Root().Sub("t").Warn("x-table", "odd", "look")
	doc.Root().Sub("t").Fault("x-table", "bad", "mend")
	list[1].Fault("x-item", "bad", "mend")
	doc.Root().String("a").Fault("x-value", "bad", "mend")
	doc.Root().String("none").Warn("x-none", "odd", "look")
	doc.Add(sheet.Fault{File: "base.toml", Line: 1, Code: "x-other"})
	if got, want := codes(doc), "none x-none, a x-value, b integer, l[2] x-item, t x-table, t x-table,  x-other"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if v := list[1]; v.Name() != "l[2]" || v.Under().Path() != "" || v.File() != "bad.toml" || v.At() != (sheet.Pos{Offset: 25, Line: 4, Col: 2}) || v.KeyAt().Line != 3 {
		t.Errorf("%+v", v.At())
	}
}

func TestNumber(t *testing.T) {
	doc := parse(t, "[entry.0]\n[entry.9]\n[entry.10]\n[entry.999999999]\n[entry.1000000000]\n[entry.-1]\n[entry.1a]\n")
	var got []string
	for _, e := range doc.Root().Sub("entry").Numbered() {
		n, ok := e.Number()
		got = append(got, strconv.Itoa(n)+strconv.FormatBool(ok))
	}
	if strings.Join(got, " ") != "0true 9true 10true 999999999true" || doc.Faults().Errors() != 3 {
		t.Errorf("%v, %v", got, doc.Err())
	}
}

// TestFaultsLeaveTheRestReadable: what stands before, between and after refused lines is still there.
func TestFaultsLeaveTheRestReadable(t *testing.T) {
	doc := parse(t, "a = \"1\"\n# \u200b\nb = \"2\"\nc = 3\nd = \"4\"\n\u200be = \"5\"\nf = \"\u200b\"\ng = \"7\" # \u200b\n"+
		"h = [\"8\",\n\"\u200b\"]\ni = \"9\"\n[[j]]\nk = \"10\"\n[l]\nm = \"11\"\nn\no = \"12\"\n[p] q\nr = \"13\"\n")
	var got []string
	for _, table := range []*sheet.Table{doc.Root(), doc.Root().Sub("l")} {
		for _, v := range table.Values() {
			got = append(got, v.Name()+v.String())
		}
	}
	if s := strings.Join(got, " "); s != "a1 b2 d4 e5 g7 i9 m11 o12" {
		t.Error(s)
	}
	if doc.Root().Kind("f") != sheet.Broken || doc.Root().Kind("h") != sheet.Broken || doc.Root().Kind("p") != sheet.Broken {
		t.Error("refused things are not missing")
	}
}

package sheet

import (
	"strings"
	"testing"
)

// scanned gives a document as the scanner leaves it.
func scanned(text string) *Doc {
	d := &Doc{name: "x.toml", src: text, lines: lineCounts(text)}
	d.root = d.newTable(nil, "", 0)
	s := &scanner{doc: d, text: d.screen(), cur: d.root}
	s.run()
	return d
}

// TestTheLibraryHasTheLastWord lets scanner and library read different texts. Whatever they differ in, nothing is taken over.
func TestTheLibraryHasTheLastWord(t *testing.T) {
	for ours, theirs := range map[string]string{
		"a = \"1\"\n":                    "a = = \"1\"\n",
		"a = \"2\"\n":                    "",
		"a = \"3\"\n":                    "a = \"3\"\nb = \"4\"\n",
		"a = \"4\"\n":                    "a = 4\n",
		"a = \"5\"\n":                    "[a]\n",
		"a = \"6\"\n":                    "a = [\"6\"]\n",
		"a = \"7\"\n":                    "a = 7.5\n",
		"format = 1\n":                   "format = \"1\"\n",
		"a = [\"8\"]\n":                  "a = [\"8\", \"9\"]\n",
		"a = [\"9\"]\n":                  "a = [9]\n",
		"a = [\"10\"]\n":                 "a = \"10\"\n",
		"[a]\n":                          "a = \"x\"\n",
		"[a]\nb = \"11\"\n":              "[a]\n[a.b]\n",
		"[a]\nb = \"12\"\n[c]\n":         "[a]\nb = \"12\"\nx = \"y\"\n[c]\n",
		"[a.b]\nc = \"13\"\n":            "[a]\n[a.b.c]\nd = 1\n",
		"[a.b]\nc = \"14\"\nd = \"x\"\n": "[a.b]\nc = \"14\"\n[d]\n",
	} {
		d := scanned(ours)
		if d.Err() != nil {
			t.Fatalf("%q: %v", ours, d.Err())
		}
		d.decode(theirs)
		all := d.Faults().All
		if len(all) != 1 || all[0].Code != codeDisagree && all[0].Code != codeLibrary {
			t.Errorf("%q against %q: %v", ours, theirs, all)
		}
		if names := d.Root().Names(); len(names) != 0 || d.Whole() {
			t.Errorf("%q against %q: still gives %v", ours, theirs, names)
		}
	}
	d := scanned("a = \"1\"\n")
	if d.decode("a = \"1\"\n"); d.Err() != nil || d.Root().Need("a").String() != "1" {
		t.Error("the same text differs from itself")
	}
}

// TestThousandsOfNames stays within the limit on names, and goes beyond it, by keys and by tables that headers imply.
func TestThousandsOfNames(t *testing.T) {
	keys := func(n int) string {
		var b strings.Builder
		for i := range n {
			b.WriteString("k" + itoa(i) + " = \"x\"\n")
		}
		return b.String()
	}
	tables := func(n int) string {
		var b strings.Builder
		for i := range n / 4 {
			b.WriteString("[t" + itoa(i) + ".a.b]\nc = \"x\"\n")
		}
		return b.String()
	}
	for name, text := range map[string]string{"keys": keys(MaxNames), "tables": tables(MaxNames)} {
		d, err := Parse(name, []byte(text))
		if err != nil || d.Err() != nil {
			t.Errorf("%s: %v, %v", name, err, d.Err())
		}
	}
	for name, text := range map[string]string{
		"keys": keys(MaxNames + 1), "tables": tables(MaxNames) + "[x]\n",
		"midway": tables(MaxNames-4) + "a = \"x\"\n[x.y.z.w.v]\nu = \"x\"\n[q]\n",
	} {
		d, err := Parse(name, []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		if all := d.Faults().All; len(all) != 1 || all[0].Code != codeTooMany || d.Whole() || d.Root().Kind("x") == Group {
			t.Errorf("%s: %v", name, all)
		}
	}
}

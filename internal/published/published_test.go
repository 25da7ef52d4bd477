package published

import (
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"
)

// The walker reads the folder itself, not the embedded copy, so that a file the
// embed pattern leaves out is seen too.
func TestEveryFileIsATable(t *testing.T) {
	dir := os.DirFS(folder)
	if err := Check(dir); err != nil {
		t.Error(err)
	}
	onDisk, err := fs.Glob(dir, "*")
	if err != nil {
		t.Fatal(err)
	}
	if len(onDisk) != len(Names()) {
		t.Errorf("%d files in the folder, %d embedded", len(onDisk), len(Names()))
	}
}

const good = `# title: Demo
# edition: first
# table: 1
# marks: seen
# tolerance: exact
# retrieved: today
name,value,flag,sizes,inputs,source,mark
a,1.5,yes,4;20,C=50;d=5,a book,seen
b,,no,,,a book,seen
`

func oneFile(text string) fstest.MapFS {
	return fstest.MapFS{"demo.csv": {Data: []byte(text)}}
}

func TestCheckAcceptsAGoodTable(t *testing.T) {
	if err := Check(oneFile(good)); err != nil {
		t.Error(err)
	}
}

// The first column is as good as any for the source or the mark.
func TestSourceAndMarkInFront(t *testing.T) {
	const head = "# title: Demo\n# edition: first\n# table: 1\n# marks: seen\n# tolerance: exact\n# retrieved: today\n"
	for _, body := range []string{"source,mark,value\na book,seen,1\n", "mark,source,value\nseen,a book,1\n"} {
		table, err := Open(oneFile(head+body), "demo.csv")
		if err != nil {
			t.Errorf("%q: %v", body, err)
			continue
		}
		if r := table.Rows()[0]; r.Source() != "a book" || r.Mark() != Seen || r.Float("value") != 1 || len(table.Rows()) != 1 {
			t.Errorf("%q: source %q, mark %v", body, r.Source(), r.Mark())
		}
	}
}

func TestCheckRefusesAnEmptyFolder(t *testing.T) {
	if err := Check(fstest.MapFS{}); err == nil || !strings.Contains(err.Error(), "no table") {
		t.Errorf("got %v", err)
	}
}

func TestCheckRefusesAStrayFile(t *testing.T) {
	dir := oneFile(good)
	dir["notes.txt"] = &fstest.MapFile{Data: []byte("hello")}
	if err := Check(dir); err == nil || !strings.Contains(err.Error(), "notes.txt: stray") {
		t.Errorf("got %v", err)
	}
}

func TestOpenRefuses(t *testing.T) {
	const row = "a,1.5,yes,4;20,C=50;d=5,a book,seen"
	cases := []struct{ name, old, new, want string }{
		{"no title", "# title: Demo\n", "", "# title"},
		{"no edition", "# edition: first\n", "", "# edition"},
		{"no table", "# table: 1\n", "", "# table"},
		{"no marks", "# marks: seen\n", "", "# marks"},
		{"no tolerance", "# tolerance: exact\n", "", "# tolerance"},
		{"no retrieved", "# retrieved: today\n", "", "# retrieved"},
		{"blank title", "title: Demo", "title:  ", "key: value"},
		{"title twice", "# edition: first", "# title: Again\n# edition: first", "twice"},
		{"unknown key", "# table: 1", "# table: 1\n# colour: red", `"colour" is not known`},
		{"line that is no header", "# table: 1", "# table: 1\n#hello", "line 4: \"#hello\" is not \"# key: value\""},
		{"header without its blank", "# title: Demo", "#title: Demo", "line 1: "},
		{"header without a colon", "# table: 1", "# table: 1\n# note", "line 4: "},
		{"pedigree without columns", "# table: 1", "# table: 1\n# pedigree: x", "pedigree"},
		{"pedigree without a mark", "# table: 1", "# table: 1\n# pedigree: value = source / ", "pedigree"},
		{"pedigree without a source", "# table: 1", "# table: 1\n# pedigree: value = mark", "pedigree"},
		{"pedigree without an equals sign", "# table: 1", "# table: 1\n# pedigree: value source / mark", "pedigree"},
		{"pedigree of a stray column", "# table: 1", "# table: 1\n# pedigree: x = source / mark", `no column "x"`},
		{"no source in a row", row, "a,1.5,yes,4;20,C=50;d=5,,seen", "line 8: no source"},
		{"no mark in a row", row, "a,1.5,yes,4;20,C=50;d=5,a book,", "line 8: no mark"},
		{"unknown mark", row, "a,1.5,yes,4;20,C=50;d=5,a book,sen", `"sen" is not a mark`},
		{"old spelling of a mark", row, "a,1.5,yes,4;20,C=50;d=5,a book,memory", `"memory" is not a mark`},
		{"half a good mark", row, "a,1.5,yes,4;20,C=50;d=5,a book,seen +", "not a mark"},
		{"mark not promised", row, "a,1.5,yes,4;20,C=50;d=5,a book,computed", `"computed"; the header's marks leave it out`},
		{"mark promised in vain", "marks: seen", "marks: seen; computed", "no row has it"},
		{"unknown promised mark", "marks: seen", "marks: seen; hearsay", `"hearsay" is not a mark`},
		{"source twice over", "# table: 1", "# table: 1\n# source: a book", "want one of the two"},
		{"mark twice over", "# table: 1", "# table: 1\n# mark: seen", "want either"},
		{"no source at all", ",source,", ",sauce,", "no source: want a column"},
		{"no mark at all", ",mark\n", ",marque\n", "want either"},
		{"source from a stray column", "# table: 1", "# table: 1\n# source from: book", `no column "book"`},
		{"a cell too many", row, row + ",x", "line 8: wrong number of fields"},
		{"a cell too few", row, "a,1.5", "line 8: wrong number of fields"},
		{"column twice", "name,value", "name,name", "twice"},
		{"blank column", "name,value", "name,", "column 2: name \"\" is blank"},
		{"blanks around a cell", "a,1.5", "a , 1.5", "blanks around"},
		{"cell over two lines", "a,1.5", "\"a\nb\",1.5", "spans lines"},
		{"carriage return", "a,1.5", "a\r,1.5", "line feeds"},
		{"byte-order mark", "# title", "\uFEFF# title", "byte-order"},
		{"not UTF-8", "Demo", "De\xffmo", "UTF-8"},
		{"bare quote", "a,1.5", `a"b,1.5`, "line 8"},
		{"no rows", good[strings.Index(good, "a,1.5"):], "", "no rows"},
		{"comment among the rows", row, "# a comment\n" + row, "wrong number of fields"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(good, c.old, c.new, 1)
			if text == good {
				t.Fatal("the case changes nothing")
			}
			_, err := Open(oneFile(text), "demo.csv")
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v; want %q in it", err, c.want)
			}
		})
	}
}

func TestOpenReportsEveryFault(t *testing.T) {
	text := strings.ReplaceAll(good, "a book,seen", ",seen")
	_, err := Open(oneFile(text), "demo.csv")
	if err == nil || !strings.Contains(err.Error(), "line 8") || !strings.Contains(err.Error(), "line 9") {
		t.Errorf("got %v; want both rows", err)
	}
}

func TestOpenMissingFile(t *testing.T) {
	if _, err := Open(fstest.MapFS{}, "demo.csv"); err == nil {
		t.Error("a missing file opened")
	}
}

func TestPedigreeNeedsSourceAndMark(t *testing.T) {
	const text = `# title: Demo
# edition: first
# table: 1
# pedigree: area = area_source / area_mark
# marks: seen; from memory
# tolerance: exact
# retrieved: today
name,area,source,mark,area_source,area_mark
a,1,a book,seen,another book,from memory
b,,a book,seen,,
`
	table, err := Open(oneFile(text), "demo.csv")
	if err != nil {
		t.Fatal(err)
	}
	a, b := table.Rows()[0], table.Rows()[1]
	if a.MarkOf("area") != FromMemory || a.MarkOf("name") != Seen || b.MarkOf("area") != 0 {
		t.Errorf("marks %v %v %v", a.MarkOf("area"), a.MarkOf("name"), b.MarkOf("area"))
	}
	if a.SourceOf("area") != "another book" || a.SourceOf("name") != "a book" {
		t.Errorf("sources %q %q", a.SourceOf("area"), a.SourceOf("name"))
	}
	for _, broken := range []string{"a,1,a book,seen,,from memory", "a,1,a book,seen,another book,"} {
		bad := strings.Replace(text, "a,1,a book,seen,another book,from memory", broken, 1)
		if _, err := Open(oneFile(bad), "demo.csv"); err == nil {
			t.Errorf("%q opened", broken)
		}
	}
}

package refdata

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"
)

// TestTheFileInThePackageCommentLoads, just as it stands there.
func TestTheFileInThePackageCommentLoads(t *testing.T) {
	doc, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	_, text, _ := strings.Cut(string(doc), "# A file\n")
	text, _, _ = strings.Cut(text, "// Every number")
	text = strings.NewReplacer("//\t", "", "//", "").Replace(text)
	p, err := LoadLayers(BuiltInLayer(), Layer{FS: fstest.MapFS{"tern-7.toml": {Data: []byte(text)}}})
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	x, ok := p.Procedure("tern-7")
	if !ok || len(x.Figures) != 7 || len(p.Warnings()) != 0 {
		t.Errorf("%v %v", x.Figures, p.Warnings())
	}
}

package refdata

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"
)

// A fluid nobody describes is named with those the pack has; one spelt apart only
// by separators is the one meant. Another digit is another fluid, never a slip.
func TestAnUnknownFluidSaysWhichThereAre(t *testing.T) {
	box, err := os.ReadFile("testdata/base/wigeon-5.toml")
	if err != nil {
		t.Fatal(err)
	}
	fluid, err := os.ReadFile("testdata/base/fluid.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		class  string
		fluids int
		want   string
	}{
		{"s9", 1, "\n    did you mean s-9? If not, add a file"},
		{"s9", 9, "\n    did you mean s-9? If not, add a file"},
		{"s-99", 1, "\n    add a file with kind = \"fluid\" and that id, or write one the pack has: s-9\n"},
		{"s-99", 8, "that id, or write one the pack has: s-10, s-11, s-12, s-13, s-14, s-15, s-16, s-9\n"},
		{"s-99", 9, "\n    add a file with kind = \"fluid\" and that id\n"},
	} {
		fsys := fstest.MapFS{"box.toml": {Data: []byte(strings.Replace(string(box), `"s-9"`, fmt.Sprintf("%q", tt.class), 1))}}
		for i := range tt.fluids {
			id := fmt.Sprintf(`"s-%d"`, 9+i)
			fsys[fmt.Sprintf("fluid%d.toml", i)] = &fstest.MapFile{Data: []byte(strings.Replace(string(fluid), `"s-9"`, id, 1))}
		}
		if _, err := Load(fsys, "."); err == nil || !strings.Contains(err.Error()+"\n", tt.want) {
			t.Errorf("%s among %d: %v\nwant %q", tt.class, tt.fluids, err, tt.want)
		}
	}
}

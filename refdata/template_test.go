package refdata

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
)

// TestATemplateIsRefusedUntilItIsFilledIn finds one fault at every "?", and no
// other; with examples in their place the file is good.
func TestATemplateIsRefusedUntilItIsFilledIn(t *testing.T) {
	for _, kind := range Kinds() {
		data, err := Template(kind, "tern-7")
		if err != nil {
			t.Fatal(err)
		}
		found, err := Check(fstest.MapFS{"a.toml": {Data: data}}, ".")
		if err != nil {
			t.Fatal(err)
		}
		blanks := strings.Count(string(data), `= "?"`) - strings.Count(string(data), `# at = "?"`) - strings.Count(string(data), `# density = "?"`)
		n := 0
		for _, f := range found {
			switch {
			case f.Code == "pack-blank":
				n++
			case f.Severity == "error":
				t.Errorf("%s: %v", kind, f)
			}
		}
		if n != blanks || n < 4 {
			t.Errorf("%s: %d blanks found of %d", kind, n, blanks)
		}
		if _, err := Load(fstest.MapFS{"a.toml": {Data: fill(data)}, "b.toml": {Data: []byte(fluidFor("s-2"))}}, "."); err != nil {
			t.Errorf("%s: %v\n%s", kind, err, fill(data))
		}
	}
	for _, bad := range [][2]string{{"job", "a"}, {"shop", ""}, {"shop", "A"}, {"shop", "../a"}} {
		if _, err := Template(bad[0], bad[1]); err == nil {
			t.Errorf("%v: a template", bad)
		}
	}
}

// fill puts each line's own example in the place of its "?".
func fill(data []byte) []byte {
	withExample := regexp.MustCompile(`= "\?"  # such as ("[^"]*")`)
	text := withExample.ReplaceAllString(string(data), "= $1  # ")
	text = strings.Replace(text, `low = "41 °C"`, `low = "35 °C"`, 1)
	text = strings.Replace(text, `low = "24 N·m"`, `low = "5 N·m"`, 1)
	return []byte(strings.ReplaceAll(text, `"?"`, `"filled in"`))
}

func fluidFor(id string) string {
	return fmt.Sprintf("format = 1\nkind = \"fluid\"\nid = %q\ntitle = \"x\"\n", id)
}

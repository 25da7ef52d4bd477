package refdata

import (
	"os"
	"strings"
	"testing"
)

// TestOldFormatMeansWhatItMeant loads a pack in form 0, which stays in
// testdata/v0 for ever, and compares it with the same pack in today's form.
func TestOldFormatMeansWhatItMeant(t *testing.T) {
	old, err := Load(os.DirFS("testdata"), "v0")
	if err != nil {
		t.Fatal(err)
	}
	now, err := Load(os.DirFS("testdata"), "v1")
	if err != nil {
		t.Fatal(err)
	}
	a, _ := old.Procedure("garganey-3")
	b, ok := now.Procedure("garganey-3")
	if d := same(a, b); d != "" || !ok || a.ColdDrain.IsZero() || a.Window.Low.IsZero() || a.Kept.IsZero() || a.Reference.IsZero() {
		t.Error(d, a)
	}
	f, _ := old.Fluid("s-0")
	if f.Density15 != 851 {
		t.Errorf("%+v", f)
	}
	warned := old.Warnings()
	if len(warned) != 2 || warned[0].Code != "pack-old-format" || warned[1].Code != "pack-old-format" {
		t.Errorf("%v", warned)
	}
	written, err := a.TOML()
	if err != nil || !strings.HasPrefix(string(written), "format   = 1\n") || strings.Contains(string(written), "cold_drain") {
		t.Errorf("%v\n%s", err, written)
	}
}

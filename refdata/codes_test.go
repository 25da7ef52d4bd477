package refdata

import (
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// TestTwoWorkshopsInOneLayer: one may lie over another, two may not stand side by side.
func TestTwoWorkshopsInOneLayer(t *testing.T) {
	shop := func(id string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte("format = 1\nkind = \"shop\"\nid = \"" + id + "\"\ntitle = \"x\"\n")}
	}
	for _, c := range []struct {
		name   string
		layers []Layer
		want   string
	}{
		{"one", []Layer{{FS: fstest.MapFS{"a.toml": shop("a")}}}, ""},
		{"two", []Layer{{FS: fstest.MapFS{"a.toml": shop("a"), "b.toml": shop("b")}}}, "pack-two-shops b.toml:3:6: error: id: a.toml describes a workshop as well"},
		{"one over the other", []Layer{{FS: fstest.MapFS{"a.toml": shop("a")}}, {FS: fstest.MapFS{"b.toml": shop("b")}}}, ""},
	} {
		found, err := CheckLayers(c.layers...)
		if err != nil || c.want == "" && len(found) > 0 || c.want != "" && (len(found) != 1 || !strings.HasPrefix(found[0].Code+" "+found[0].String(), c.want)) {
			t.Errorf("%s: %v, %v; want %q", c.name, found, err, c.want)
		}
	}
}

// TestEveryCodeIsShown wants a case, or a test of its own where one file is not
// enough, for each code of the sources, so that no message goes unread.
func TestEveryCodeIsShown(t *testing.T) {
	shown := read(t, "testdata", `\.want$`) + read(t, ".", `_test\.go$`)
	codes := regexp.MustCompile(`"(pack-[a-z-]+)"`).FindAllStringSubmatch(read(t, ".", `^[a-z]+\.go$`), -1)
	slices.SortFunc(codes, func(a, b []string) int { return strings.Compare(a[1], b[1]) })
	codes = slices.CompactFunc(codes, func(a, b []string) bool { return a[1] == b[1] })
	if len(codes) < 50 {
		t.Errorf("%d codes", len(codes))
	}
	for _, code := range codes {
		if !regexp.MustCompile(`(?m)(^|")` + code[1] + `[ "]`).MatchString(shown) {
			t.Errorf("%s: no case shows it", code[1])
		}
	}
}

// read gives all files of a folder whose names have a form, one after the other.
func read(t *testing.T, folder, form string) string {
	t.Helper()
	var all strings.Builder
	err := fs.WalkDir(os.DirFS(folder), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !regexp.MustCompile(form).MatchString(name) {
			return err
		}
		data, err := os.ReadFile(folder + "/" + name)
		all.Write(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all.String()
}

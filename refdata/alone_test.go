package refdata

import (
	"bytes"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

// TestFilesReadOneByOneSayTheSame compares the two ways of reading a pack: where
// no file is an overlay each is built and let go as it comes, else all are kept
// until the last is read. A comment with the word is enough for the second way.
func TestFilesReadOneByOneSayTheSame(t *testing.T) {
	compared := 0
	err := fs.WalkDir(os.DirFS("testdata"), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".toml") {
			return err
		}
		data, err := os.ReadFile("testdata/" + name)
		if err != nil || bytes.Contains(data, []byte("overlay_of")) {
			return err
		}
		compared++
		one := Layer{FS: packOf(t, data, ""), Dir: "."}
		kept := Layer{FS: packOf(t, data, "# overlay_of\n"), Dir: "."}
		first, errFirst := CheckLayers(one)
		second, errSecond := CheckLayers(kept)
		if diff := cmp.Diff(second, first); diff != "" || (errFirst == nil) != (errSecond == nil) {
			t.Errorf("%s: %v, %v: %s", name, errFirst, errSecond, diff)
		}
		samePack(t, name, one, kept)
		return nil
	})
	if err != nil || compared < 100 {
		t.Errorf("%d files compared, %v", compared, err)
	}
}

// packOf puts a file between the fluids it may name, one read before it and one after.
func packOf(t *testing.T, data []byte, more string) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{"case.toml": {Data: data}}
	for to, from := range map[string]string{"a": "fluid-s2", "z": "fluid-s6", "b": "plover-5", "y": "tern-6"} {
		text, err := os.ReadFile("builtin/" + from + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		files[to+".toml"] = &fstest.MapFile{Data: append(text, more...)}
	}
	return files
}

func samePack(t *testing.T, name string, one, kept Layer) {
	t.Helper()
	a, errA := LoadLayers(one)
	b, errB := LoadLayers(kept)
	if errA != nil || errB != nil {
		if errA == nil || errB == nil || errA.Error() != errB.Error() {
			t.Errorf("%s: %v; %v", name, errA, errB)
		}
		return
	}
	for _, id := range b.IDs() {
		x, okA := a.Procedure(id)
		y, okB := b.Procedure(id)
		if !okA || !okB || Explain(x) != Explain(y) || len(Diff(x, y)) != 0 {
			t.Errorf("%s: %s differs", name, id)
		}
	}
}

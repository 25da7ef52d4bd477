package sheet

import (
	"errors"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/meniscus/internal/brokendisk"
)

func TestAFileSystemThatAnswersNothing(t *testing.T) {
	files := fstest.MapFS{"a.toml": {Data: []byte("a = \"x\"\n")}}
	for name, fsys := range brokendisk.Mutes(files) { // order does not matter: each is read by itself
		if name == "list" { // a single file asks for no list
			continue
		}
		if doc, err := Open(fsys, "a.toml"); doc != nil || !errors.Is(err, errNeither) || !strings.HasPrefix(err.Error(), "a.toml: ") {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, way := range []string{"list", "short"} {
		list, err := fs.ReadDir(Sound(brokendisk.Mutes(files)[way]), ".")
		if !errors.Is(err, errNeither) || slices.Contains(list, nil) {
			t.Errorf("%s: %v, %v", way, list, err)
		}
	}
}

// What is sound already stays as it was, by the rules of testing/fstest too.
func TestSoundKeepsTheAnswers(t *testing.T) {
	files := fstest.MapFS{"a.toml": {Data: []byte("x")}, "b/c.toml": {Data: []byte("y")}, "l": {Data: []byte("a.toml"), Mode: fs.ModeSymlink}}
	for name, under := range map[string]fs.FS{"all ways": files, "opening alone": opener{files}} {
		if err := fstest.TestFS(Sound(under), "a.toml", "b/c.toml"); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		_, before := under.(fs.ReadLinkFS)
		if _, after := Sound(under).(fs.ReadLinkFS); before != after {
			t.Errorf("%s: can tell links: %v, then %v", name, before, after)
		}
	}
	if Sound(nil) != nil {
		t.Error("nil becomes something")
	}
	if once, _ := Sound(Sound(opener{files})).(sound); once.under == nil {
		t.Error("no sound file system")
	} else if _, twice := once.under.(sound); twice {
		t.Error("wrapped twice")
	}
}

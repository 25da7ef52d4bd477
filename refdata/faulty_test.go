package refdata

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/meniscus/internal/brokendisk"
	"example.com/meniscus/internal/sheet"
)

// TestADiskThatFailsGivesNoPack lets every single operation fail in turn: the
// error names the cause, and there is never part of a pack. Closing the folder,
// which io/fs does twice without looking, is the one failure that goes unseen; by
// then everything has been read.
func TestADiskThatFailsGivesNoPack(t *testing.T) {
	sound, err := BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	unreported := 0
	for n := 1; ; n++ {
		disk, left := brokendisk.At(builtin, n)
		p, err := Load(disk, "builtin")
		if *left > 0 {
			if err != nil || p.Hash() != sound.Hash() || n < 50 {
				t.Errorf("%d operations, then %v", n-1, err)
			}
			break
		}
		switch {
		case err == nil && p.Hash() == sound.Hash():
			unreported++
		case !errors.Is(err, brokendisk.ErrBroken) || p != nil || !strings.HasPrefix(err.Error(), "refdata: "):
			t.Errorf("operation %d: %v, pack %v", n, err, p != nil)
		}
		disk, _ = brokendisk.At(builtin, n)
		if found, err := CheckLayers(BuiltInLayer(), Layer{FS: disk, Dir: "builtin"}); err != nil && found != nil {
			t.Errorf("operation %d: findings beside an error", n)
		}
	}
	if unreported > 2 {
		t.Errorf("%d failures went unnoticed", unreported)
	}
}

// endless is a file that never ends.
type endless struct{ fstest.MapFS }

func (e endless) Open(name string) (fs.File, error) {
	f, err := e.MapFS.Open(name)
	if err != nil || !strings.HasSuffix(name, ".toml") {
		return f, err
	}
	return endlessFile{f}, nil
}

type endlessFile struct{ fs.File }

func (endlessFile) Read(b []byte) (int, error) {
	for i := range b {
		b[i] = '#'
	}
	return len(b), nil
}

func TestWhatIsRefusedUnread(t *testing.T) {
	good := &fstest.MapFile{Data: []byte(fluidFor("s-1"))}
	many := fstest.MapFS{}
	for i := range mostFiles + 1 {
		many[fmt.Sprintf("%05d.toml", i)] = &fstest.MapFile{}
	}
	heavy, data := fstest.MapFS{}, make([]byte, sheet.MaxBytes)
	for i := range mostBytes/sheet.MaxBytes + 1 {
		heavy[fmt.Sprintf("%05d.toml", i)] = &fstest.MapFile{Data: data}
	}
	for _, c := range []struct {
		name   string
		layers []Layer
		want   string
		is     error
	}{
		{"no layer", nil, "0 layers", nil},
		{"nine layers", make([]Layer, 9), "9 layers", nil},
		{"no file system", []Layer{{}}, "no file system", nil},
		{"no folder", []Layer{{FS: fstest.MapFS{"a.toml": good}, Dir: "b"}}, "not exist", fs.ErrNotExist},
		{"outside", []Layer{{FS: fstest.MapFS{"a.toml": good}, Dir: "../b"}}, "invalid", fs.ErrInvalid},
		{"absolute", []Layer{{FS: fstest.MapFS{"a.toml": good}, Dir: "/"}}, "invalid", fs.ErrInvalid},
		{"nothing", []Layer{{FS: fstest.MapFS{"a.txt": good}}}, "no .toml file", nil},
		{"link", []Layer{{FS: fstest.MapFS{"a.toml": {Data: []byte("b.toml"), Mode: fs.ModeSymlink}, "b.toml": good}}}, "not a plain file", nil},
		{"folder behind a link", []Layer{{FS: fstest.MapFS{"away": {Data: []byte("b"), Mode: fs.ModeSymlink}, "b/c/a.toml": good}, Dir: "away/c"}}, "away is a link", nil},
		{"pipe", []Layer{{FS: fstest.MapFS{"a.toml": {Mode: fs.ModeNamedPipe}}}}, "not a plain file", nil},
		{"too large", []Layer{{FS: fstest.MapFS{"a.toml": {Data: make([]byte, sheet.MaxBytes+1)}}}}, "too large", sheet.ErrTooLarge},
		{"endless", []Layer{{FS: endless{fstest.MapFS{"a.toml": good}}}}, "too large", sheet.ErrTooLarge},
		{"too heavy", []Layer{{FS: heavy}}, "00256.toml: the files before it fill the 64 MiB", nil},
		{"too many", []Layer{{FS: many}}, "more than 20000 files", nil},
	} {
		p, err := LoadLayers(c.layers...)
		if p != nil || err == nil || !strings.Contains(err.Error(), c.want) || c.is != nil && !errors.Is(err, c.is) {
			t.Errorf("%s: %v; want %q", c.name, err, c.want)
		}
	}
}

// TestALinkedFolderIsNotEntered: what stands behind a link is no part of the pack.
func TestALinkedFolderIsNotEntered(t *testing.T) {
	p, err := Load(fstest.MapFS{
		"a.toml": {Data: []byte(fluidFor("s-1"))}, "away": {Data: []byte("elsewhere"), Mode: fs.ModeSymlink},
		"elsewhere/b.txt": {Data: []byte("no pack")},
	}, ".")
	if err != nil || len(p.fluids) != 1 {
		t.Errorf("%v", err)
	}
}

// TestALinkOutOfTheFileSystemIsNotFollowed: os.DirFS itself would.
func TestALinkOutOfTheFileSystemIsNotFollowed(t *testing.T) {
	inside, outside := t.TempDir(), t.TempDir()
	if err := os.WriteFile(filepath.Join(outside, "a.toml"), []byte(fluidFor("s-1")), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(outside, filepath.Join(inside, "away")); err != nil {
		t.Skip(err)
	}
	for _, dir := range []string{".", "away", "away/."} {
		if p, err := Load(os.DirFS(inside), dir); p != nil || err == nil {
			t.Errorf("%s: followed", dir)
		}
	}
	if _, err := Load(os.DirFS(inside), "away"); err == nil || !strings.Contains(err.Error(), "away is a link") {
		t.Error(err)
	}
}

// TestADiskThatAnswersNothingGivesNoPack: an answer of nil without an error, against
// the rule of io/fs, which itself panics on it.
func TestADiskThatAnswersNothingGivesNoPack(t *testing.T) {
	for name, fsys := range brokendisk.Mutes(fstest.MapFS{"a.toml": {Data: []byte(fluidFor("s-1"))}}) { // order does not matter
		p, err := Load(fsys, ".")
		if p != nil || err == nil || !strings.HasPrefix(err.Error(), "refdata: ") || !strings.Contains(err.Error(), "neither an answer nor an error") {
			t.Errorf("%s: %v", name, err)
		}
		if found, err := Check(fsys, "."); found != nil || err == nil {
			t.Errorf("%s: %v, %v", name, found, err)
		}
	}
}

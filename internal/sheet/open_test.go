package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"testing/iotest"

	"example.com/meniscus/internal/brokendisk"
)

func TestOpen(t *testing.T) {
	fsys := fstest.MapFS{
		"tern-6.toml":        {Data: []byte("id = \"tern-6\"\n")},
		"old/plover-5.toml":  {Data: []byte("id = \"plover-5\"\n")},
		"largest.toml":       {Data: bytes.Repeat([]byte("\n"), MaxBytes)},
		"toolarge.toml":      {Data: bytes.Repeat([]byte("\n"), MaxBytes+1)},
		"pipe.toml":          {Mode: fs.ModeNamedPipe},
		"link.toml":          {Data: []byte("tern-6.toml"), Mode: fs.ModeSymlink},
		"way":                {Data: []byte("old"), Mode: fs.ModeSymlink},
		"tern-6.toml.d/x":    {},
		"folder.toml/x.toml": {},
	}
	for path, want := range map[string]error{
		"tern-6.toml": nil, "old/plover-5.toml": nil, "largest.toml": nil,
		"toolarge.toml": ErrTooLarge,
		"pipe.toml":     ErrNotPlain, "link.toml": ErrNotPlain, "folder.toml": ErrNotPlain, "way/plover-5.toml": ErrNotPlain,
		"tern-6.toml/x": ErrNotPlain,
		"none.toml":     fs.ErrNotExist, "old/none.toml": fs.ErrNotExist, "no/none.toml": fs.ErrNotExist,
		"../tern-6.toml": ErrPath, "/tern-6.toml": ErrPath, "": ErrPath, ".": ErrPath, "old//plover-5.toml": ErrPath, "./tern-6.toml": ErrPath,
		"old/../tern-6.toml": ErrPath, "\xff": ErrPath,
	} {
		doc, err := Open(fsys, path)
		if !errors.Is(err, want) || (doc == nil) != (err != nil) {
			t.Errorf("%q: %v, want %v", path, err, want)
		}
		if err != nil && !strings.HasPrefix(err.Error(), printable(path)+": ") {
			t.Errorf("%q: error does not name the file: %v", path, err)
		}
		if doc != nil && doc.Name() != path {
			t.Errorf("%q: named %q", path, doc.Name())
		}
	}
	if _, err := Open(nil, "tern-6.toml"); !errors.Is(err, ErrPath) {
		t.Errorf("no file system: %v", err)
	}
}

func TestOpenOnDisk(t *testing.T) {
	dir := t.TempDir()
	for _, err := range []error{
		os.WriteFile(filepath.Join(dir, "tern-6.toml"), []byte("id = \"tern-6\"\n"), 0o600),
		os.Mkdir(filepath.Join(dir, "old"), 0o700),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(os.Symlink("tern-6.toml", filepath.Join(dir, "link.toml")), os.Symlink("..", filepath.Join(dir, "old", "up"))); err != nil {
		t.Skip("no links here:", err)
	}
	huge, err := os.Create(filepath.Join(dir, "huge.toml"))
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(huge.Truncate(2<<30), huge.Close()); err != nil { // takes no room on the disk
		t.Fatal(err)
	}
	for path, want := range map[string]error{"tern-6.toml": nil, "link.toml": ErrNotPlain, "old/up/tern-6.toml": ErrNotPlain, "old": ErrNotPlain, "huge.toml": ErrTooLarge} {
		if _, err := Open(os.DirFS(dir), path); !errors.Is(err, want) {
			t.Errorf("%s: %v, want %v", path, err, want)
		}
	}
}

// counting counts the bytes taken from an endless file.
type counting struct{ taken int }

func (c *counting) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '\n'
	}
	c.taken += len(p)
	return len(p), nil
}

func TestReadTakesNoMoreThanItMust(t *testing.T) {
	endless := new(counting)
	if _, err := Read("endless.toml", endless); !errors.Is(err, ErrTooLarge) {
		t.Error(err)
	}
	if endless.taken != MaxBytes+1 {
		t.Errorf("took %d bytes", endless.taken)
	}
}

type impossible int

func (n impossible) Read([]byte) (int, error) { return int(n), nil }

type boastful struct{}

func (boastful) Read(p []byte) (int, error) { return len(p) + 1, nil }

func TestRead(t *testing.T) {
	text := []byte("id = \"tern-6\"\n" + strings.Repeat("# padding\n", 2000))
	broken := errors.New("cable pulled")
	for name, c := range map[string]struct {
		r    io.Reader
		want error
	}{
		"whole":       {bytes.NewReader(text), nil},
		"dribble":     {iotest.OneByteReader(bytes.NewReader(text)), nil},
		"with EOF":    {iotest.DataErrReader(bytes.NewReader(text)), nil},
		"limit":       {io.LimitReader(new(counting), MaxBytes), nil},
		"beyond":      {io.LimitReader(new(counting), MaxBytes+1), ErrTooLarge},
		"byte beyond": {iotest.OneByteReader(io.LimitReader(new(counting), MaxBytes+1)), ErrTooLarge},
		"broken":      {io.MultiReader(bytes.NewReader(text), iotest.ErrReader(broken)), broken},
		"asleep":      {impossible(0), io.ErrNoProgress},
		"none":        {nil, fs.ErrInvalid},
		"longer file": {iotest.HalfReader(bytes.NewReader(text)), nil},
	} {
		doc, err := Read(name, c.r)
		if !errors.Is(err, c.want) || (doc == nil) != (err != nil) {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
		if doc != nil && doc.src != string(text) && name != "limit" {
			t.Errorf("%s: read %d bytes", name, len(doc.src))
		}
	}
	for _, r := range []io.Reader{impossible(-1), impossible(1 << 30), boastful{}} {
		if _, err := Read("bad.toml", r); err == nil || errors.Is(err, ErrTooLarge) {
			t.Errorf("%v: a count was believed: %v", r, err)
		}
	}
}

// TestOpenFailsWhole: at whichever operation the disk fails, there is a wrapped error and no document.
func TestOpenFailsWhole(t *testing.T) {
	disk := fstest.MapFS{"old/tern-6.toml": {Data: []byte("id = \"tern-6\"\n" + strings.Repeat("# padding\n", 2000))}}
	for k := 1; ; k++ {
		broken, left := brokendisk.At(disk, k)
		doc, err := Open(broken, "old/tern-6.toml")
		if err == nil {
			if k < 8 || *left <= 0 { // looking twice, opening, looking, three reads, closing
				t.Errorf("success after %d operations, %d to the fault", k, *left)
			}
			return
		}
		if doc != nil || !errors.Is(err, brokendisk.ErrBroken) || !strings.HasPrefix(err.Error(), "old/tern-6.toml: ") {
			t.Errorf("operation %d: %v, %v", k, doc, err)
		}
		if k > 100 {
			t.Fatal("never succeeds")
		}
	}
}

func TestParseKeepsItsOwnCopy(t *testing.T) {
	data := []byte("id = \"tern-6\"\n")
	doc, err := Parse("x.toml", data)
	if err != nil {
		t.Fatal(err)
	}
	copy(data, strings.Repeat("z", len(data)))
	if got := doc.Root().Need("id").String(); got != "tern-6" {
		t.Errorf("%q", got)
	}
	if _, err := Parse("x\x1b.toml", make([]byte, MaxBytes+1)); !errors.Is(err, ErrTooLarge) || err.Error() != fmt.Sprintf(`x\x1b.toml: file too large: more than %d bytes`, MaxBytes) {
		t.Error(err)
	}
}

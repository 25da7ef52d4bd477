package brokendisk

import (
	"errors"
	"io"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
)

// Each kind of operation counts once and can be the one that fails.
func TestEveryOperationCanFail(t *testing.T) {
	under := fstest.MapFS{"dir/a": {Data: []byte(strings.Repeat("x", 1000))}}
	use := func(d fs.FS) error {
		if _, err := fs.Lstat(d, "dir"); err != nil {
			return err
		}
		if _, err := fs.ReadDir(d, "dir"); err != nil {
			return err
		}
		f, err := d.Open("dir/a")
		if err != nil {
			return err
		}
		_, looked := f.Stat()
		text, read := io.ReadAll(f)
		if read == nil && len(text) != 1000 {
			t.Errorf("%d bytes", len(text))
		}
		return errors.Join(looked, read, f.Close())
	}
	failed := 0
	for n := 1; ; n++ {
		d, left := At(under, n)
		err := use(d)
		if *left > 0 {
			if err != nil {
				t.Errorf("no fault, and yet %v", err)
			}
			break
		}
		if errors.Is(err, ErrBroken) {
			failed++
		} else if err != nil {
			t.Errorf("operation %d: %v", n, err)
		}
	}
	// Looking, opening and listing the folder, opening, looking, reading three times or
	// more, closing; only the closing of the folder goes unseen.
	if failed < 8 {
		t.Errorf("%d operations failed; want 8 or more", failed)
	}
	d, _ := At(under, 0)
	if _, err := d.Open("none"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("%v", err)
	}
	if _, err := d.ReadLink("dir/a"); err == nil {
		t.Error("a plain file is a link")
	}
}

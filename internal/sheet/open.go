package sheet

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
)

// Parse reads the bytes of one file; name is what faults call it. The only error is ErrTooLarge: everything wrong with the
// words of the file is in the Doc, as faults. Cost: below 50 ms and 10 MB allocated for any bytes up to MaxBytes.
func Parse(name string, data []byte) (*Doc, error) {
	if len(data) > MaxBytes {
		return nil, fmt.Errorf("%s: %w", printable(name), errTooLarge())
	}
	d := &Doc{name: printable(name), src: string(data)}
	d.lines = lineCounts(d.src)
	d.root = d.newTable(nil, "", 0)
	if foreign(d.src) {
		d.addAt(0, "", codeEncoding, "not a UTF-8 text file", "save it as UTF-8 without a byte-order mark (signature)")
		d.lost = true
		return d, nil
	}
	s := &scanner{doc: d, text: d.screen(), cur: d.root, done: make([]statement, 0, min(len(d.src)/24, 128))}
	s.run()
	d.judgeNames(d.root)
	d.root.prune()
	s.blank()
	d.decode(s.text)
	return d, nil
}

func errTooLarge() error { return fmt.Errorf("%w: more than %d bytes", ErrTooLarge, MaxBytes) }

// Read reads one file from r, and never more than MaxBytes+1 bytes of it. Errors: those of r, ErrTooLarge.
func Read(name string, r io.Reader) (*Doc, error) {
	if r == nil {
		return nil, fmt.Errorf("%s: %w", printable(name), fs.ErrInvalid)
	}
	data, err := Bytes(r, 4096)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", printable(name), err)
	}
	return Parse(name, data)
}

// Bytes gives what r holds, and never more than MaxBytes+1 bytes of it: whoever gets that many knows that the file is too
// large. Size is how many to expect; any number will do. Errors: those of r, io.ErrNoProgress.
func Bytes(r io.Reader, size int64) ([]byte, error) {
	buf := make([]byte, 0, min(max(size, 0), MaxBytes)+1) // the one more is where the end shows
	for idle := 0; len(buf) <= MaxBytes; {
		if len(buf) == cap(buf) {
			buf = append(buf, 0)[:len(buf)]
		}
		free := buf[len(buf):min(cap(buf), MaxBytes+1)]
		n, err := r.Read(free)
		if n < 0 || n > len(free) {
			return nil, errors.New("reader gave an impossible count")
		}
		buf = buf[:len(buf)+n]
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
		if idle++; n > 0 {
			idle = 0
		}
		if idle > 100 {
			return nil, io.ErrNoProgress
		}
	}
	return buf, nil
}

// Open reads the plain file at path, slash-separated and inside fsys. Links are refused in every part of the path as far as
// fsys can tell (fs.ReadLinkFS); for a folder that others can write to, os.Root's FS closes the gap between looking and opening.
// Errors: ErrPath, ErrNotPlain, ErrTooLarge, those of fsys; each wrapped with the path.
func Open(fsys fs.FS, path string) (doc *Doc, err error) {
	if fsys == nil || !fs.ValidPath(path) || path == "." {
		return nil, fmt.Errorf("%s: %w", printable(path), ErrPath)
	}
	fsys = Sound(fsys)
	if err := plain(fsys, path); err != nil {
		return nil, fmt.Errorf("%s: %w", printable(path), err)
	}
	file, err := fsys.Open(path)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", printable(path), err)
	}
	defer func() {
		if cerr := file.Close(); cerr != nil && err == nil {
			doc, err = nil, fmt.Errorf("%s: %w", printable(path), cerr)
		}
	}()
	info, err := file.Stat()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", printable(path), err)
	}
	if err := judgeInfo(info, false); err != nil {
		return nil, fmt.Errorf("%s: %w", printable(path), err)
	}
	return Read(path, file)
}

// plain looks at each part of the path itself, not at what a link there points to.
func plain(fsys fs.FS, path string) error {
	for i := range len(path) + 1 {
		if i < len(path) && path[i] != '/' {
			continue
		}
		info, err := fs.Lstat(fsys, path[:i])
		if err != nil {
			return err
		}
		if err := judgeInfo(info, i < len(path)); err != nil {
			return err
		}
	}
	return nil
}

func judgeInfo(info fs.FileInfo, folder bool) error {
	mode := info.Mode()
	switch {
	case folder && mode.IsDir():
		return nil
	case !folder && mode.IsRegular():
		if info.Size() > MaxBytes {
			return errTooLarge()
		}
		return nil
	}
	kind := "a device or pipe"
	switch {
	case mode.IsDir():
		kind = "a folder"
	case mode&fs.ModeSymlink != 0:
		kind = "a link; links are not followed"
	case mode.IsRegular():
		kind = "a file in the middle of a path"
	}
	return fmt.Errorf("%w: %s", ErrNotPlain, kind)
}

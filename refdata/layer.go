package refdata

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"example.com/meniscus/internal/sheet"
)

// Limits of a pack, so that a hostile folder cannot be costly. That of a single
// file is 256 KiB.
const (
	mostLayers = 8
	mostFiles  = 20_000          // in one layer
	mostErrors = sheet.MaxFaults // after the file that brings them to this many none is read
	mostBytes  = 64 << 20        // in one layer
)

// Layer is one folder of a pack that is laid over those before it: the built-in
// one, the shop's own, that of a single job.
type Layer struct {
	FS   fs.FS
	Dir  string // inside FS, slash-separated; "" is "."
	Name string // stands before file names in messages, such as the folder's path; may be empty
}

// shown is a file's name as messages give it.
func (l Layer) shown(name string) string {
	if l.Name == "" {
		return name
	}
	return strings.TrimSuffix(l.Name, "/") + "/" + name
}

// page is one file as read, before it is understood.
type page struct {
	name  string // inside the layer's folder
	shown string // in messages
	layer int
	data  []byte
}

// pages reads every .toml file of the layer, in the order of their names.
func (l Layer) pages() ([]page, error) {
	if l.FS == nil {
		return nil, errors.New("refdata: no file system to read the pack from; want an fs.FS such as os.DirFS(folder)")
	}
	l.FS = sheet.Sound(l.FS)
	if l.Dir == "" {
		l.Dir = "."
	}
	if !fs.ValidPath(l.Dir) {
		return nil, fmt.Errorf("refdata: folder %.40q: %w; want a slash-separated path inside the file system", l.Dir, fs.ErrInvalid)
	}
	names, err := l.files()
	if err != nil {
		return nil, err
	}
	list := make([]page, 0, len(names))
	total := 0
	for _, name := range names {
		data, err := content(l.FS, name)
		if err != nil {
			return nil, fmt.Errorf("refdata: %s: %w", l.shown(name), err)
		}
		if total += len(data); total > mostBytes {
			return nil, fmt.Errorf("refdata: %s: the files before it fill the %d MiB a pack may have", l.shown(name), mostBytes>>20)
		}
		list = append(list, page{name: strings.TrimPrefix(strings.TrimPrefix(name, l.Dir), "/"), shown: l.shown(name), data: data})
	}
	return list, nil
}

// files lists the layer's .toml files. A link is never followed.
func (l Layer) files() ([]string, error) {
	if err := l.unlinked(); err != nil {
		return nil, fmt.Errorf("refdata: %w", err)
	}
	var names []string
	err := fs.WalkDir(l.FS, l.Dir, func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() || path.Ext(name) != ".toml":
			return nil
		case !d.Type().IsRegular():
			return fmt.Errorf("%s is not a plain file; want files, not links", l.shown(name))
		case len(names) == mostFiles:
			return fmt.Errorf("more than %d files", mostFiles)
		}
		names = append(names, name)
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("refdata: %w", err)
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("refdata: no .toml file in %s; want at least one procedure", l.shown(l.Dir))
	}
	slices.Sort(names)
	return names, nil
}

// unlinked wants a folder that is reached without a link, as far as the file
// system can tell: WalkDir would enter one that it is given as its root.
func (l Layer) unlinked() error {
	links, ok := l.FS.(fs.ReadLinkFS)
	if !ok {
		return nil
	}
	for i := range len(l.Dir) + 1 {
		if l.Dir == "." || i < len(l.Dir) && l.Dir[i] != '/' {
			continue
		}
		info, err := links.Lstat(l.Dir[:i])
		if err != nil {
			return err
		}
		if info.Mode()&fs.ModeSymlink != 0 {
			return fmt.Errorf("%s is a link; want the folder itself", l.shown(l.Dir[:i]))
		}
	}
	return nil
}

// content reads one plain file, and never more than a sheet may have.
func content(fsys fs.FS, name string) (data []byte, err error) {
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer func() {
		if e := f.Close(); err == nil && e != nil {
			data, err = nil, e
		}
	}()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New("is not a plain file; want files, not links")
	}
	data, err = sheet.Bytes(f, info.Size())
	if err == nil && len(data) > sheet.MaxBytes {
		return nil, fmt.Errorf("%w: more than %d KiB", sheet.ErrTooLarge, sheet.MaxBytes>>10)
	}
	return data, err
}

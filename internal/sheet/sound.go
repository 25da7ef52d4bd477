package sheet

import (
	"errors"
	"io/fs"
	"slices"
)

// errNeither is a file system's own mistake: io/fs asks for one or the other.
var errNeither = errors.New("the file system gave neither an answer nor an error; want one of them")

// Sound returns fsys with every answer of nil and no error turned into an error, so that one made carelessly cannot bring
// down whoever reads from it; io/fs itself would. Nil stays nil.
func Sound(fsys fs.FS) fs.FS {
	switch under := fsys.(type) {
	case nil, soundLinks, sound:
		return fsys
	case fs.ReadLinkFS:
		return soundLinks{sound{fsys}, under}
	}
	return sound{fsys}
}

type sound struct{ under fs.FS }

// soundLinks is for a file system that can tell links from files.
type soundLinks struct {
	sound
	links fs.ReadLinkFS
}

func neither(op, path string) error { return &fs.PathError{Op: op, Path: path, Err: errNeither} }

func (s sound) Open(name string) (fs.File, error) {
	f, err := s.under.Open(name)
	switch {
	case err != nil:
		return nil, err
	case f == nil:
		return nil, neither("open", name)
	}
	if folder, ok := f.(fs.ReadDirFile); ok {
		return soundFolder{soundFile{f, name}, folder}, nil
	}
	return soundFile{f, name}, nil
}

// Stat keeps a short way that the file system has.
func (s sound) Stat(name string) (info fs.FileInfo, err error) {
	if under, ok := s.under.(fs.StatFS); ok {
		info, err = under.Stat(name)
	} else {
		info, err = fs.Stat(opener{s}, name)
	}
	return judged(info, err, name)
}

// ReadDir keeps a short way that the file system has.
func (s sound) ReadDir(name string) ([]fs.DirEntry, error) {
	under, ok := s.under.(fs.ReadDirFS)
	if !ok {
		return fs.ReadDir(opener{s}, name)
	}
	list, err := under.ReadDir(name)
	return whole(list, err, name)
}

func (s soundLinks) Lstat(name string) (fs.FileInfo, error) {
	info, err := s.links.Lstat(name)
	return judged(info, err, name)
}

func (s soundLinks) ReadLink(name string) (string, error) { return s.links.ReadLink(name) }

// opener can open and nothing else, for the long way.
type opener struct{ fs.FS }

type soundFile struct {
	fs.File
	name string
}

func (f soundFile) Stat() (fs.FileInfo, error) {
	info, err := f.File.Stat()
	return judged(info, err, f.name)
}

type soundFolder struct {
	soundFile
	under fs.ReadDirFile
}

func (f soundFolder) ReadDir(n int) ([]fs.DirEntry, error) {
	list, err := f.under.ReadDir(n)
	return whole(list, err, f.name)
}

func judged(info fs.FileInfo, err error, name string) (fs.FileInfo, error) {
	if err == nil && info == nil {
		err = neither("stat", name)
	}
	if err != nil {
		return nil, err
	}
	return info, nil
}

// whole refuses a list with a hole in it.
func whole(list []fs.DirEntry, err error, name string) ([]fs.DirEntry, error) {
	if slices.Contains(list, nil) {
		list = slices.DeleteFunc(slices.Clone(list), func(e fs.DirEntry) bool { return e == nil })
		err = errors.Join(neither("readdir", name), err)
	}
	return list, err
}

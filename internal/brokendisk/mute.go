package brokendisk

import "io/fs"

// mute is a file system that answers nothing, and gives no error either, where it
// is told to.
type mute struct {
	fs.FS
	open, stat, list bool
}

func (m mute) Open(name string) (fs.File, error) {
	if m.open {
		return nil, nil
	}
	f, err := m.FS.Open(name)
	return muteFile{f, m}, err
}

type muteFile struct {
	fs.File
	m mute
}

func (f muteFile) Stat() (fs.FileInfo, error) {
	if f.m.stat {
		return nil, nil
	}
	return f.File.Stat()
}

func (f muteFile) ReadDir(n int) ([]fs.DirEntry, error) {
	list, err := f.File.(fs.ReadDirFile).ReadDir(n)
	if f.m.list {
		list = append(list, nil)
	}
	return list, err
}

// muteShort has the short ways of io/fs, and answers nothing on any.
type muteShort struct{ fs.FS }

func (muteShort) Stat(string) (fs.FileInfo, error)      { return nil, nil }
func (muteShort) Lstat(string) (fs.FileInfo, error)     { return nil, nil }
func (muteShort) ReadLink(string) (string, error)       { return "", nil }
func (muteShort) ReadDir(string) ([]fs.DirEntry, error) { return []fs.DirEntry{nil}, nil }

// Mutes gives file systems that break the rule of io/fs, one way each.
func Mutes(under fs.FS) map[string]fs.FS {
	return map[string]fs.FS{
		"open": mute{FS: under, open: true}, "stat": mute{FS: under, stat: true},
		"list": mute{FS: under, list: true}, "short": muteShort{under},
	}
}

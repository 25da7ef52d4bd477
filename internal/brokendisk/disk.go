// Package brokendisk gives tests a file system that fails once, at an operation of
// their choice: opening, looking, listing, reading or closing.
package brokendisk

import (
	"errors"
	"io/fs"
)

// ErrBroken is what the failing operation gives.
var ErrBroken = errors.New("the disk is broken")

// Disk fails at the n-th operation of any kind, and only there. Left counts down to
// it; what it holds afterwards tells whether it came to that.
type Disk struct {
	fs.FS
	Left *int
}

// At returns the disk whose n-th operation from now fails, and the count.
func At(under fs.FS, n int) (Disk, *int) { return Disk{under, &n}, &n }

func (d Disk) step() error {
	if *d.Left--; *d.Left == 0 {
		return ErrBroken
	}
	return nil
}

// Open counts as one operation.
func (d Disk) Open(name string) (fs.File, error) {
	if err := d.step(); err != nil {
		return nil, &fs.PathError{Op: "open", Path: name, Err: err}
	}
	f, err := d.FS.Open(name)
	if err != nil {
		return nil, err
	}
	return file{f, d}, nil
}

// Lstat counts as one operation.
func (d Disk) Lstat(name string) (fs.FileInfo, error) {
	if err := d.step(); err != nil {
		return nil, err
	}
	return fs.Lstat(d.FS, name)
}

// ReadLink does not count: nothing here follows a link.
func (d Disk) ReadLink(name string) (string, error) { return fs.ReadLink(d.FS, name) }

type file struct {
	fs.File
	disk Disk
}

func (f file) Stat() (fs.FileInfo, error) {
	if err := f.disk.step(); err != nil {
		return nil, err
	}
	return f.File.Stat()
}

// Read gives a little at a time, so that every file takes several.
func (f file) Read(b []byte) (int, error) {
	if err := f.disk.step(); err != nil {
		return 0, err
	}
	return f.File.Read(b[:min(len(b), 700)])
}

func (f file) Close() error { return errors.Join(f.disk.step(), f.File.Close()) }

func (f file) ReadDir(n int) ([]fs.DirEntry, error) {
	if err := f.disk.step(); err != nil {
		return nil, err
	}
	folder, ok := f.File.(fs.ReadDirFile)
	if !ok {
		return nil, fs.ErrInvalid
	}
	return folder.ReadDir(n)
}

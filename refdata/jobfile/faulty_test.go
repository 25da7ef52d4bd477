package jobfile_test

import (
	"errors"
	"io/fs"
	"os"
	"strings"
	"testing"

	"example.com/meniscus/refdata/jobfile"
)

var errBroken = errors.New("the disk is broken")

// faulty fails at the n-th operation of any kind, and only there.
type faulty struct {
	fs.FS
	left *int
}

func (f faulty) step() error {
	if *f.left--; *f.left == 0 {
		return errBroken
	}
	return nil
}

func (f faulty) Open(name string) (fs.File, error) {
	if err := f.step(); err != nil {
		return nil, err
	}
	file, err := f.FS.Open(name)
	return faultyFile{file, f}, err
}

type faultyFile struct {
	fs.File
	fs faulty
}

func (f faultyFile) Stat() (fs.FileInfo, error) {
	if err := f.fs.step(); err != nil {
		return nil, err
	}
	return f.File.Stat()
}

func (f faultyFile) Read(b []byte) (int, error) {
	if err := f.fs.step(); err != nil {
		return 0, err
	}
	return f.File.Read(b[:min(len(b), 700)]) // several reads a file
}

func (f faultyFile) Close() error {
	_ = f.File.Close()
	return f.fs.step()
}

// Every single operation fails in turn: the error names the cause and the file, and
// there is never part of a job.
func TestADiskThatFailsGivesNoJob(t *testing.T) {
	disk := os.DirFS("../../examples/fullservice/demo")
	unseen := 0
	for n := 1; ; n++ {
		left := n
		f, err := jobfile.Open(faulty{disk, &left}, "job.toml")
		if left > 0 {
			if err != nil || len(f.Entries()) < 10 || n < 8 {
				t.Errorf("%d operations, then %v", n-1, err)
			}
			break
		}
		switch {
		case err == nil && len(f.Entries()) >= 10:
			unseen++ // the look before opening is closed without asking
		case !errors.Is(err, errBroken) || f != nil || !strings.Contains(err.Error(), "job.toml"):
			t.Errorf("operation %d: %v, job %v", n, err, f != nil)
		}
	}
	if unseen > 1 {
		t.Errorf("%d failures went unnoticed", unseen)
	}
}

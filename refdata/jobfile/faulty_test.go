package jobfile_test

import (
	"errors"
	"os"
	"strings"
	"testing"

	"example.com/meniscus/internal/brokendisk"
	"example.com/meniscus/refdata/jobfile"
)

// Every single operation fails in turn: the error names the cause and the file, and
// there is never part of a job.
func TestADiskThatFailsGivesNoJob(t *testing.T) {
	disk := os.DirFS("../../examples/fullservice/demo")
	unseen := 0
	for n := 1; ; n++ {
		broken, left := brokendisk.At(disk, n)
		f, err := jobfile.Open(broken, "job.toml")
		if *left > 0 {
			if err != nil || len(f.Entries()) < 10 || n < 8 {
				t.Errorf("%d operations, then %v", n-1, err)
			}
			break
		}
		switch {
		case err == nil && len(f.Entries()) >= 10:
			unseen++ // the look before opening is closed without asking
		case !errors.Is(err, brokendisk.ErrBroken) || f != nil || !strings.Contains(err.Error(), "job.toml"):
			t.Errorf("operation %d: %v, job %v", n, err, f != nil)
		}
	}
	if unseen > 1 {
		t.Errorf("%d failures went unnoticed", unseen)
	}
}

// An answer of nil without an error, against the rule of io/fs.
func TestADiskThatAnswersNothingGivesNoJob(t *testing.T) {
	for name, fsys := range brokendisk.Mutes(os.DirFS("../../examples/fullservice/demo")) { // order does not matter
		f, err := jobfile.Open(fsys, "job.toml")
		if name == "list" {
			if err != nil { // a single file asks for no list
				t.Error(err)
			}
			continue
		}
		if f != nil || err == nil || !strings.HasPrefix(err.Error(), "job.toml: ") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

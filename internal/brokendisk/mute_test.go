package brokendisk

import (
	"io/fs"
	"testing"
	"testing/fstest"
)

// Each of them breaks the rule where it says, and io/fs falls for it.
func TestMutesBreakTheRule(t *testing.T) {
	all := Mutes(fstest.MapFS{"a": {Data: []byte("x")}})
	if f, err := all["open"].Open("a"); f != nil || err != nil {
		t.Errorf("open: %v, %v", f, err)
	}
	if info, err := fs.Stat(all["stat"], "a"); info != nil || err != nil {
		t.Errorf("stat: %v, %v", info, err)
	}
	for _, way := range []string{"short", "list"} {
		func() {
			defer func() { _ = recover() }()
			list, err := fs.ReadDir(all[way], ".")
			if err != nil || list[len(list)-1] != nil {
				t.Errorf("%s: %v, %v", way, list, err)
			}
		}()
	}
	if len(all) != 4 {
		t.Errorf("%d ways", len(all))
	}
}

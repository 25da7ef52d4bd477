package working

import (
	"runtime"
	"slices"
	"strconv"
	"testing"
)

// Whatever grows from a working or a builder leaves all the others as they were.
func TestBuilderLeavesTheRestAlone(t *testing.T) {
	var b Builder
	var seen, want []Steps
	for i := range 200 {
		n := strconv.Itoa(i)
		b.Add("step", "", "", n)
		s := b.Steps()
		seen, want = append(seen, s), append(want, slices.Clone(s))
		branch, kept := b, s.Add("grown", "", "", n)
		branch.Add("branch", "", "", n)
		_ = append(s, Line{Quantity: "appended"})
		seen = append(seen, branch.Steps(), kept)
		want = append(want, slices.Clone(branch.Steps()), slices.Clone(kept))
	}
	for i := range seen {
		if !slices.Equal(seen[i], want[i]) {
			t.Fatalf("working %d changed: %v, was %v", i, seen[i], want[i])
		}
	}
	if n := len(b.Steps()); n != 200 || b.Steps()[199].Result != "199" {
		t.Errorf("%d steps, want 200", n)
	}
	var none *Builder
	none.Add("a", "", "", "")
	if none.Steps() != nil || (&Builder{}).Steps() != nil {
		t.Error("nothing added gives steps")
	}
}

// Adding is linear: 20 000 lines of 64 bytes are 1.3 MB, not 15 GB.
func TestBuilderIsLinear(t *testing.T) {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	var b Builder
	for range 20_000 {
		b.Add("old share", "", "", "1")
	}
	s := b.Steps()
	runtime.ReadMemStats(&after)
	if took := after.TotalAlloc - before.TotalAlloc; took > 16<<20 || len(s) != 20_000 {
		t.Errorf("%d bytes for %d steps; want at most 16 MiB", took, len(s))
	}
}

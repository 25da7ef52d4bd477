package exchange

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/meniscus/units"
)

// Every fault is named, each once: a bad target does not hide a bad drain, nor a bad
// capacity a drain that no box could give, and a first drain that was not given is not
// at fault.
func TestPlanNamesEveryFaultOnce(t *testing.T) {
	l, none := dilutionLitres, units.Range[units.VolumeDim]{}
	huge := units.Exactly(units.Litre.Of(math.NaN()))
	for _, c := range []struct {
		name string
		r    Request
		want []string
	}{
		{"drain and target", Request{Capacity: dilutionRange(t, 9, 10), Drain: dilutionRange(t, 9, 11), Target: 55},
			[]string{"drain: 11 L; want 0 to the smallest capacity, 9 L", "target 55; want 0 to 1"}},
		{"no drain and target", Request{Capacity: dilutionRange(t, 9, 10), Target: 55}, []string{"drain: 0 L; want more than 0", "target 55; want 0 to 1"}},
		{"nothing", Request{Target: math.NaN()}, []string{"capacity 0 L; want more than 0 to 500 L", "drain: 0 L; want more than 0", "target is not a number; want 0 to 1"}},
		{"both drains", Request{Capacity: dilutionRange(t, 9, 10), Drain: dilutionRange(t, 0, 11), FirstDrain: dilutionRange(t, -1, 12)},
			[]string{"drain: 11 L; want 0 to the smallest capacity, 9 L", "drain: 0 L; want more than 0",
				"first drain: -1 L; want 0 to the smallest capacity, 9 L", "first drain: 12 L; want 0 to the smallest capacity, 9 L"}},
		{"capacity and drain", Request{Capacity: dilutionRange(t, -1, 501), Drain: dilutionRange(t, 2, 502), Sump: l(-3)},
			[]string{"capacity -1 L; want more than 0 to 500 L", "capacity 501 L; want more than 0 to 500 L", "sump -3 L; want 0 (not known) to the capacity",
				"drain: 502 L; want 0 to the largest capacity of a box, 500 L"}},
		{"no capacity, good drain and sump", Request{Drain: dilutionRange(t, 2, 2), Sump: l(3)}, []string{"capacity 0 L; want more than 0 to 500 L"}},
		{"sump and drain", Request{Capacity: dilutionRange(t, 9, 10), Sump: l(11), Drain: dilutionRange(t, 2, 10)},
			[]string{"sump 11 L; want 0 (not known) to the capacity, 9 L (smallest)", "drain: 10 L; want 0 to the smallest capacity, 9 L"}},
		{"good sump, bad drain", Request{Capacity: dilutionRange(t, 9, 10), Sump: l(4), Drain: dilutionRange(t, 2, 5)}, []string{"drain: 5 L; want 0 to the sump, 4 L"}},
		{"line returns out of range", Request{Capacity: dilutionRange(t, 9, 10), Drain: dilutionRange(t, 2, 2), LineReturns: l(101)}, []string{"line returns: 101 L; want 0 to 100 L"}},
		{"no number anywhere", Request{Capacity: huge, Drain: huge, Sump: huge.Low()},
			[]string{"capacity is out of range; want more than 0 to 500 L", "sump is out of range; want 0 (not known) to the capacity",
				"drain is out of range; want 0 to the largest capacity of a box, 500 L"}},
		{"all is well but nothing drained", Request{Capacity: dilutionRange(t, 9, 10), Drain: none, FirstDrain: dilutionRange(t, 2, 2)}, []string{"drain: 0 L; want more than 0"}},
	} {
		_, err := Plan(c.r)
		if err == nil {
			t.Errorf("%s: no error", c.name)
			continue
		}
		if got := strings.Split(strings.TrimPrefix(err.Error(), "exchange: plan: "), "\n"); !slices.Equal(got, c.want) {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, strings.Join(got, "\n"), strings.Join(c.want, "\n"))
		}
	}
}

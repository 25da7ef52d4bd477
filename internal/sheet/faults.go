package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Faults is everything found wrong with one or more files, sorted by file, then by place. It is an error; errors.As finds
// the Faults, or the first Fault, inside whatever wraps it.
type Faults struct {
	All  []Fault // at most MaxFaults of each file
	More int     // how many more were found and not kept
}

// Error joins the two-line messages, with a last line for those not shown.
func (fs Faults) Error() string {
	lines := make([]string, 0, len(fs.All)+1)
	for _, f := range fs.All {
		lines = append(lines, f.Error())
	}
	if fs.More > 0 {
		lines = append(lines, fmt.Sprintf("and %d more", fs.More))
	}
	return strings.Join(lines, "\n")
}

// Unwrap gives the single faults to errors.Is and errors.As.
func (fs Faults) Unwrap() []error {
	errs := make([]error, len(fs.All))
	for i, f := range fs.All {
		errs[i] = f
	}
	return errs
}

// Errors counts the shown faults of severity Error.
func (fs Faults) Errors() int {
	n := 0
	for _, f := range fs.All {
		if f.Severity != Warning {
			n++
		}
	}
	return n
}

// Join puts the faults of several files together, in the order of file names and then of places.
func Join(lists ...Faults) Faults {
	var all Faults
	for _, fs := range lists {
		all.All = append(all.All, fs.All...)
		all.More += fs.More
	}
	sortFaults(all.All)
	return all
}

func sortFaults(list []Fault) {
	slices.SortStableFunc(list, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col),
			cmp.Compare(a.Severity, b.Severity), cmp.Compare(a.Code, b.Code), cmp.Compare(a.Key, b.Key))
	})
}

// Add records a fault of the caller's own. An empty File means this file; a Line of 0 means its first line.
// Every part is made printable, so a caller may put words of the file into it, but Echo keeps them short and quoted.
func (d *Doc) Add(f Fault) {
	if d == nil {
		return
	}
	if f.File == "" {
		f.File = d.name
	}
	if f.Line <= 0 {
		f.Line, f.Col = 1, 1
	}
	if f.Severity != Warning { // a severity nobody knows is no reason to let a sheet through
		d.refused = true
	}
	if d.full() {
		d.more++
		return
	}
	f.File, f.Key = printable(f.File), printable(f.Key)
	f.Problem, f.Do = printable(f.Problem), printable(f.Do)
	d.faults = append(d.faults, f)
}

// full reports that further faults are only counted.
func (d *Doc) full() bool { return len(d.faults) >= maxStored }

// Faults gives what has been found so far, warnings among them, sorted by place. It does not look for unknown keys:
// that is Finish.
func (d *Doc) Faults() Faults {
	if d == nil {
		return Faults{}
	}
	all := slices.Clone(d.faults)
	sortFaults(all)
	more := d.more
	if len(all) > MaxFaults { // errors come before warnings when not all can be shown
		slices.SortStableFunc(all, func(a, b Fault) int { return cmp.Compare(a.Severity, b.Severity) })
		more += len(all) - MaxFaults
		all = all[:MaxFaults:MaxFaults]
		sortFaults(all)
	}
	return Faults{All: all, More: more}
}

// Refused reports whether a fault of severity Error was found so far.
func (d *Doc) Refused() bool { return d != nil && d.refused }

// Err gives the faults found so far as an error, or nil if none of them is of severity Error.
func (d *Doc) Err() error {
	if !d.Refused() {
		return nil
	}
	return d.Faults()
}

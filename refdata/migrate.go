package refdata

import (
	"fmt"
	"strings"

	"example.com/meniscus/internal/sheet"
)

// The forms of a file that are read. Old ones stay readable for ever; a key
// that was renamed is found under its old name, at its own line.
const (
	oldestFormat  = 0
	currentFormat = 1
)

// oldName gives the name that the file's own form uses for a name of today's.
func (f *file) oldName(v *view, name string) string {
	if f.format == currentFormat {
		return name
	}
	for _, r := range renamed() {
		table, key := r.split()
		if key == name && table == v.path {
			return r.old
		}
	}
	return name
}

// rename is one key that had another name in form 0.
type rename struct{ now, old string }

func (r rename) split() (table, key string) {
	i := strings.LastIndexByte(r.now, '.')
	if i < 0 {
		return "", r.now
	}
	return r.now[:i], r.now[i+1:]
}

func renamed() [5]rename {
	return [5]rename{
		{"capacity.drain", "cold_drain"},
		{"capacity.at", "reference"},
		{"window", "check_window"},
		{"fluid.kept", "pump_keeps"},
		{"fluid.density_15", "density"},
	}
}

// readFormat takes the form of a file; a file of an unknown form is left alone.
func (f *file) readFormat(root *sheet.Table) bool {
	f.format = currentFormat
	n, ok := root.Integer("format")
	switch {
	case !ok:
		return true // its fault is recorded; the rest is read as today's form
	case n > currentFormat:
		root.Fault("pack-format", fmt.Sprintf("format %d is newer than this program knows", n), fmt.Sprintf("write format = %d, or use a newer program", currentFormat))
		return false
	case n < currentFormat:
		f.format = n
		root.Warn("pack-old-format", fmt.Sprintf("format %d is old; it is read as it was meant", n), "write the file anew with Procedure.TOML, or set format = 1 and rename "+renames())
	}
	return true
}

func renames() string {
	var list []string
	for _, r := range renamed() {
		_, key := r.split()
		list = append(list, r.old+" to "+key)
	}
	return strings.Join(list, ", ")
}

package refdata

import (
	"fmt"
	"io/fs"

	"example.com/meniscus/internal/sheet"
)

// Finding is one thing that is wrong or unusual in a pack, as data.
type Finding struct {
	Severity string // "error" or "warning"
	File     string
	Line     int // 0: no place in the file
	Col      int
	Key      string // dotted path
	Code     string // stable, such as "pack-torque-unusual"
	Reason   string // what is wrong, in shop words; a table is named with its mark
	Do       string // one thing to do
}

// String returns "file:line:col: severity: key: reason" and, on a second line,
// what to do.
func (f Finding) String() string {
	return fmt.Sprintf("%s:%d:%d: %s: %s: %s\n    %s", f.File, f.Line, f.Col, f.Severity, f.Key, f.Reason, f.Do)
}

// Check returns every finding of the pack in the folder dir, errors and
// warnings, sorted by place. The error is for what kept the folder from being
// read at all.
func Check(fsys fs.FS, dir string) ([]Finding, error) { return CheckLayers(Layer{FS: fsys, Dir: dir}) }

// CheckLayers is Check for folders laid over each other, as LoadLayers reads them.
func CheckLayers(layers ...Layer) ([]Finding, error) {
	_, faults, err := load(layers)
	if err != nil {
		return nil, err
	}
	return findings(faults), nil
}

func findings(faults sheet.Faults) []Finding {
	var out []Finding
	for _, f := range faults.All {
		out = append(out, Finding{
			Severity: f.Severity.String(), File: f.File, Line: f.Line, Col: f.Col, Key: f.Key,
			Code: f.Code, Reason: f.Problem, Do: f.Do,
		})
	}
	return out
}

// Warnings returns what was unusual in the files of the pack.
func (p *Pack) Warnings() []Finding { return append([]Finding(nil), p.warnings...) }

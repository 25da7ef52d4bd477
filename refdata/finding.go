package refdata

import (
	"fmt"
	"io/fs"
	"strings"

	"example.com/meniscus/internal/sheet"
)

// Finding is one thing that is wrong or unusual in a pack, as data.
type Finding struct {
	Severity string // "error" or "warning"
	File     string
	Line     int // 0: no place in the file
	Col      int
	Key      string // dotted path
	Value    string // as written; empty where the finding is about more than one value
	Code     string // stable, such as "pack-torque-unusual"
	Reason   string // what is wrong, in shop words; a table is named with its mark
	Do       string // one thing to do
	Source   string // what the figure was held against; empty where the file alone is at fault
}

// String returns "file:line:col: severity: key: reason" and, on a second line,
// what to do.
func (f Finding) String() string {
	return fmt.Sprintf("%s:%d:%d: %s: %s: %s\n    %s", f.File, f.Line, f.Col, f.Severity, f.Key, f.Reason, f.Do)
}

// Check returns the findings of the pack in the folder dir, errors and warnings,
// sorted by place: every one of each file it reads, or 200 where a single file has
// more. It reads every file, unless the errors come to 200: then the files that are
// left are counted in a finding of their own, "pack-not-read". The error is for what
// kept the folder from being read at all.
func Check(fsys fs.FS, dir string) ([]Finding, error) { return CheckLayers(Layer{FS: fsys, Dir: dir}) }

// CheckLayers is Check for folders laid over each other, as LoadLayers reads them.
func CheckLayers(layers ...Layer) ([]Finding, error) {
	b, faults, err := load(layers)
	if err != nil {
		return nil, err
	}
	return b.findings(faults), nil
}

// findings gives faults as data.
func (b *builder) findings(faults sheet.Faults) []Finding {
	docs := map[string]*sheet.Doc{}
	for _, doc := range b.docs {
		docs[doc.Name()] = doc
	}
	var out []Finding
	for _, f := range faults.All {
		out = append(out, Finding{
			Severity: f.Severity.String(), File: f.File, Line: f.Line, Col: f.Col, Key: f.Key, Value: valueAt(docs[f.File].Root(), f.Key),
			Code: f.Code, Reason: f.Problem, Do: f.Do, Source: against(f.Code),
		})
	}
	return out
}

// valueAt finds the words under a dotted path; none for a table or a list.
func valueAt(t *sheet.Table, path string) string {
	for {
		first, rest, deeper := strings.Cut(path, ".")
		switch {
		case deeper && t.Kind(first) == sheet.Group:
			t, path = t.Sub(first), rest
		case !deeper && (t.Kind(first) == sheet.String || t.Kind(first) == sheet.Text):
			return t.Text(first).String()
		default:
			return ""
		}
	}
}

// against names what a check rests on. Only the strong ones refuse a file.
func against(code string) string {
	switch code {
	case "pack-torque-unusual":
		return "torque_bands, computed from published values that differ 2.2 to 3.6 times"
	case "pack-key-too-weak", "pack-unusual-key":
		return "drives (ISO 2936, ISO 1174-1), from memory"
	case "pack-no-such-key":
		return "drives (ISO 10664, ISO 272), seen"
	case "pack-unusual-drive":
		return "plugs (DIN 908, DIN 906, DIN 910, DIN 7604), mark beside each row"
	case "pack-ring-unusual":
		return "sealing_rings (DIN 7603), from memory"
	case "pack-thread":
		return "threads (ISO 261, ISO 262, ISO 7-1, ISO 228-1, ASME B1.20.1), seen"
	case "pack-fit", "pack-washer", "pack-plug", "pack-fit-unchecked":
		return "geometry of the measured parts"
	case "pack-capacity-unusual", "pack-drain-unusual", "pack-window-unusual", "pack-bolder":
		return "our judgement"
	}
	return ""
}

// Warnings returns what was unusual in the files of the pack.
func (p *Pack) Warnings() []Finding { return append([]Finding(nil), p.known().warnings...) }

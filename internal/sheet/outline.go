package sheet

import "slices"

// Line is one header or key as it stands in the file.
type Line struct {
	Path    string // dotted
	At      Pos    // of the bracket, or of the key
	Header  bool
	Under   string // path of the header it stands under; its own for a header, empty above the first
	UnderAt Pos    // place of that header
}

// Outline gives every accepted header and key in the order of the file.
func (d *Doc) Outline() []Line {
	if d == nil {
		return nil
	}
	lines := d.Root().outline(nil)
	slices.SortStableFunc(lines, func(a, b Line) int { return a.At.Offset - b.At.Offset })
	return lines
}

func (t *Table) outline(lines []Line) []Line {
	if t.explicit {
		lines = append(lines, Line{Path: t.path(), At: t.At(), Header: true, Under: t.path(), UnderAt: t.At()})
	}
	for _, m := range t.order {
		switch {
		case m.dead():
		case m.sub != nil:
			lines = m.sub.outline(lines)
		default:
			lines = append(lines, Line{Path: t.path(m.name), At: t.doc.pos(m.off), Under: t.path(), UnderAt: t.At()})
		}
	}
	return lines
}

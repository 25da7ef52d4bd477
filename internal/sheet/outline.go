package sheet

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
	var lines []Line
	for _, st := range d.done {
		switch {
		case !st.live():
		case st.table != nil:
			t := st.table
			lines = append(lines, Line{Path: t.path(), At: t.At(), Header: true, Under: t.path(), UnderAt: t.At()})
		default:
			t := st.key.table
			lines = append(lines, Line{Path: t.path(st.key.name), At: d.pos(st.key.off), Under: t.path(), UnderAt: t.At()})
		}
	}
	return lines
}

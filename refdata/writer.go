package refdata

import (
	"errors"
	"fmt"
	"strings"

	"example.com/meniscus/internal/sheet"
)

// TOML returns the procedure as a canonical file that Load reads back equal:
// sections in one order, every value with its source, the words of a figure kept
// where they still mean the value and exact ones written where they do not. What
// overlays said is folded in. Every value needs a figure that names its source; the
// first hundred without one are told in the error. More plugs and washers than a file
// can hold, 2048, are refused.
func (p Procedure) TOML() ([]byte, error) {
	if len(p.Plugs)+len(p.Washers) > mostParts {
		return nil, fmt.Errorf("refdata: %.40q: %d plugs and %d washers; want at most %d together, as in a file", p.ID, len(p.Plugs), len(p.Washers), mostParts)
	}
	w := writer{figures: indexFigures(p.Figures), renamed: map[string]string{}, taken: map[string]int{}}
	w.head("procedure", p.ID, p.Title, p.Revision)
	w.list("cautions", p.Cautions)
	w.list("notes", p.Notes)
	w.prepare(p.lines())
	if w.errs == nil {
		w.writeSources()
	}
	for table := range w.tables() {
		w.table(table)
	}
	if w.more > 0 {
		w.errs = append(w.errs, fmt.Errorf("and %d more", w.more))
	}
	if w.errs != nil {
		return nil, fmt.Errorf("refdata: %.40q: %w", p.ID, errors.Join(w.errs...))
	}
	return w.checked(p.ID)
}

// writer puts one file together.
type writer struct {
	b       strings.Builder
	figures figureIndex
	lines   []written
	sources []Source
	taken   map[string]int    // names of sources, and with which number the search for another goes on
	renamed map[string]string // source, with all it says, to its name in this file
	errs    []error
	more    int // errors that are not told
}

const (
	mostParts = sheet.MaxNames / 2 // plugs and washers of a file: the header of each is two names
	mostTold  = 100                // missing sources that a message spells out
)

// written is one line with the figure that vouches for it.
type written struct {
	line
	figure Figure
}

// from is the words that name the figure's source in the new file.
func (w *writer) from(f Figure) string {
	return strings.TrimSpace(w.renamed[identity(f.Source)] + " " + f.Place)
}

func identity(s Source) string { return fmt.Sprintf("%q", s) }

func (w *writer) head(kind, id, title, revision string) {
	fmt.Fprintf(&w.b, "format   = %d\nkind     = %s\nid       = %s\ntitle    = %s\n", currentFormat, quote(kind), quote(id), quote(title))
	if revision != "" {
		fmt.Fprintf(&w.b, "revision = %s\n", quote(revision))
	}
}

func (w *writer) list(name string, items []string) {
	if len(items) == 0 {
		return
	}
	var quoted []string
	for _, s := range items {
		quoted = append(quoted, quote(s))
	}
	fmt.Fprintf(&w.b, "%-8s = [%s]\n", name, strings.Join(quoted, ", "))
}

// prepare finds the figure of every line and gives every source a name of its own.
func (w *writer) prepare(lines []line) {
	for _, l := range lines {
		if l.text == "" {
			continue
		}
		f, ok := w.figures.find(l.path())
		switch {
		case l.bare:
		case !ok && len(w.errs) == mostTold:
			w.more++
		case !ok:
			w.errs = append(w.errs, fmt.Errorf("%.40s has no source; want a Figure with that Key", strings.ToValidUTF8(l.path(), "�")))
		case l.same(f.Text):
			l.text = f.Text
		}
		w.add(l, f)
		if again, ok := w.figures.find(l.path() + "_also"); ok {
			w.add(line{table: l.table, key: l.key + "_also", text: again.Text}, again)
		}
	}
}

func (w *writer) add(l line, f Figure) {
	w.lines = append(w.lines, written{l, f})
	if l.bare || w.renamed[identity(f.Source)] != "" {
		return
	}
	base := f.Source.Name
	name, n := base, max(2, w.taken[base])
	for ; w.taken[name] > 0; n++ {
		name = fmt.Sprintf("%s-%d", base, n)
	}
	w.taken[base] = n
	w.taken[name] = max(1, w.taken[name])
	w.renamed[identity(f.Source)] = name
	f.Source.Name = name
	w.sources = append(w.sources, f.Source)
}

func (w *writer) writeSources() {
	for _, s := range w.sources {
		fmt.Fprintf(&w.b, "\n[source.%s]\ntitle = %s\nkind  = %s\n", s.Name, quote(s.Title), quote(s.Kind))
		if s.Date != "" {
			fmt.Fprintf(&w.b, "date  = %s\n", quote(s.Date))
		}
		if s.Note != "" {
			fmt.Fprintf(&w.b, "note  = %s\n", quote(s.Note))
		}
	}
}

// tables walks over the tables in the order of the lines, each with its lines.
func (w *writer) tables() func(yield func([]written) bool) {
	return func(yield func([]written) bool) {
		for i := 0; i < len(w.lines); {
			n := i
			for n < len(w.lines) && w.lines[n].table == w.lines[i].table {
				n++
			}
			if !yield(w.lines[i:n]) {
				return
			}
			i = n
		}
	}
}

// table writes one table: what most of its values come from on top, then those
// values, then the others, each in a table of its own.
func (w *writer) table(lines []written) {
	fmt.Fprintf(&w.b, "\n[%s]\n", lines[0].table)
	most := w.most(lines)
	if most != "" {
		fmt.Fprintf(&w.b, "%-8s = %s\n", "from", quote(most))
	}
	var own []written
	for _, l := range lines {
		if l.bare || w.from(l.figure) == most && l.figure.plain() {
			fmt.Fprintf(&w.b, "%-8s = %s\n", l.key, quote(l.text))
			continue
		}
		own = append(own, l)
	}
	for _, l := range own {
		fmt.Fprintf(&w.b, "[%s]\nvalue = %s\nfrom  = %s\n", l.path(), quote(l.text), quote(w.from(l.figure)))
		if l.figure.Trust != trustOf(l.figure.Source.Kind) {
			fmt.Fprintf(&w.b, "trust = %s\n", quote(l.figure.Trust))
		}
		if l.figure.Note != "" {
			fmt.Fprintf(&w.b, "note  = %s\n", quote(l.figure.Note))
		}
	}
}

// plain reports whether a figure needs nothing said beside its source.
func (f Figure) plain() bool { return f.Note == "" && f.Trust == trustOf(f.Source.Kind) }

// most is the source and place that most plain values of a table share, the
// first of equals.
func (w *writer) most(lines []written) string {
	var froms []string
	votes := map[string]int{}
	for _, l := range lines {
		if !l.bare && l.figure.plain() {
			from := w.from(l.figure)
			froms = append(froms, from)
			votes[from]++
		}
	}
	best, most := "", 0
	for _, from := range froms {
		if votes[from] > most {
			best, most = from, votes[from]
		}
	}
	return best
}

// checked reads what was written once more: words no sheet may hold, such as a
// hidden character in a title made by a program, come out as an error here.
func (w *writer) checked(id string) ([]byte, error) {
	data := []byte(w.b.String())
	doc, err := sheet.Parse(fmt.Sprintf("%.40s.toml", id), data)
	if err != nil {
		return nil, fmt.Errorf("refdata: %.40q: %w", id, err)
	}
	checks, err := allChecks()
	if err != nil {
		return nil, fmt.Errorf("refdata: %w", err)
	}
	b := newBuilder(checks)
	b.quiet = true
	b.read(0, doc)
	if faults := b.finish(); faults.Errors() > 0 {
		return nil, fmt.Errorf("refdata: what was written cannot be read back: %w", faults)
	}
	return data, nil
}

// quote writes words as a TOML string; of several lines, as a text.
func quote(s string) string {
	s = strings.ReplaceAll(s, `\`, `\\`)
	if strings.Contains(s, "\n") {
		return `"""` + "\n" + strings.ReplaceAll(s, `"`, `\"`) + `"""`
	}
	return `"` + strings.ReplaceAll(s, `"`, `\"`) + `"`
}

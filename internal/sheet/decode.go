package sheet

import (
	"errors"
	"fmt"
	"strings"

	"github.com/BurntSushi/toml"
)

// blank takes refused statements out of the text, so that the library reads only what has the form of a sheet.
// An accepted file goes to it unchanged, comments and all.
func (s *scanner) blank() {
	for _, st := range s.done {
		if st.live() {
			continue
		}
		for i := st.start; i < st.end; i++ {
			if s.text[i] != '\n' && s.text[i] != '\r' {
				s.text[i] = ' '
			}
		}
	}
	if s.stopped {
		s.text = s.text[:s.at]
	}
}

func (st statement) live() bool {
	switch {
	case st.table != nil:
		return !st.table.dead
	case st.key != nil:
		return !st.key.dead
	}
	return false
}

// decode lets the TOML library say what each accepted value is. The scanner has settled the form already: a complaint of
// the library, or a difference between the two, means that one of them is wrong about TOML, and nothing is taken from the file.
func (d *Doc) decode(text string) {
	tree, err := library(text)
	if err != nil {
		d.refuseAll(err)
		return
	}
	names, ok := d.fill(d.root, tree)
	if want := count(tree); ok && names != want {
		d.disagree(0, "", fmt.Sprintf("%d names against %d", names, want))
	}
}

// library decodes the text; a panic inside it becomes an error.
func library(text string) (tree map[string]any, err error) {
	defer func() {
		if r := recover(); r != nil {
			tree, err = nil, fmt.Errorf("the TOML library failed: %v", r)
		}
	}()
	_, err = toml.Decode(text, &tree)
	return tree, err
}

func (d *Doc) refuseAll(err error) {
	off, message := 0, err.Error()
	var parse toml.ParseError
	if errors.As(err, &parse) {
		off, message = parse.Position.Start, parse.Message
	}
	d.addAt(off, "", codeLibrary, "not TOML: "+message, "mend this line")
	d.root.kill()
	d.lost = true
}

func (d *Doc) disagree(off int, key, how string) {
	d.addAt(off, key, codeDisagree, "this file can be read in two ways ("+how+")", "write this part more simply")
	d.root.kill()
	d.lost = true
}

// fill takes the values over and gives the number of names it found a value for; false once the two differ.
func (d *Doc) fill(t *Table, tree map[string]any) (n int, ok bool) {
	for _, m := range t.order {
		if m.dead() {
			continue
		}
		n++
		if m.key != nil {
			if !m.key.take(tree[m.name]) {
				d.disagree(m.off, t.path(m.name), "a value here")
				return n, false
			}
			continue
		}
		inner, ok := tree[m.name].(map[string]any)
		if !ok {
			d.disagree(m.off, t.path(m.name), "a table here")
			return n, false
		}
		within, ok := d.fill(m.sub, inner)
		n += within
		if !ok {
			return n, false
		}
	}
	return n, true
}

// take sets the entry's words from the decoded value, and reports whether it has the kind the scanner saw.
func (e *entry) take(value any) bool {
	switch v := value.(type) {
	case string:
		e.text = v
		if e.kind == Text {
			e.text = strings.ReplaceAll(v, "\r\n", "\n") // the same words from a file saved on any system
		}
		return e.kind == String || e.kind == Text
	case int64:
		e.text = fmt.Sprint(v)
		return e.kind == Integer
	case []any:
		if e.kind != List || len(v) != len(e.items) {
			return false
		}
		for i := range v {
			text, ok := v[i].(string)
			if !ok {
				return false
			}
			e.items[i].text = text
		}
		return true
	}
	return false
}

// count gives the number of names in a decoded tree.
func count(tree map[string]any) int {
	n := len(tree)
	for _, value := range tree { // order does not matter: a sum of counts
		if sub, ok := value.(map[string]any); ok {
			n += count(sub)
		}
	}
	return n
}

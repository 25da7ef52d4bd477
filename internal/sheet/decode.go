package sheet

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"
)

// blank takes refused statements out of the text, so that the library reads only what has the form of a sheet.
// An accepted file goes to it unchanged, comments and all.
func (s *scanner) blank() {
	text := s.text
	if s.stopped {
		text = text[:s.at]
	}
	var b strings.Builder
	for _, st := range s.done {
		if st.refused != nil && !*st.refused {
			continue
		}
		start, end := int(st.start), min(int(st.end), len(text))
		if b.Cap() == 0 {
			b.Grow(len(text))
		}
		b.WriteString(text[b.Len():min(max(start, b.Len()), len(text))])
		for b.Len() < end {
			if c := text[b.Len()]; c == '\n' || c == '\r' {
				b.WriteByte(c)
			} else {
				b.WriteByte(' ')
			}
		}
	}
	s.text = text
	if b.Cap() > 0 {
		b.WriteString(text[b.Len():])
		s.text = b.String()
	}
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
	var whole any // into a map, the library would copy its own
	_, err = toml.Decode(text, &whole)
	tree, _ = whole.(map[string]any)
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
		if m.sub == nil {
			if !m.take(d.src, tree[m.name]) {
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

// take sets a key's words from the decoded value, and reports whether it has the kind the scanner saw.
func (m *member) take(src string, value any) bool {
	switch v := value.(type) {
	case string:
		m.text = asWritten(src, m.valOff, v)
		if m.kind == Text {
			m.text = strings.ReplaceAll(v, "\r\n", "\n") // the same words from a file saved on any system
		}
		return m.kind == String || m.kind == Text
	case int64:
		m.text = strconv.FormatInt(v, 10)
		return m.kind == Integer
	case []any:
		if m.kind != List || len(v) != len(m.items) {
			return false
		}
		for i := range v {
			text, ok := v[i].(string)
			if !ok {
				return false
			}
			m.items[i].text = asWritten(src, m.items[i].off, text)
		}
		return true
	}
	return false
}

// asWritten gives the words from the file itself if they stand there, behind the quote at off, as the library read them:
// so that the library's own copy of the file need not be kept.
func asWritten(src string, off int, words string) string {
	if from := off + 1; strings.HasPrefix(src[min(from, len(src)):], words) {
		return src[from : from+len(words)]
	}
	return words
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

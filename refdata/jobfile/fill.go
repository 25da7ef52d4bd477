package jobfile

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/meniscus/exchange/jobcard"
)

// Fill appends every entry to the card. Refused entries leave the card as it
// was; all of them are reported together, each at its own line. What is wrong after
// the first may only follow from it, and says so.
func (f *File) Fill(card *jobcard.Card) error {
	f = f.known()
	told := teller{tables: map[int]string{}}
	for _, l := range f.entries {
		err := card.Append(l.entry)
		if err == nil {
			told.tables[card.Len()] = l.table.Path()
			continue
		}
		do := "put the entry right, or the order of the entries"
		switch {
		case told.refused != "":
			do += ", but first " + told.refused + ": this may only follow from it"
		case l.entry.Kind == jobcard.Struck:
			do = "name the entry by its place on the card, counted from 1"
		}
		l.table.Fault("job-entry", told.reason(err), do)
		if told.refused == "" {
			told.refused = l.table.Path()
		}
	}
	return f.doc.Err()
}

// teller tells a card's refusal in the words of the file.
type teller struct {
	tables  map[int]string // the table each entry of the card came from
	refused string         // the first table that was refused
}

// reason drops the card's own "jobcard: entry 3 (drained): " where the fault's
// place says it already, and the names of packages, and says beside the number of an
// entry of the card which table of the file it is.
func (t teller) reason(err error) string {
	text := strings.ReplaceAll(err.Error(), "\n", "; ")
	if _, rest, ok := strings.Cut(text, "): "); ok && strings.HasPrefix(text, "jobcard: entry ") {
		text = rest
	}
	return t.numbered(plainly(text))
}

// plainly leaves out the names of packages that a developer is told.
func plainly(text string) string {
	return strings.NewReplacer("jobcard: ", "", "exchange: ", "", "sealing: ", "", "thermal: ", "", "units: ", "", "measure: ", "").Replace(text)
}

// numbered writes "entry 9 ([entry.80])" for "entry 9".
func (t teller) numbered(text string) string {
	const before = "entry "
	var b strings.Builder
	for {
		i := strings.Index(text, before)
		if i < 0 {
			return b.String() + text
		}
		i += len(before)
		digits := len(text[i:]) - len(strings.TrimLeft(text[i:], "0123456789"))
		b.WriteString(text[:i+digits])
		if n, err := strconv.Atoi(text[i : i+digits]); err == nil && t.tables[n] != "" {
			fmt.Fprintf(&b, " ([%s])", t.tables[n])
		}
		text = text[i+digits:]
	}
}

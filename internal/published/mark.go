package published

import (
	"fmt"
	"strings"
)

// Mark says how a figure was obtained. The order is the order of trust, the
// weakest first; the zero value is no mark at all.
type Mark uint8

const (
	// FromMemory was remembered and not seen: it may warn, never refuse.
	FromMemory Mark = iota + 1
	// Judgement is our own choice.
	Judgement
	// CommonPractice is a fact of the trade with no published source.
	CommonPractice
	// Computed came out of an equation here: a regression value, not evidence.
	Computed
	// SeenSecondHand was read where another work quotes it.
	SeenSecondHand
	// Seen was read in the text itself.
	Seen
)

// Marks lists every mark, the weakest first.
func Marks() []Mark {
	return []Mark{FromMemory, Judgement, CommonPractice, Computed, SeenSecondHand, Seen}
}

// String gives the spelling used in the tables.
func (m Mark) String() string {
	switch m {
	case FromMemory:
		return "from memory"
	case Judgement:
		return "judgement"
	case CommonPractice:
		return "common practice"
	case Computed:
		return "computed"
	case SeenSecondHand:
		return "seen second-hand"
	case Seen:
		return "seen"
	}
	return "no mark"
}

// parseMark reads one mark. Only the spelling of String is accepted: a second
// spelling would be a second meaning before long.
func parseMark(text string) (Mark, error) {
	for _, m := range Marks() {
		if text == m.String() {
			return m, nil
		}
	}
	return 0, fmt.Errorf("%q is not a mark; want one of %s", clip(text), spellings())
}

// parseMarks reads marks joined by sep. A row whose parts were obtained in
// different ways carries them all: "seen + computed".
func parseMarks(text, sep string) ([]Mark, error) {
	if text == "" {
		return nil, fmt.Errorf("no mark; want one of %s", spellings())
	}
	var marks []Mark
	for part := range strings.SplitSeq(text, sep) {
		m, err := parseMark(part)
		if err != nil {
			return nil, err
		}
		marks = append(marks, m)
	}
	return marks, nil
}

func weakest(marks []Mark) Mark {
	least := Mark(0)
	for _, m := range marks {
		if least == 0 || m < least {
			least = m
		}
	}
	return least
}

func spellings() string {
	var names []string
	for _, m := range Marks() {
		names = append(names, m.String())
	}
	return strings.Join(names, ", ")
}

// clip keeps a hostile or broken cell from filling the log.
func clip(s string) string {
	const most = 40
	if len(s) <= most {
		return s
	}
	return s[:most] + "…"
}

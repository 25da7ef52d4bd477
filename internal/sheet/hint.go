package sheet

import "strings"

// Hint puts the one of words that v was most likely meant to be before the one thing to do; do alone if none is close.
func (v Value) Hint(do string, words ...string) string {
	if near := nearest(v.text, words); near != "" {
		return meaning(near, do)
	}
	return do
}

// Respelt is Hint for ids, where another letter or digit is another thing: only separators may differ.
func (v Value) Respelt(do string, ids ...string) string {
	if id := respelt(v.text, ids); id != "" {
		return meaning(id, do)
	}
	return do
}

func meaning(near, do string) string { return "did you mean " + near + "? If not, " + do }

// nearest gives the candidate that word was most likely meant to be, the first of equals, or "" if none is close: one that
// differs by separators alone, else by one slip in a short word and two in a longer one, else one that is akin. It is a
// hint for the writer and is never acted upon.
func nearest(word string, candidates []string) string {
	if len(word) > MaxKey {
		return ""
	}
	if same := respelt(word, candidates); same != "" {
		return same
	}
	best, least := "", slips(word)+1
	for _, c := range candidates {
		if len(c) > MaxKey || max(len(c)-len(word), len(word)-len(c)) >= least {
			continue
		}
		if n := distance(word, c); n < least {
			best, least = c, n
		}
	}
	if best != "" {
		return best
	}
	return nearestAkin(word, candidates)
}

// respelt gives the candidate that differs from word by separators alone, or "".
func respelt(word string, candidates []string) string {
	for _, c := range candidates {
		if word != "" && sameLetters(word, c) {
			return c
		}
	}
	return ""
}

// nearestAkin gives the candidate that has most in common with word, of equals the one with the fewest slips.
func nearestAkin(word string, candidates []string) string {
	best, most, least := "", 0, 0
	for _, c := range candidates {
		if len(c) > MaxKey {
			continue
		}
		n := akin(word, c)
		if n == 0 || n < most {
			continue
		}
		if d := distance(word, c); n > most || d < least {
			best, most, least = c, n, d
		}
	}
	return best
}

// akin counts the letters two names have in common: their beginning, if that is the whole of the shorter one, as in film and
// film_each_time, or all but its last letter, as in entry and entries; else the words in both, as in max_cycles and
// most_cycles. Less than three letters are chance, and less than four where a letter is dropped.
func akin(a, b string) int {
	start := 0
	for start < min(len(a), len(b)) && a[start] == b[start] {
		start++
	}
	if shorter := min(len(a), len(b)); start >= 3 && start == shorter || start >= 4 && start == shorter-1 {
		return start
	}
	n := 0
	for w := range strings.FieldsFuncSeq(a, separates) {
		for other := range strings.FieldsFuncSeq(b, separates) {
			if len(w) >= 3 && w == other {
				n += len(w)
				break
			}
		}
	}
	return n
}

func separates(r rune) bool { return r == '_' || r == '-' || r == ' ' }

// sameLetters reports whether two words differ by separators at most, as s2 and s-2 do.
func sameLetters(a, b string) bool {
	a, b = strings.TrimLeft(a, "_- "), strings.TrimLeft(b, "_- ")
	for a != "" && b != "" {
		if a[0] != b[0] {
			return false
		}
		a, b = strings.TrimLeft(a[1:], "_- "), strings.TrimLeft(b[1:], "_- ")
	}
	return a == "" && b == ""
}

func slips(word string) int {
	switch n := len(word); {
	case n <= 2:
		return 0
	case n <= 4:
		return 1
	}
	return 2
}

// distance counts letters left out, put in, changed, or swapped with their neighbour (optimal string alignment).
// Neither word may be longer than MaxKey.
func distance(a, b string) int {
	var rows [3][MaxKey + 1]int // on the stack: a hostile file asks for this thousands of times
	before, last, row := &rows[0], &rows[1], &rows[2]
	for j := range len(b) + 1 {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}

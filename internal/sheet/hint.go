package sheet

// nearest gives the candidate that word was most likely meant to be, the first of equals, or "" if none is close: one slip
// in a short word, two in a longer one. It is a hint for the writer and is never acted upon.
func nearest(word string, candidates []string) string {
	best, least := "", slips(word)+1
	for _, c := range candidates {
		if len(c) > MaxKey || max(len(c)-len(word), len(word)-len(c)) >= least {
			continue
		}
		if n := distance(word, c); n < least {
			best, least = c, n
		}
	}
	return best
}

func slips(word string) int {
	switch n := len(word); {
	case n > MaxKey:
		return -1
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

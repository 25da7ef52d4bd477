package measure

import (
	"strconv"
	"strings"
)

// echoed is how much of a caller's text an error repeats.
const echoed = 40

// quote shows bad input without letting it flood the message.
func quote(s string) string {
	if len(s) <= echoed {
		return strconv.Quote(s)
	}
	return strconv.Quote(strings.ToValidUTF8(s[:echoed], "")) + "…"
}

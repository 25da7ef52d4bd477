package jobcard

import "fmt"

// Bounds of what stands in a card's file, looked for before encoding/json builds
// anything: four megabytes of "{}," would otherwise become gigabytes of entries.
const (
	mostObjects  = 8000 // an entry holds one more; tables and lists the rest
	mostDepth    = 12
	mostLiteral  = 6 * mostText // every character written as \u0061
	mostElements = 100_000
)

// scan refuses a text that holds more than a card can, without judging whether it is
// one: that is left to encoding/json.
func scan(data []byte) error {
	objects, depth, elements := 0, 0, 0
	for i := 0; i < len(data); i++ {
		switch data[i] {
		case '"':
			end := literalEnd(data, i+1)
			if end-i-1 > mostLiteral {
				return fmt.Errorf("jobcard: the text at byte %d is longer than %d bytes; want one of at most %d characters", i, mostLiteral, mostText)
			}
			i = end
		case '{', '[':
			if data[i] == '{' {
				objects++
			}
			depth++
		case '}', ']':
			depth--
		case ',':
			elements++
		}
		switch {
		case objects > mostObjects:
			return fmt.Errorf("jobcard: more than %d objects; want a card of at most %d entries", mostObjects, mostEntries)
		case depth > mostDepth:
			return fmt.Errorf("jobcard: nested deeper than %d at byte %d; want what MarshalJSON writes", mostDepth, i)
		case elements > mostElements:
			return fmt.Errorf("jobcard: more than %d values; want a card of at most %d entries", mostElements, mostEntries)
		}
	}
	return nil
}

// literalEnd is where the text that begins at i ends: its closing quote, or the end.
func literalEnd(data []byte, i int) int {
	for ; i < len(data) && data[i] != '"'; i++ {
		if data[i] == '\\' {
			i++
		}
	}
	return min(i, len(data))
}

// Package jsonscan answers: does this JSON text hold more than what it is to be read
// into ever does? It is asked before encoding/json builds anything: four megabytes of
// "{}," would otherwise become gigabytes of structs.
package jsonscan

import "fmt"

// Limits are the most that may stand in a text.
type Limits struct {
	Bytes    int // of all of it
	Objects  int
	Depth    int // of objects and lists in each other
	Literal  int // bytes of one text, as written, escapes and all
	Elements int // commas outside texts: values in objects and lists, nearly
}

// Check refuses a text that holds more, without judging whether it is JSON: that is
// left to encoding/json. It allocates nothing but its error.
func (l Limits) Check(data []byte) error {
	if len(data) > l.Bytes {
		return fmt.Errorf("%d bytes; want at most %d", len(data), l.Bytes)
	}
	objects, depth, elements := 0, 0, 0
	for i := 0; i < len(data); i++ {
		switch data[i] {
		case '"':
			end := literalEnd(data, i+1)
			if end-i-1 > l.Literal {
				return fmt.Errorf("the text at byte %d is longer than %d bytes; want shorter ones", i, l.Literal)
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
		case objects > l.Objects:
			return fmt.Errorf("more than %d objects by byte %d; want fewer", l.Objects, i)
		case depth > l.Depth:
			return fmt.Errorf("nested deeper than %d at byte %d; want less", l.Depth, i)
		case elements > l.Elements:
			return fmt.Errorf("more than %d values by byte %d; want fewer", l.Elements, i)
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

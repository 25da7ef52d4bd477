package jsonscan

import (
	"strings"
	"testing"
)

// Each limit from both sides; what stands inside a text does not count.
func TestLimits(t *testing.T) {
	l := Limits{Bytes: 1000, Objects: 80, Depth: 12, Literal: 60, Elements: 100}
	for name, tt := range map[string]struct{ taken, refused, want string }{
		"bytes":    {strings.Repeat(" ", 1000), strings.Repeat(" ", 1001), "1001 bytes; want at most 1000"},
		"objects":  {strings.Repeat("{}", 80), strings.Repeat("{}", 81), "more than 80 objects by byte 160"},
		"depth":    {strings.Repeat("[", 12) + strings.Repeat("]", 12) + strings.Repeat("{", 12), strings.Repeat("[", 13), "nested deeper than 12 at byte 12"},
		"text":     {`"` + strings.Repeat("x", 60) + `"`, ` "` + strings.Repeat("x", 61) + `"`, "the text at byte 1 is longer than 60 bytes"},
		"open":     {`"` + strings.Repeat("x", 60), `"` + strings.Repeat("x", 61), "longer than 60 bytes"},
		"escapes":  {`"` + strings.Repeat(`\"`, 30) + `"`, `"` + strings.Repeat(`\"`, 31) + `"`, "longer than 60 bytes"},
		"values":   {strings.Repeat(",", 100), strings.Repeat(",", 101), "more than 100 values by byte 100"},
		"in texts": {strings.Repeat(`"{[,"`, 200), `"{[,"` + strings.Repeat("[", 13), "nested deeper"},
		"cut off":  {`"\`, `"\` + strings.Repeat("x", 61), "longer than 60 bytes"},
		"nothing":  {"", strings.Repeat("{", 13), "nested deeper"},
	} {
		if err := l.Check([]byte(tt.taken)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if err := l.Check([]byte(tt.refused)); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v; want %q", name, err, tt.want)
		}
	}
	big := []byte(strings.Repeat(`{"a":[1,2]}`, 70))
	if n := testing.AllocsPerRun(10, func() { _ = l.Check(big) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

package jobcard

import (
	"strings"
	"testing"
)

// Each bound from both sides; what stands inside a text does not count.
func TestScanLimits(t *testing.T) {
	for name, tt := range map[string]struct{ taken, refused, want string }{
		"objects":  {strings.Repeat("{}", 8000), strings.Repeat("{}", 8001), "more than 8000 objects"},
		"depth":    {strings.Repeat("[", 12) + strings.Repeat("]", 12) + strings.Repeat("[", 12), strings.Repeat("[", 13), "nested deeper than 12 at byte 12"},
		"text":     {`"` + strings.Repeat("x", 6000) + `"`, ` "` + strings.Repeat("x", 6001) + `"`, "the text at byte 1 is longer than 6000 bytes"},
		"open":     {`"` + strings.Repeat("x", 6000), `"` + strings.Repeat("x", 6001), "longer than 6000 bytes"},
		"escapes":  {`"` + strings.Repeat(`\"`, 3000) + `"`, `"` + strings.Repeat(`\"`, 3001) + `"`, "longer than 6000 bytes"},
		"values":   {strings.Repeat(",", 100_000), strings.Repeat(",", 100_001), "more than 100000 values"},
		"in texts": {strings.Repeat(`"{[,"`, 20_000), `"{[,"` + strings.Repeat("[", 13), "nested deeper"},
		"cut off":  {`"\`, `"\` + strings.Repeat("x", 6001), "longer than 6000 bytes"},
	} {
		if err := scan([]byte(tt.taken)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if err := scan([]byte(tt.refused)); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v; want %q", name, err, tt.want)
		}
	}
}

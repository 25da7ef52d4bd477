// Package elapsed writes lengths of time as a person says them.
package elapsed

import (
	"strconv"
	"strings"
	"time"
)

// Text writes a length of time to the second: "45 s", "1 min 30 s", "2 h 5 min". From
// ten hours on minutes are the last that is written; parts that are nothing are left
// out. A length below zero has a minus before it.
func Text(d time.Duration) string {
	if d < 0 {
		if d == -d { // the one length that has no opposite
			d++
		}
		return "-" + Text(-d)
	}
	seconds := int64(d / time.Second)
	if d%time.Second >= time.Second/2 {
		seconds++
	}
	if seconds >= 36_000 {
		seconds = (seconds + 30) / 60 * 60
	}
	var parts []string
	for _, p := range [...]struct {
		n    int64
		name string
	}{{seconds / 3600, " h"}, {seconds / 60 % 60, " min"}, {seconds % 60, " s"}} {
		if p.n > 0 {
			parts = append(parts, strconv.FormatInt(p.n, 10)+p.name)
		}
	}
	if parts == nil {
		return "0 s"
	}
	return strings.Join(parts, " ")
}

package sealing

import (
	"fmt"
	"strings"

	"example.com/meniscus/units"
)

// System is the family a thread belongs to.
type System uint8

// The thread systems of sealing plugs. The zero value is no thread.
const (
	NoThread     System = iota
	Metric              // ISO 261 parallel, such as M16x1.5
	MetricTaper         // 1:16 taper, 60°, such as M10x1 taper (DIN 158-1)
	PipeTaper60         // NPT, 1:16 taper, 60° (ASME B1.20.1)
	PipeTaper55         // R, 1:16 taper, 55° (ISO 7-1)
	PipeParallel        // G, parallel, 55° (ISO 228-1)
)

// Thread is a plug's thread. The zero value is no thread stated.
type Thread struct {
	system   System
	size     string       // pipe size such as "1/8"; empty for metric
	diameter units.Length // major diameter
	pitch    units.Length
}

// ParseThread reads a designation as a maker's sheet prints it: "M16x1.5",
// "M16" (coarse pitch), "M10x1 taper", "1/8 NPT", "1/8-27 NPT", "R1/8",
// "G 1/4"; "M 16 x 1.5" is the same as "M16x1.5". A comma is refused: decimals
// take a point. A pitch that ISO 261 does not list for a diameter it does list is
// an error; a metric diameter outside the table (M6 to M30) is taken as
// written and Listed answers false for it.
func ParseThread(s string) (Thread, error) {
	if len(s) > 24 {
		return Thread{}, fmt.Errorf("sealing: thread %.24q…: longer than any thread designation; want such as M16x1.5, 1/8 NPT, R1/8 or G1/4", s)
	}
	plain := strings.ReplaceAll(strings.TrimSpace(s), "×", "x")
	switch {
	case strings.HasPrefix(plain, "M"):
		return parseMetric(s, plain[1:])
	case strings.HasSuffix(plain, "NPT"):
		return parsePipe(s, strings.TrimSuffix(plain, "NPT"), PipeTaper60)
	case strings.HasPrefix(plain, "R"):
		return parsePipe(s, plain[1:], PipeTaper55)
	case strings.HasPrefix(plain, "G"):
		return parsePipe(s, plain[1:], PipeParallel)
	}
	return Thread{}, fmt.Errorf("sealing: thread %q: not a thread; want such as M16x1.5, M10x1 taper, 1/8 NPT, R1/8 or G1/4", s)
}

// System returns the thread's family.
func (t Thread) System() System { return t.system }

// Diameter returns the major diameter; zero for no thread.
func (t Thread) Diameter() units.Length { return t.diameter }

// Pitch returns the pitch; zero for no thread.
func (t Thread) Pitch() units.Length { return t.pitch }

// Taper reports whether the thread seals on itself. A taper plug takes no washer.
func (t Thread) Taper() bool {
	return t.system == MetricTaper || t.system == PipeTaper60 || t.system == PipeTaper55
}

// IsZero reports whether no thread is stated.
func (t Thread) IsZero() bool { return t == Thread{} }

// Listed reports whether the diameter stands in the table, so that the pitch
// has been checked.
func (t Thread) Listed() bool {
	switch t.system {
	case Metric, MetricTaper:
		return len(pitches(t.diameter)) > 0
	}
	return t.system != NoThread
}

// Minor returns the minor diameter of the external thread at its root,
// d - 1.226869·P for metric threads (ISO 724 with the ISO 898-1 root, formula
// from memory), the nearest nanometre; zero for pipe threads, whose form
// differs.
func (t Thread) Minor() units.Length {
	if t.system != Metric && t.system != MetricTaper {
		return units.Length{}
	}
	return t.diameter.Sub(t.pitch.Scale(1.226869))
}

// String returns the designation, such as "M16x1.5"; the pitch is always given.
func (t Thread) String() string {
	switch t.system {
	case Metric:
		return "M" + bare(t.diameter) + "x" + bare(t.pitch)
	case MetricTaper:
		return "M" + bare(t.diameter) + "x" + bare(t.pitch) + " taper"
	case PipeTaper60:
		return t.size + " NPT"
	case PipeTaper55:
		return "R" + t.size
	case PipeParallel:
		return "G" + t.size
	}
	return ""
}

// bare prints a length in millimetres without its unit: "1.5".
func bare(l units.Length) string { return strings.TrimSuffix(l.String(), " mm") }

// MarshalText returns the designation; no thread is empty text.
func (t Thread) MarshalText() ([]byte, error) { return []byte(t.String()), nil }

// UnmarshalText reads what MarshalText wrote and all that ParseThread reads.
func (t *Thread) UnmarshalText(b []byte) error {
	if t == nil {
		return errNowhere
	}
	if len(b) == 0 {
		*t = Thread{}
		return nil
	}
	got, err := ParseThread(string(b))
	if err != nil {
		return err
	}
	*t = got
	return nil
}

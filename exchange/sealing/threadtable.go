package sealing

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/meniscus/units"
)

// pitches returns the pitches of a metric diameter in millimetres, coarse
// first; none for a diameter outside the table.
//
// Source: ISO 262 selection, seen in a tabulated copy; the pitches that only
// ISO 261:1998 Table 2 lists are from memory.
func pitches(d units.Length) []string {
	table := [...]struct {
		diameter float64
		pitches  string
	}{
		{6, "1 0.75"}, {8, "1.25 1 0.75"}, {10, "1.5 1.25 1 0.75"}, {12, "1.75 1.5 1.25 1"},
		{14, "2 1.5 1.25 1"}, {16, "2 1.5 1"}, {18, "2.5 2 1.5 1"}, {20, "2.5 2 1.5 1"},
		{22, "2.5 2 1.5 1"}, {24, "3 2 1.5 1"}, {26, "1.5"}, {27, "3 2 1.5 1"}, {30, "3.5 3 2 1.5 1"},
	}
	for _, row := range table {
		if units.Millimetre.Of(row.diameter) == d {
			return strings.Fields(row.pitches)
		}
	}
	return nil
}

// coarse reports whether the first pitch of the row is the coarse one; M26
// has a fine pitch only.
func coarse(d units.Length) bool { return d != units.Millimetre.Of(26) }

func parseMetric(whole, s string) (Thread, error) {
	system := Metric
	for _, word := range [...]string{" taper", " keg"} {
		if cut, ok := strings.CutSuffix(s, word); ok {
			s, system = cut, MetricTaper
		}
	}
	if strings.Contains(s, ",") {
		return Thread{}, fmt.Errorf("sealing: thread %q: a comma; want a point before decimals, such as M16x1.5", whole)
	}
	size, pitchText, fine := strings.Cut(strings.ToLower(strings.TrimPrefix(s, " ")), "x")
	if fine { // "M16 x 1.5": one space each side, as people write it
		size, pitchText = strings.TrimSuffix(size, " "), strings.TrimPrefix(pitchText, " ")
	}
	diameter, err := millimetres(size)
	if err != nil {
		return Thread{}, fmt.Errorf("sealing: thread %q: diameter: %w", whole, err)
	}
	listed := pitches(diameter)
	if !fine {
		if len(listed) == 0 || !coarse(diameter) {
			return Thread{}, fmt.Errorf("sealing: thread %q: no coarse pitch known for M%s; write the pitch, such as M%sx1.5", whole, size, size)
		}
		pitchText = listed[0]
	}
	pitch, err := millimetres(pitchText)
	if err != nil {
		return Thread{}, fmt.Errorf("sealing: thread %q: pitch: %w", whole, err)
	}
	if pitch.Compare(diameter.Scale(0.5)) >= 0 {
		return Thread{}, fmt.Errorf("sealing: thread %q: a pitch of %s on %s is no thread; want diameter x pitch, such as M16x1.5", whole, pitch, diameter)
	}
	if len(listed) > 0 && !contains(listed, bare(pitch)) {
		return Thread{}, fmt.Errorf("sealing: thread %q: ISO 261 has no pitch %s for M%s; want %s", whole, bare(pitch), bare(diameter), strings.Join(listed, ", "))
	}
	return Thread{system: system, diameter: diameter, pitch: pitch}, nil
}

func contains(list []string, s string) bool {
	for _, have := range list {
		if have == s {
			return true
		}
	}
	return false
}

// millimetres reads a plain decimal such as "1.5", from 0.01 and below 1000.
func millimetres(s string) (units.Length, error) {
	x, err := strconv.ParseFloat(s, 64)
	if err != nil || len(s) > 8 || strings.Trim(s, "0123456789.") != "" || x < 0.01 || x >= 1000 {
		return units.Length{}, fmt.Errorf("%.12q is not a size; want millimetres such as 16 or 1.5", s)
	}
	return units.Millimetre.Of(x), nil
}

// pipe returns the major diameter in millimetres and threads per inch of a
// pipe size.
//
// Source: NPT from two agreeing copies of the ASME B1.20.1 table, seen; R and
// G from a public data file of ISO 228-1, seen (R shares them).
func pipe(system System, size string) (major float64, perInch int) {
	if system == PipeTaper60 {
		switch size {
		case "1/16":
			return 7.938, 27
		case "1/8":
			return 10.287, 27
		case "1/4":
			return 13.716, 18
		case "3/8":
			return 17.145, 18
		case "1/2":
			return 21.336, 14
		case "3/4":
			return 26.67, 14
		}
		return 0, 0
	}
	switch size {
	case "1/8":
		return 9.728, 28
	case "1/4":
		return 13.157, 19
	case "3/8":
		return 16.662, 19
	case "1/2":
		return 20.955, 14
	case "3/4":
		return 26.441, 14
	}
	return 0, 0
}

func parsePipe(whole, s string, system System) (Thread, error) {
	size, perInchText, stated := strings.Cut(strings.TrimSpace(s), "-")
	size = strings.TrimSpace(size)
	major, perInch := pipe(system, size)
	if perInch == 0 {
		return Thread{}, fmt.Errorf("sealing: thread %q: no such pipe size; want 1/8, 1/4, 3/8, 1/2 or 3/4 (NPT also 1/16)", whole)
	}
	if stated && strings.TrimSpace(perInchText) != strconv.Itoa(perInch) {
		return Thread{}, fmt.Errorf("sealing: thread %q: %s has %d threads per inch, not %s", whole, size, perInch, strings.TrimSpace(perInchText))
	}
	return Thread{
		system: system, size: size,
		diameter: units.Millimetre.Of(major),
		pitch:    units.Inch.Of(1).Scale(1 / float64(perInch)),
	}, nil
}

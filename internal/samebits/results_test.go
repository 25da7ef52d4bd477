package samebits

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

var update = flag.Bool("update", false, "write testdata/results.txt anew")

const file = "testdata/results.txt"

func TestGoldenResults(t *testing.T) {
	s := &sheet{tb: t}
	s.line("# A service of an invented box, to the bit: name, value, the float64 as Go writes it in hexadecimal.")
	s.line("# Written by: go test ./internal/samebits -update. A changed line is a change to be listed.")
	for _, part := range []struct {
		title string
		write func(*sheet)
	}{
		{"quantities", quantities}, {"readings and their doubt", readings}, {"corrections", corrections}, {"simulations", simulations},
		{"shares", shares}, {"plan", plan}, {"intervals", intervals}, {"estimates", estimates}, {"schedules", schedules},
		{"buying", buying}, {"level", level}, {"warming up", warming}, {"sealing", sealings}, {"job card", card},
	} {
		s.line("")
		s.line("[" + part.title + "]")
		part.write(s)
	}
	got := s.text.String()
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got == string(want) {
		return
	}
	is, was := strings.Split(got, "\n"), strings.Split(string(want), "\n")
	for i := range max(len(is), len(was)) {
		if a, b := at(is, i), at(was, i); a != b {
			t.Errorf("line %d\n  is  %s\n  was %s", i+1, a, b)
		}
	}
}

func at(lines []string, i int) string {
	if i < len(lines) {
		return lines[i]
	}
	return "(nothing)"
}

// sheet gathers the file.
type sheet struct {
	tb   testing.TB
	text strings.Builder
}

func (s *sheet) line(text string) {
	s.text.WriteString(text)
	s.text.WriteByte('\n')
}

// number is one result; err is that of the call that gave it.
func (s *sheet) number(name string, x float64, err error) {
	s.tb.Helper()
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		s.tb.Errorf("%s: %v, %v", name, x, err)
	}
	s.line(fmt.Sprintf("%-52s %-24s %s", name, strconv.FormatFloat(x, 'g', -1, 64), strconv.FormatFloat(x, 'x', -1, 64)))
}

func (s *sheet) word(name string, word fmt.Stringer) {
	s.line(fmt.Sprintf("%-52s %s", name, word))
}

func (s *sheet) litres(name string, v units.Volume, err error) {
	s.tb.Helper()
	s.number(name+", L", v.In(units.Litre), err)
}

func (s *sheet) celsius(name string, t units.Temperature, err error) {
	s.tb.Helper()
	s.number(name+", °C", t.Celsius(), err)
}

// reading is a value and its standard uncertainty.
func (s *sheet) reading(name string, r measure.Reading, err error) {
	s.tb.Helper()
	s.number(name, r.Value(), err)
	s.number(name+", u", r.U(), r.Err())
}

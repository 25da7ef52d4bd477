package exchange

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/meniscus/units/working"
)

// AgeRow compares two schedules by one meaning of "age of the fluid".
type AgeRow struct {
	Meaning       string // when one looks
	First, Second float64
	Younger       string // "first", "second" or "neither"
}

// ScheduleComparison sets two schedules side by side in steady state.
type ScheduleComparison struct {
	FirstFluid, SecondFluid float64 // capacities of new fluid over one unit of length
	EqualFluid              bool    // within 1 part in 1e9
	Stretch                 float64 // stretch the second by this for equal fluid; 0 where top-up makes that impossible
	Rows                    []AgeRow
	Unit                    string  // of lengths and ages, as in the schedules
	Over                    float64 // length of the first schedule's round: the fluid of one round is FirstFluid times this
	Steps                   working.Steps
}

// scheduleSame is the relative difference below which two figures of the same
// schedule, worked out in another order, count as equal.
const scheduleSame = 1e-9

// CompareSchedules returns which of two schedules keeps the fluid younger, for
// each meaning of that: just after service at best, on average over the round,
// just before service at worst. They often disagree: several drains at once
// leave the fluid younger just after service than the same drains spread out,
// and older on average. The more fluid, the younger, so compare at equal fluid:
// where EqualFluid is false, Stretch says how to get there. It errors as Steady
// does, and where the units differ.
func CompareSchedules(first, second Schedule) (ScheduleComparison, error) {
	if first.Unit != second.Unit {
		return ScheduleComparison{}, fmt.Errorf("exchange: schedules in %q and %q; want one unit for both", coverClip(first.Unit), coverClip(second.Unit))
	}
	a, err := first.Steady()
	if err != nil {
		return ScheduleComparison{}, fmt.Errorf("first: %w", err)
	}
	b, err := second.Steady()
	if err != nil {
		return ScheduleComparison{}, fmt.Errorf("second: %w", err)
	}
	c := ScheduleComparison{
		FirstFluid:  first.drained()/first.round() + first.TopUp,
		SecondFluid: second.drained()/second.round() + second.TopUp,
	}
	c.EqualFluid = scheduleCloser(c.FirstFluid, c.SecondFluid) == ""
	if wanted := c.FirstFluid - second.TopUp; wanted > 0 {
		c.Stretch = second.drained() / second.round() / wanted
	}
	c.Rows = []AgeRow{
		scheduleRow("mean age at its lowest, just after a service", a.Lowest, b.Lowest),
		scheduleRow("mean age, averaged over the round", a.Mean, b.Mean),
		scheduleRow("mean age at its highest, just before a service", a.Highest, b.Highest),
	}
	c.Unit, c.Over = first.Unit, first.round()
	c.Steps = scheduleCompareSteps(c, a, b)
	return c, nil
}

// scheduleCompareSteps sets the working of both ages under each other, each line
// saying whose it is.
func scheduleCompareSteps(c ScheduleComparison, a, b Ages) working.Steps {
	var s working.Steps
	for _, side := range [...]struct {
		name  string
		fluid float64
		steps working.Steps
	}{{"first: ", c.FirstFluid, a.Steps}, {"second: ", c.SecondFluid, b.Steps}} {
		s = s.Add(side.name+"new fluid over the length of the first's round", "capacities", "", scheduleNumber(side.fluid*c.Over))
		for _, l := range side.steps {
			s = s.Add(side.name+l.Quantity, l.Formula, l.Substitution, l.Result)
		}
	}
	return s
}

func scheduleRow(meaning string, a, b float64) AgeRow {
	younger := scheduleCloser(a, b)
	if younger == "" {
		younger = "neither"
	}
	return AgeRow{Meaning: meaning, First: a, Second: b, Younger: younger}
}

// scheduleCloser names the smaller of two figures, or neither.
func scheduleCloser(a, b float64) string {
	switch slack := float64(scheduleSame * max(a, b)); {
	case a < b-slack:
		return "first"
	case b < a-slack:
		return "second"
	}
	return ""
}

// Text returns the comparison in lines of words and numbers: the new fluid over
// the length of the first's round, and ages to four digits, which is more than any
// of them is known to. A figure that is no finite number, in a comparison filled by
// hand, is written "not valid".
func (c ScheduleComparison) Text() string {
	var b strings.Builder
	switch {
	case c.EqualFluid:
		fmt.Fprintf(&b, "both use %s capacities of new fluid %s\n", scheduleFour(c.FirstFluid*c.Over), c.over())
	default:
		fmt.Fprintf(&b, "not at equal fluid: %s against %s capacities of new fluid %s", scheduleFour(c.FirstFluid*c.Over), scheduleFour(c.SecondFluid*c.Over), c.over())
		if c.Stretch > 0 {
			fmt.Fprintf(&b, "; equal with the second's intervals times %s", scheduleValid(c.Stretch, fmt.Sprintf("%.4g", c.Stretch)))
		}
		b.WriteByte('\n')
	}
	for _, r := range c.Rows {
		fmt.Fprintf(&b, "%s: %s against %s%s, younger: %s\n", r.Meaning, scheduleFour(r.First), scheduleFour(r.Second), c.unit(), r.Younger)
	}
	return b.String()
}

// over says over which length fluid was counted.
func (c ScheduleComparison) over() string {
	return "every " + scheduleFour(c.Over) + cmp.Or(c.unit(), " units of length")
}

func (c ScheduleComparison) unit() string {
	if c.Unit == "" {
		return ""
	}
	return " " + coverClip(c.Unit)
}

// scheduleValid keeps what is no number out of print.
func scheduleValid(x float64, text string) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "not valid"
	}
	return text
}

// scheduleFour prints four digits and no exponent.
func scheduleFour(x float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 3, 64), 64)
	if err != nil { // cannot be: that is how a number is written
		rounded = x
	}
	return scheduleValid(x, strconv.FormatFloat(rounded, 'f', -1, 64))
}

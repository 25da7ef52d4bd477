package exchange

import (
	"fmt"
	"strings"
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
	return c, nil
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

// Text returns the comparison in lines of words and numbers, ages to the whole
// unit of length.
func (c ScheduleComparison) Text() string {
	var b strings.Builder
	switch {
	case c.EqualFluid:
		fmt.Fprintf(&b, "both use %.6g capacities of fluid a unit of length\n", c.FirstFluid)
	default:
		fmt.Fprintf(&b, "not at equal fluid: %.6g against %.6g capacities a unit of length", c.FirstFluid, c.SecondFluid)
		if c.Stretch > 0 {
			fmt.Fprintf(&b, "; equal with the second's intervals times %.4g", c.Stretch)
		}
		b.WriteByte('\n')
	}
	for _, r := range c.Rows {
		fmt.Fprintf(&b, "%s: %.0f against %.0f, younger: %s\n", r.Meaning, r.First, r.Second, r.Younger)
	}
	return b.String()
}

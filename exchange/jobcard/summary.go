package jobcard

import (
	"fmt"
	"strconv"
	"time"

	"example.com/meniscus/internal/elapsed"
	"example.com/meniscus/units"
)

// Summary returns the entry in one line, such as
// "drained 2.120 L (2.24 US qt) at 18.0 °C (64.4 °F) in jug-a".
func (e Entry) Summary() string {
	s := kindName(e.Kind) + e.details()
	if e.Text != "" && e.Kind != Noted && e.Kind != Struck {
		s += " - " + e.Text
	}
	return s
}

func (e Entry) details() string {
	switch e.Kind {
	case FillPlugOpened:
		return named(": ", e.Plug)
	case Drained, Refilled, Kept, ToppedUp, Supplied:
		return " " + e.Amount.String()
	case Spilled:
		return " " + e.Amount.String() + " of the " + e.Origin.String()
	case Mixed:
		return ", " + times(e.Runs, "run") + " through the gears"
	case WasherFitted:
		age := "used"
		if e.New {
			age = "new"
		}
		return fmt.Sprintf(": %s %s on plug %s", age, e.Washer, e.Plug)
	case PlugTorqued:
		return ": " + e.Plug + " to " + tightness(e.Torque, e.Turns) + named(" with ", e.Tool)
	case WindowRead:
		return e.readingDetails()
	case CheckPlugObserved:
		return e.flowDetails()
	case Noted:
		return ": " + e.Text
	case Struck:
		return fmt.Sprintf(": entry %d does not count: %s", e.Entry, e.Text)
	}
	return ""
}

func (e Entry) readingDetails() string {
	s := " " + twoScales(e.Temperature) + named(" by ", e.Thermometer)
	if !e.PlusMinus.IsZero() {
		s += " ± " + e.PlusMinus.Text(units.CelsiusDegree, 1)
	}
	if e.EngineIdling {
		s += ", engine idling"
	}
	if e.Level {
		s += ", box level"
	}
	return s
}

func (e Entry) flowDetails() string {
	s := ": " + e.Flow.String()
	if e.Lasting > 0 {
		s += " for " + elapsed.Text(time.Duration(e.Lasting))
	}
	if !e.Amount.IsZero() {
		s += ", caught " + e.Amount.String()
	}
	return s
}

// times writes "1 run", "4 runs".
func times(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

func named(before, s string) string {
	if s == "" {
		return ""
	}
	return before + s
}

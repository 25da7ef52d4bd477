package jobcard

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/units"
)

// Record returns the printable record of the job: what was agreed, every entry
// as it was made, what follows from them, what is still open, and whose word
// goes first. It is plain text, the same for the same card, with no clock in it.
func (c *Card) Record() string {
	if c == nil || !c.open {
		return "no card\n"
	}
	var r record
	r.head(c)
	r.entries(c)
	r.fluid(c)
	r.level(c)
	r.plugs(c)
	r.open(c)
	r.cautions(c)
	return r.String()
}

// record is the text being written.
type record struct{ strings.Builder }

func (r *record) title(s string) { fmt.Fprintf(r, "\n%s\n", s) }

func (r *record) row(name, format string, args ...any) {
	fmt.Fprintf(r, "  %-14s %s\n", name, fmt.Sprintf(format, args...))
}

func (r *record) head(c *Card) {
	s := c.spec
	fmt.Fprintf(r, "RECORD OF A TRANSMISSION FLUID SERVICE\n")
	r.row("job", "%s", s.Job)
	if s.Vehicle != "" {
		r.row("vehicle", "%s", s.Vehicle)
	}
	if s.Procedure != "" {
		r.row("procedure", "%s", strings.TrimSpace(s.Procedure+" "+s.Edition))
	}
	r.row("capacity", "%s (%s), as at %s", s.Capacity.Text(units.Litre, 2), s.Capacity.Text(units.USQuart, 1), twoScales(s.reference()))
	law := "expansion unknown"
	if l, err := s.Fluid.Law(); err == nil {
		law = l.Describe()
	}
	r.row("fluid", "%s", strings.TrimPrefix(s.Fluid.Class+"; "+law, "; "))
	if s.Target > 0 {
		sure := ""
		if s.Purpose == exchange.ChangeClass {
			sure = ", whatever the gears do: change of fluid class"
		}
		r.row("agreed", "at most %s %% old fluid%s", strconv.FormatFloat(math.Round(1e6*s.Target)/1e4, 'f', -1, 64), sure)
	}
}

func (r *record) entries(c *Card) {
	r.title("What was done")
	for i, e := range c.entries {
		line := fmt.Sprintf("%3d  %s  %s", i+1, e.At.Format("2006-01-02 15:04"), e.Summary())
		if c.struck[i] {
			line += "  [struck: does not count]"
		}
		fmt.Fprintln(r, line)
	}
	if len(c.entries) == 0 {
		fmt.Fprintln(r, "  nothing yet")
	}
}

func (r *record) fluid(c *Card) {
	b, share := c.Balance(), c.OldShare()
	r.title("Fluid, all volumes as at " + twoScales(b.Reference))
	r.row("out", "%s", both(b.Out.Best()))
	r.row("in", "%s", both(b.In.Best()))
	r.row("net", "%s", b.Sentence())
	r.row("old share", "%.1f %% (%.1f to %.1f %% over the capacity's range), if the gears mix the fluid fully", 100*share.Estimate, 100*share.Low, 100*share.High)
	r.row("", "at most %.1f %% whatever the gears did", 100*share.Most)
	if !c.spec.OnHand.IsZero() || !c.state.flows.supplied.IsZero() {
		r.row("fluid left", "%s", both(c.FluidLeft()))
	}
}

func (r *record) level(c *Card) {
	l := c.state
	r.title("Level")
	if l.spec.hasWindow() {
		w := l.spec.Window
		r.row("window", "%s to %s", twoScales(w.Low), twoScales(w.High))
	}
	switch o := l.observed; {
	case o.entry == 0:
		r.row("check plug", "not observed")
	case o.proof:
		r.row("check plug", "%s in entry %d, inside the window%s", o.flow, o.entry, conditions(l))
	default:
		r.row("check plug", "%s in entry %d, which proves nothing: %s", o.flow, o.entry, o.why)
	}
}

func conditions(l ledger) string {
	s := ""
	if l.window.idling {
		s += ", engine idling"
	}
	if l.window.level {
		s += ", box level"
	}
	return s
}

func (r *record) plugs(c *Card) {
	if len(c.spec.Plugs) == 0 {
		return
	}
	r.title("Plugs")
	for i, p := range c.spec.Plugs {
		r.row(p.ID, "%s", plugLine(p, c.state.plugs[i]))
	}
}

func plugLine(p sealing.Plug, s plugState) string {
	if s.opened == 0 {
		return "not opened"
	}
	line := fmt.Sprintf("opened by entry %d", s.opened)
	switch {
	case s.washer != "" && s.newRing:
		line += "; new washer " + s.washer
	case s.washer != "":
		line += "; used washer " + s.washer
	case p.Washer != "":
		line += "; NO washer yet"
	}
	switch {
	case !s.torqued:
		line += "; NOT tightened yet" + wanted(p)
	case !s.inSpread:
		line += "; tightened, but not as the sheet says" + wanted(p)
	case p.Torque.Sign() > 0 || p.Turns > 0:
		line += "; tightened as the sheet says, " + tightness(p.Torque, p.Turns)
	default:
		line += "; tightened; the sheet states no torque"
	}
	return line
}

func (r *record) open(c *Card) {
	if findings := c.Findings(); len(findings) > 0 {
		r.title("Worth a look")
		for _, f := range findings {
			fmt.Fprintf(r, "  entry %d: %s\n", f.Entry, f.Text)
		}
	}
	r.title("Standing")
	blocks := c.Blocking()
	switch {
	case c.IsClosed():
		fmt.Fprintln(r, "  closed: nothing was open")
	case len(blocks) == 0:
		fmt.Fprintln(r, "  nothing blocks closing")
	default:
		for _, b := range blocks {
			fmt.Fprintf(r, "  open: %s\n", b.Text)
		}
	}
	if !c.IsClosed() {
		fmt.Fprintf(r, "  next: %s\n", c.Next().Text)
	}
}

func (r *record) cautions(c *Card) {
	list := c.Cautions()
	if len(list) > 0 {
		r.title("Cautions for the next step")
		for _, caution := range list {
			fmt.Fprintf(r, "  %s\n", caution)
		}
	}
	fmt.Fprintln(r, "\nThe maker's instructions, local codes and licensed practice go before this record.")
}

// twoScales prints a temperature as both kinds of thermometer show it.
func twoScales(t units.Temperature) string {
	return t.Text(units.CelsiusScale, 1) + " (" + t.Text(units.FahrenheitScale, 1) + ")"
}

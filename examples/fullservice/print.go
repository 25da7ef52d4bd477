package main

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// writeText prints the service for a person: plan, purchase, torque settings,
// then the record with balance, level and cautions.
func writeText(w io.Writer, s *service) error {
	r, err := newResult(s)
	if err != nil {
		return err
	}
	vehicle := s.proc.Title
	if r.Vehicle != "" {
		vehicle = r.Vehicle + " (" + s.proc.Title + ")"
	}
	fmt.Fprintf(w, "PLAN for %s, %s\n", vehicle, r.Job)
	printPlan(w, s, r)
	printBuy(w, r)
	printTorque(w, r)
	fmt.Fprintf(w, "\nBEFORE WORK STARTS (the maker's instructions, local codes and licensed practice go first)\n")
	for _, c := range r.Cautions {
		fmt.Fprintf(w, "  %s: %s\n", c.Hazard, c.Text)
	}
	fmt.Fprintf(w, "\n%s", r.Record)
	printDoubt(w, r)
	printClosing(w, s, r)
	printAnswers(w, r)
	return nil
}

// litresAndQuarts prints a volume as both kinds of jug show it.
func litresAndQuarts(v units.Volume) string {
	return v.Text(units.Litre, 2) + " (" + v.Text(units.USQuart, 2) + ")"
}

func bothRanges(r units.Range[units.VolumeDim]) string {
	return r.Text(units.Litre, 2) + " (" + r.Text(units.USQuart, 2) + ")"
}

// bothScales prints a temperature as both kinds of thermometer show it.
func bothScales(t units.Temperature) string {
	return t.Text(units.CelsiusScale, 1) + " (" + t.Text(units.FahrenheitScale, 1) + ")"
}

func printPlan(w io.Writer, s *service, r result) {
	p := r.Plan
	fmt.Fprintf(w, "  %s\n\n", p.Advice)
	const form = "%s %-6s  %-16s %-16s %-9s %-7s %-8s %-11s %-22s %s\n"
	fmt.Fprintf(w, form, " ", "cycles", "old fluid, mixed", "likely (95 %)", "at most", "chance", "gain/L", "gain/money", "fluid in all", "cost")
	for _, row := range p.Rows {
		chosen := " "
		if row.Cycle == p.Cycles {
			chosen = ">"
		}
		fmt.Fprintf(w, form, chosen, fmt.Sprint(row.Cycle), span(row.OldShareLow, row.OldShare), span(row.LikelyLow, row.LikelyHigh),
			percent(row.OldShareMost), fmt.Sprintf("%.0f %%", 100*row.Chance), percent(row.GainPerLitre), perMoney(row.GainPerMoney), litresAndQuarts(row.Fluid), row.Cost.StringFixed(2)+" "+p.Currency)
	}
	fmt.Fprintf(w, "  mixed: if the gears mix the fluid fully each time. at most: whatever the gears do.\n")
	fmt.Fprintf(w, "  chance: that the target is met, if mixed. gain/L: old fluid removed by a litre of this cycle, worst case.\n")
	if p.Rows[0].GainPerMoney > 0 {
		fmt.Fprintf(w, "  gain/money: the same by one of the %s, at the price of the cheapest litre.\n", p.Currency)
	}
	sure := ""
	if p.Purpose == exchange.ChangeClass {
		sure = " whatever the gears do, since the class of fluid is changed"
	}
	fmt.Fprintf(w, "  Agreed: at most %s old fluid%s. Capacity %s, one drain %s.\n",
		agreed(p.Target), sure, bothRanges(s.proc.Capacity), bothRanges(s.proc.ColdDrain))
}

// perMoney is nothing where nothing has a price.
func perMoney(x float64) string {
	if x == 0 {
		return "-"
	}
	return fmt.Sprintf("%.2f %%", 100*x)
}

// agreed prints a share as it was agreed: "55 %", "52.5 %".
func agreed(x float64) string {
	return strconv.FormatFloat(math.Round(1e6*x)/1e4, 'f', -1, 64) + " %"
}

func percent(x float64) string { return fmt.Sprintf("%.1f %%", 100*x) }

func span(low, high float64) string { return fmt.Sprintf("%.1f to %.1f %%", 100*low, 100*high) }

func printBuy(w io.Writer, r result) {
	p := r.Plan
	unmet := ""
	if !p.Met {
		unmet = " for all " + count(p.Cycles, "cycle") + ", which do not meet what was agreed"
		if p.Cycles == 1 {
			unmet = " for 1 cycle, which does not meet what was agreed"
		}
	}
	fmt.Fprintf(w, "\nFLUID%s\n", unmet)
	for _, line := range []struct {
		name string
		v    units.Volume
	}{
		{"refills", p.Allowances.Refills}, {"stays in pump and hose", p.Allowances.KeptOnce},
		{"stays there each time", p.Allowances.KeptEachTime}, {"film in pan and jug", p.Allowances.Film},
		{"over, for the level check", p.Allowances.FinalAllowance}, {"needed in all", p.FluidNeeded}, {"to buy", p.FluidToBuy},
	} {
		if !line.v.IsZero() {
			fmt.Fprintf(w, "  %-26s %s\n", line.name, litresAndQuarts(line.v))
		}
	}
	for _, b := range p.Buy {
		fmt.Fprintf(w, "  buy %d x %s, %s %s\n", b.Count, b.Name, b.Cost.StringFixed(2), p.Currency)
	}
	if len(p.Buy) > 1 {
		fmt.Fprintf(w, "  together %s %s\n", p.Cost.StringFixed(2), p.Currency)
	}
}

func printTorque(w io.Writer, r result) {
	fmt.Fprintf(w, "\nPLUGS\n")
	width := 8
	for _, t := range r.Torque {
		width = max(width, len(t.Plug))
	}
	for _, t := range r.Torque {
		line := "no torque stated"
		switch {
		case t.Torque.Sign() > 0:
			line = sealing.Both(t.Torque)
		case t.Turns > 0:
			line = pastFinger(t.Turns)
		}
		if t.Tool != "" {
			line += fmt.Sprintf(", %s gives %s to %s", t.Tool, t.Low.Text(units.NewtonMetre, 1), t.High.Text(units.NewtonMetre, 1))
		}
		if t.Washer != "" {
			line += ", new washer " + t.Washer + ": " + t.WasherFits
		}
		fmt.Fprintf(w, "  %-*s %s\n", width, t.Plug, line)
	}
}

func pastFinger(turns float64) string {
	if turns == 1 {
		return "1 turn past finger tight"
	}
	return fmt.Sprintf("%v turns past finger tight", turns)
}

// printDoubt says how sure the balance is and what to measure better.
func printDoubt(w io.Writer, r result) {
	if len(r.Balance.Contributors) == 0 {
		return
	}
	fmt.Fprintf(w, "\nHOW SURE\n")
	if l := r.Likely; l != nil {
		fmt.Fprintf(w, "  old fluid, if mixed: %s with %.0f %% probability; the capacity's range is %.0f %% of that doubt\n", span(l.Low, l.High), 100*l.Coverage, 100*l.CapacityShare)
	}
	fmt.Fprintf(w, "  %s\n", r.Balance.Sentence)
	if r.Balance.PlusMinus.Text(units.Millilitre, 0) == "0 mL" {
		return // parts of next to nothing say nothing
	}
	for _, c := range r.Balance.Contributors[:min(3, len(r.Balance.Contributors))] {
		if c.Share < 0.005 {
			break
		}
		fmt.Fprintf(w, "  %3.0f %% of the doubt: %s\n", 100*c.Share, c.Name)
	}
	fmt.Fprintf(w, "  %s\n", r.Balance.Advice)
	for _, scale := range r.Balance.Weighed {
		weighed, read := scale.PlusMinus.Text(units.Millilitre, 0), r.Balance.PlusMinus.Text(units.Millilitre, 0)
		if weighed != read {
			fmt.Fprintf(w, "  the same job weighed on %s: ± %s instead of ± %s\n", scale.Scale, weighed, read)
		}
	}
}

func printClosing(w io.Writer, s *service, r result) {
	if r.Window.Temperature == nil {
		return
	}
	closing, ok := s.closing(*r.Window.Temperature)
	if !ok {
		return
	}
	fmt.Fprintf(w, "\nWINDOW\n  %s: %s against %s to %s\n", r.Window.Verdict, bothScales(*r.Window.Temperature),
		bothScales(s.proc.Window.Low), bothScales(s.proc.Window.High))
	fmt.Fprintf(w, "  closed there, the box is %s at mid-window; the whole window is worth %s\n",
		offBy(closing.Off), closing.Window.Text(units.Millilitre, 0))
}

// offBy says which way a box is off.
func offBy(v units.Volume) string {
	text := v.Abs().Text(units.Millilitre, 0) + " (" + v.Abs().Text(units.USFluidOunce, 1) + ")"
	switch v.Sign() {
	case 1:
		return text + " high"
	case -1:
		return text + " low"
	}
	return "not off"
}

func printAnswers(w io.Writer, r result) {
	if len(r.Answers) == 0 {
		return
	}
	fmt.Fprintf(w, "\nASKED\n")
	for _, a := range r.Answers {
		verdict := ""
		if a.Refused {
			verdict = "cannot be said: "
		}
		fmt.Fprintf(w, "  %-10s %s%s\n", a.Asked, verdict, strings.ReplaceAll(strings.TrimRight(a.Answer, "\n"), "\n", "\n             "))
	}
}

// writeWorking prints how the plan, the purchase, the balance and every answer
// were reached, for a teacher or an auditor.
func writeWorking(w io.Writer, s *service) {
	show := func(title string, steps working.Steps) {
		if len(steps) > 0 {
			fmt.Fprintf(w, "\nWORKING: %s\n%s", title, steps.Text())
		}
	}
	show("plan", s.plan.Steps)
	show("what to buy", s.buy.Steps)
	show("balance", s.card.Balance().Steps)
	for _, a := range s.answers() {
		show(a.Asked, a.Working)
	}
}

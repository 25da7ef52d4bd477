package exchange

import (
	"math"
	"strconv"
	"strings"

	"example.com/meniscus/units/working"
)

// steps shows the working of a steady state; n is the new share of a round.
func (s Schedule) steps(a Ages, n float64) working.Steps {
	var w working.Steps
	const shown = 10 // services; a longer round is not worked by hand
	for i, v := range s.Services[:min(len(s.Services), shown)] {
		w = w.Add("new share of service "+strconv.Itoa(i+1), "1 - Π(1 - d/C)", scheduleProduct(v.Drains), scheduleNumber(v.exchanged()))
	}
	unit := " " + s.unit()
	if s.TopUp > 0 {
		w = w.Add("new share of a round, with top-up", "1 - exp(-λ·R)·Π(1 - r)", "λ "+scheduleNumber(s.TopUp)+", R "+scheduleNumber(s.round())+unit, scheduleNumber(n))
	}
	if len(s.Services) == 1 && s.TopUp == 0 {
		l, r := scheduleNumber(s.round()), scheduleNumber(n)
		w = w.Add("mean age just after service", "L(1 - r)/r", l+" × (1 - "+r+")/"+r, scheduleNumber(a.Lowest)+unit)
		w = w.Add("mean age just before service", "L/r", l+"/"+r, scheduleNumber(a.Highest)+unit)
		return w.Add("mean age over the interval", "L(1/r - 1/2)", l+" × (1/"+r+" - 1/2)", scheduleNumber(a.Mean)+unit)
	}
	w = w.Add("mean age just after the last service", "(age gained over a round from new)/(new share of a round)", "", scheduleNumber(a.Services[len(a.Services)-1].After.Mean)+unit)
	w = w.Add("mean age at its lowest, just after a service", "", "", scheduleNumber(a.Lowest)+unit)
	w = w.Add("mean age at its highest, just before a service", "", "", scheduleNumber(a.Highest)+unit)
	return w.Add("mean age over the round", "", "", scheduleNumber(a.Mean)+unit)
}

func scheduleProduct(drains []float64) string {
	var b strings.Builder
	b.WriteString("1 - ")
	if len(drains) == 0 {
		b.WriteByte('1')
	}
	for _, d := range drains {
		b.WriteString("(1 - " + scheduleNumber(d) + ")")
	}
	return b.String()
}

// scheduleNumber shows six digits, all of those before the point, and no zeros
// at the end.
func scheduleNumber(x float64) string {
	text := strconv.FormatFloat(x, 'g', 6, 64)
	if math.Abs(x) >= 1e6 && math.Abs(x) < 1e15 {
		text = strconv.FormatFloat(x, 'f', 0, 64)
	}
	return text
}

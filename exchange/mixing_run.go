package exchange

import (
	"errors"
	"fmt"
	"strconv"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// MixingRun is a run of the gears as a flow between sump and fluid held back.
type MixingRun struct {
	Flow    units.Volume // exchanged per minute, each way; 0 to 500 L
	Minutes float64      // 0 to 100 000
	Sump    units.Volume // above 0
	Held    units.Volume // above 0
}

const mixingMostMinutes = 100_000

// Share returns the share, 0 to 1, of the difference between the zones that the
// run closes: m = 1 - exp[-q·t·(1/S + 1/H)]. Relative error below 1e-14. It is as
// good as the flow, which no workshop measures: a what-if.
func (r MixingRun) Share() (float64, error) {
	var faults []error
	if r.Flow.Sign() < 0 || !r.Flow.Valid() || r.Flow.Compare(units.Litre.Of(systemMostLitres)) > 0 {
		faults = append(faults, fmt.Errorf("flow: %s a minute; want 0 to %d L", r.Flow, systemMostLitres))
	}
	if !(r.Minutes >= 0 && r.Minutes <= mixingMostMinutes) {
		faults = append(faults, fmt.Errorf("minutes: %g; want 0 to %d", r.Minutes, mixingMostMinutes))
	}
	for _, zone := range [...]struct {
		name string
		of   units.Volume
	}{{"sump", r.Sump}, {"held", r.Held}} {
		if systemCapacityFault(zone.of) != nil {
			faults = append(faults, fmt.Errorf("%s: %s; want more than 0 to %d L", zone.name, zone.of, systemMostLitres))
		}
	}
	if err := errors.Join(faults...); err != nil {
		return 0, fmt.Errorf("exchange: mixing share: %w", err)
	}
	turns := r.Flow.Ratio(r.Sump) + r.Flow.Ratio(r.Held)
	return mixingClosed(turns, r.Minutes), nil
}

// Steps returns the working of [MixingRun.Share]: the turnovers of both zones a
// minute, how many the run makes, and the share closed. Numbers are printed to four
// decimals. Faults as there.
func (r MixingRun) Steps() (working.Steps, error) {
	m, err := r.Share()
	if err != nil {
		return nil, err
	}
	q, rate := stepLitres(r.Flow)+"/min", r.Flow.Ratio(r.Sump)+r.Flow.Ratio(r.Held)
	minutes := strconv.FormatFloat(r.Minutes, 'g', -1, 64)
	s := working.Steps{}.Add("turnovers a minute", "q(1/S + 1/H)", q+" × (1/"+stepLitres(r.Sump)+" + 1/"+stepLitres(r.Held)+")", shareText(rate))
	s = s.Add("turnovers", "q·t(1/S + 1/H)", shareText(rate)+" × "+minutes+" min", shareText(rate*r.Minutes))
	return s.Add("share closed", "m = 1 - exp(-turnovers)", "1 - exp(-"+shareText(rate*r.Minutes)+")", shareText(m)), nil
}

func mixingClosed(turns, minutes float64) float64 {
	// Past exp(-745) the difference is closed to the last bit; the product may
	// be too large for a float64 and must not reach the exponential.
	x := turns * minutes
	if x > 745 {
		return 1
	}
	return -elementary.Expm1(-x) + 0
}

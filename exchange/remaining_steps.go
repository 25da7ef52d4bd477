package exchange

import (
	"fmt"
	"strconv"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// RemainingSteps returns the working of [Remaining], a line for each drain and, in
// a box with a known sump, one for each run of the gears; the last line holds the
// result. Faults as there, and at most 1000 drains.
func RemainingSteps(sys System, drains []units.Volume) (working.Steps, error) {
	err := remainingFaults(sys, drains)
	if err == nil && len(drains) > traceMostPasses {
		err = fmt.Errorf("%d drains; want at most %d", len(drains), traceMostPasses)
	}
	if err != nil {
		return nil, fmt.Errorf("exchange: remaining: %w", err)
	}
	var s working.Builder
	st := stateFull(sys)
	for i, d := range drains {
		n := strconv.Itoa(i + 1)
		before := st
		st = st.drained(d).refilled(d, 0)
		if !sys.twoZones() {
			s.Add("old share after drain "+n, "x·(1 - d/C)", planFactorText(before.OldShare(), d, sys.Capacity), shareText(st.OldShare()))
			continue
		}
		s.Add("sump after drain "+n, "s·(1 - d/S)", planFactorText(before.DrainShare(), d, sys.Sump), shareText(st.DrainShare()))
		s.Add("old share after drain "+n, "(S·s + H·h)/C",
			fmt.Sprintf("(%s × %s + %s × %s) / %s", stepLitres(sys.Sump), shareText(st.DrainShare()), stepLitres(sys.Held()), shareText(st.HeldShare()), stepLitres(sys.Capacity)),
			shareText(st.OldShare()))
		mixed := st.mixed(sys.Mixing)
		s.Add("sump after running the gears", "s + m·(mean - s)",
			fmt.Sprintf("%s + %s × (%s - %s)", shareText(st.DrainShare()), shareText(sys.Mixing), shareText(st.OldShare()), shareText(st.DrainShare())),
			shareText(mixed.DrainShare()))
		st = mixed
	}
	s.Add("old share left", "", "", shareText(st.OldShare()))
	return s.Steps(), nil
}

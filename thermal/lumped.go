package thermal

import (
	"fmt"
	"math"
	"time"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
)

// longestCourse bounds every time of a warm-up or cool-down: 1000 hours.
const longestCourse = 1000 * time.Hour

// Lumped is a body that warms or cools all through at one temperature towards
// a plateau:
//
//	T(t) = Tinf - (Tinf - T0)·exp(-t/τ)
//
// It holds where heat spreads inside the body much faster than it gets in or
// out (Biot number below 0.1); a gearbox with its pump turning comes near, one
// standing still does not. The zero value is refused.
//
// Source: Lienhard & Lienhard, A Heat Transfer Textbook, section 1.3 (equation
// seen second-hand).
type Lumped struct {
	Start   units.Temperature // at time zero
	Plateau units.Temperature // where it settles
	Tau     time.Duration     // time constant: 63 % of the way; above 0, at most 1000 h
}

func (l Lumped) check() error {
	if !l.Start.Valid() || !l.Plateau.Valid() || l.Start.IsZero() || l.Plateau.IsZero() {
		return fmt.Errorf("thermal: lumped: start %s, plateau %s; want two temperatures", l.Start, l.Plateau)
	}
	if l.Tau <= 0 || l.Tau > longestCourse {
		return fmt.Errorf("thermal: lumped: time constant %s; want above 0, at most 1000 h", l.Tau)
	}
	return nil
}

// At returns the temperature after the time elapsed, 0 to 1000 h.
func (l Lumped) At(elapsed time.Duration) (units.Temperature, error) {
	if err := l.check(); err != nil {
		return units.Temperature{}, err
	}
	if elapsed < 0 || elapsed > longestCourse {
		return units.Temperature{}, fmt.Errorf("thermal: lumped: time %s; want 0 to 1000 h", elapsed)
	}
	gap := l.Plateau.Sub(l.Start)
	return l.Plateau.Add(gap.Scale(-elementary.Exp(-elapsed.Seconds() / l.Tau.Seconds()))), nil
}

// Reach returns when the temperature target is passed, rounded to a
// nanosecond. A target that does not lie between start and plateau (the plateau
// itself is never reached) is an error that wraps [ErrTargetOutside].
func (l Lumped) Reach(target units.Temperature) (time.Duration, error) {
	if err := l.check(); err != nil {
		return 0, err
	}
	all, left := l.Plateau.Sub(l.Start), l.Plateau.Sub(target)
	share := left.Ratio(all)
	if !target.Valid() || !(share > 0 && share <= 1) {
		return 0, fmt.Errorf("thermal: lumped: target %s: %w; want from %s to before %s", target, ErrTargetOutside, l.Start, l.Plateau)
	}
	at, ok := duration(-elementary.Log(share) * l.Tau.Seconds())
	if !ok {
		return 0, fmt.Errorf("thermal: lumped: target %s is not reached within 1000 h", target)
	}
	return at, nil
}

// duration turns seconds into a Duration; false beyond 1000 h either way.
func duration(seconds float64) (time.Duration, bool) {
	if !(math.Abs(seconds) <= longestCourse.Seconds()) {
		return 0, false
	}
	return time.Duration(math.Round(seconds * 1e9)), true
}

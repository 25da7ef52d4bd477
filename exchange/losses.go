package exchange

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
)

// Losses is fluid that does not go where the jug says. It is not doubt: it does
// not cancel over several swaps, and asking for more careful readings does not
// reduce it. The zero value loses nothing.
type Losses struct {
	KeptOnce     units.Volume // stays in the pump, bottle or hose once, when it is first filled
	KeptEachTime units.Volume // stays in the pump or line at every refill and never reaches the box
	FilmEachTime units.Volume // film left in pan, jug and funnel at every swap
	LineReturns  units.Volume // old fluid that a line used both ways hands back with every refill
}

// Check reports every loss that is below zero or above 100 L, nil otherwise.
func (l Losses) Check() error {
	return errors.Join(
		lossesFault("kept once", l.KeptOnce),
		lossesFault("kept each time", l.KeptEachTime),
		lossesFault("film each time", l.FilmEachTime),
		lossesFault("line returns", l.LineReturns),
	)
}

// lossesMostLitres keeps a sum over every cycle in range.
const lossesMostLitres = 100

func lossesFault(what string, v units.Volume) error {
	most := units.Litre.Of(lossesMostLitres)
	if v.Valid() && v.Sign() >= 0 && v.Compare(most) <= 0 {
		return nil
	}
	return fmt.Errorf("%s: %s; want 0 to %s", what, v, most)
}

// EachTime returns what one swap costs beyond the fluid that reaches the box:
// what is kept each time and the film.
func (l Losses) EachTime() units.Volume { return l.KeptEachTime.Add(l.FilmEachTime) }

// Shortfall returns how low the box stands after n swaps that each pour exactly
// what the jug measured out: n times what each swap loses. It is exact. Below
// zero swaps, or more than 100, is an error, and so is an unusable loss.
//
// Two hundredths of a quart in the pan and two in the hose leave the box 0.16 qt
// low after four swaps.
func (l Losses) Shortfall(n int) (units.Volume, error) {
	faults := []error{l.Check()}
	if n < 0 || n > planMostCycles {
		faults = append(faults, fmt.Errorf("%d swaps; want 0 to %d", n, planMostCycles))
	}
	if err := errors.Join(faults...); err != nil {
		return units.Volume{}, fmt.Errorf("exchange: shortfall: %w", err)
	}
	return lossesTimes(l.EachTime(), n), nil
}

// Acting returns the volume of old-for-new that a swap of the drained volume
// acts as: a line that keeps x of the drained fluid and hands it back makes it
// drained - x. A line that would hand back more than was drained is an error.
func (l Losses) Acting(drained units.Volume) (units.Volume, error) {
	faults := []error{l.Check()}
	if !drained.Valid() || drained.Compare(l.LineReturns) < 0 {
		faults = append(faults, fmt.Errorf("drained: %s; want at least what the line returns, %s", drained, l.LineReturns))
	}
	if err := errors.Join(faults...); err != nil {
		return units.Volume{}, fmt.Errorf("exchange: acting drain: %w", err)
	}
	return drained.Sub(l.LineReturns), nil
}

// Swap drains v, loses the film, and pours v back through the line: what the line
// keeps does not arrive, and what it returns arrives as old as it was drained. The
// box is left low by what one swap loses. A refused swap returns the receiver.
//
// The jug must read at least what the line keeps and returns.
func (s State) Swap(v units.Volume, l Losses) (State, error) {
	if err := l.Check(); err != nil {
		return s, fmt.Errorf("exchange: swap: %w", err)
	}
	if least := l.KeptEachTime.Add(l.LineReturns); !v.Valid() || v.Compare(least) < 0 {
		return s, fmt.Errorf("exchange: swap: %s; want at least what the line keeps and returns, %s", v, least)
	}
	next, err := s.Drain(v.Add(l.FilmEachTime)) // the film left the box and missed the jug
	if err != nil {
		return s, err
	}
	reached := v.Sub(l.KeptEachTime)
	old := 0.0
	if !reached.IsZero() {
		old = float64(l.LineReturns.Ratio(reached) * s.DrainShare())
	}
	if next, err = next.Refill(reached, old); err != nil {
		return s, err
	}
	return next, nil
}

// lossesTimes adds v up n times: Scale would round a tick of a large sum.
func lossesTimes(v units.Volume, n int) units.Volume {
	var sum units.Volume
	for range n {
		sum = sum.Add(v)
	}
	return sum
}

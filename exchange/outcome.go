package exchange

import (
	"fmt"

	"example.com/meniscus/units"
)

// Outcome says whether a plan meets its target and on what that rests. The zero
// value is undecided: no plan was made.
type Outcome uint8

const (
	// OutcomeUndecided is the zero value: nothing was planned.
	OutcomeUndecided Outcome = iota
	// MetWhateverMixing: the target is met even if the fluid held back never moves.
	MetWhateverMixing
	// MetIfMixed: the target is met in a box that the gears mix well.
	MetIfMixed
	// NotMet: the target cannot be met by draining within the cycles in reach.
	NotMet
)

// String returns "undecided", "met whatever the mixing", "met if mixed" or
// "not met".
func (o Outcome) String() string {
	switch o {
	case MetWhateverMixing:
		return "met whatever the mixing"
	case MetIfMixed:
		return "met if mixed"
	case NotMet:
		return "not met"
	}
	return "undecided"
}

// MarshalText returns String; a value that is no outcome is an error.
func (o Outcome) MarshalText() ([]byte, error) {
	if o > NotMet {
		return nil, fmt.Errorf("exchange: outcome %d; want 0 to %d", uint8(o), uint8(NotMet))
	}
	return []byte(o.String()), nil
}

// Advice returns the plan in one or two sentences, volumes in litres.
func (p Proposal) Advice() string {
	if p.Outcome == OutcomeUndecided {
		return "Nothing is planned."
	}
	if p.Cycles.Chosen == 0 {
		return "Nothing needs doing: the target is met as it is."
	}
	fluid := p.Fluid.Total.Text(units.Litre, 2)
	if p.Met {
		s := fmt.Sprintf("%s leave %s old fluid", outcomeCycles(p.Cycles.Chosen), p.Share)
		if p.Outcome == MetIfMixed {
			s += ", if the gears mix it fully"
		}
		s += fmt.Sprintf(". Have %s ready.", fluid)
		if p.Outcome == MetIfMixed {
			s += fmt.Sprintf(" If the gears never mixed, it could be %s %%.", sharePercent(p.Bounds.High))
		}
		return s
	}
	s := fmt.Sprintf("The target cannot be met by draining: best is %s %% after %s.", sharePercent(p.Best), outcomeCycles(len(p.Rows)))
	if p.Outcome == MetIfMixed {
		s += fmt.Sprintf(" It would be met if the gears were sure to mix; if not, no number of drains is sure to go below %s %%.", sharePercent(p.Floor))
	}
	return s
}

func outcomeCycles(n int) string {
	if n == 1 {
		return "1 cycle"
	}
	return fmt.Sprintf("%d cycles", n)
}

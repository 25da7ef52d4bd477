package jobcard

import (
	"fmt"
	"strings"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/units"
)

func (l ledger) washerFitted(e line) (ledger, error) {
	at, ok := l.plug(e.Plug)
	if !ok {
		return l, l.spec.noPlug(e.Plug)
	}
	plug := l.spec.Plugs[at]
	washer, ok := l.spec.washer(e.Washer)
	if !ok {
		return l, l.spec.noWasher(e.Washer)
	}
	if err := l.fits(plug, washer); err != nil {
		return l, err
	}
	if plug.Washer != "" && plug.Washer != e.Washer {
		l.note("other-washer", func() string {
			return fmt.Sprintf("the sheet names washer %s for plug %s; %s was fitted", plug.Washer, e.Plug, e.Washer)
		})
	}
	fresh := e.New || washer.Reusable
	if !fresh {
		l.note("used-washer", func() string {
			return fmt.Sprintf("washer %s on plug %s had been used before; it is crushed once and then replaced", e.Washer, e.Plug)
		})
	}
	s := l.editPlug(at)
	s.washer, s.newRing, s.torqued, s.inSpread = e.Washer, fresh, false, false
	return l, nil
}

// fits refuses a washer that does not go on the plug, and notes one that cannot be
// judged. An entry that was taken once is not judged again: nothing but the sheet
// decides it.
func (l *ledger) fits(plug sealing.Plug, washer sealing.Washer) error {
	if l.dry {
		return nil
	}
	fit := sealing.Fit(plug, washer)
	switch fit.Verdict {
	case sealing.DoesNotFit:
		return fmt.Errorf("washer %s does not fit plug %s: %s", washer.ID, plug.ID, strings.Join(fit.Reasons, "; "))
	case sealing.CannotCheck:
		l.note("fit-unchecked", func() string {
			return fmt.Sprintf("washer %s on plug %s cannot be checked: %s", washer.ID, plug.ID, strings.Join(fit.Reasons, "; "))
		})
	}
	return nil
}

func (l ledger) plugTorqued(e line) (ledger, error) {
	at, ok := l.plug(e.Plug)
	if !ok {
		return l, l.spec.noPlug(e.Plug)
	}
	plug := l.spec.Plugs[at]
	state := l.plugs[at]
	if plug.Washer != "" && state.opened > 0 && state.washer == "" {
		return l, fmt.Errorf("plug %s was opened by entry %d and has had no washer since; fit washer %s first", e.Plug, state.opened, plug.Washer)
	}
	if err := needTightening(plug, *e.Entry); err != nil {
		return l, err
	}
	if err := l.toolCan(e); err != nil {
		return l, err
	}
	agrees := plugAgrees(plug, *e.Entry)
	if !agrees {
		l.note("torque-differs", func() string {
			return fmt.Sprintf("plug %s was set to %s; the sheet says %s", e.Plug, tightness(e.Torque, e.Turns), tightness(plug.Torque, plug.Turns))
		})
	}
	s := l.editPlug(at)
	s.torqued, s.inSpread = true, agrees
	return l, nil
}

func needTightening(plug sealing.Plug, e Entry) error {
	switch {
	case plug.Torque.Sign() > 0 && e.Torque.IsZero():
		return fmt.Errorf("plug %s is set to %s; want the torque it was set to", e.Plug, sealing.Both(plug.Torque))
	case plug.Torque.IsZero() && plug.Turns > 0 && e.Turns == 0:
		return fmt.Errorf("plug %s is turned %s; want the turns it was given", e.Plug, pastFinger(plug.Turns))
	case e.Torque.IsZero() && e.Turns == 0:
		return fmt.Errorf("neither torque nor turns; want one of them for plug %s", e.Plug)
	}
	return nil
}

func (l ledger) toolCan(e line) error {
	if e.Tool == "" || l.dry { // nothing but the sheet decides it, and it was taken once
		return nil
	}
	tool, ok := l.spec.tool(e.Tool)
	if !ok {
		return l.spec.noTool(e.Tool)
	}
	if e.Torque.IsZero() {
		return nil
	}
	_, _, err := tool.Spread(e.Torque)
	return err
}

// plugAgrees compares with the sheet; a plug whose sheet states nothing agrees
// with any torque.
func plugAgrees(plug sealing.Plug, e Entry) bool {
	switch {
	case plug.Torque.Sign() > 0:
		return plug.Within(e.Torque)
	case plug.Turns > 0:
		return e.Turns >= plug.Turns-0.5 && e.Turns <= plug.Turns+0.5
	}
	return true
}

func tightness(t units.Torque, turns float64) string {
	if t.IsZero() {
		return pastFinger(turns)
	}
	return sealing.Both(t)
}

// pastFinger is how far a taper plug is turned, in words.
func pastFinger(turns float64) string {
	if turns == 1 {
		return "1 turn past finger tight"
	}
	return fmt.Sprintf("%v turns past finger tight", turns)
}

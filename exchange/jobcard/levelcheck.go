package jobcard

import (
	"errors"
	"fmt"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func (l ledger) windowRead(e line) (ledger, error) {
	if !l.spec.hasWindow() {
		return l, errors.New("the job has no check window to read against; want a note, or a spec with a window")
	}
	plusMinus, err := l.readingLimits(e)
	if err != nil {
		return l, err
	}
	verdict, err := l.spec.Window.Judge(e.Temperature, plusMinus)
	if err != nil {
		return l, err
	}
	l.window = reading{entry: l.n, verdict: verdict, idling: e.EngineIdling, level: e.Level}
	l.warmest = e.Temperature
	if l.spec.Window.EngineIdling && !e.EngineIdling {
		l.note("not-idling", said("the sheet wants the engine idling for this reading"))
	}
	if l.spec.Window.Level && !e.Level {
		l.note("not-level", said("the sheet wants the box level for this reading"))
	}
	return l, nil
}

// readingLimits returns the ± of a reading: stated, or the thermometer's own
// with half its step.
func (l ledger) readingLimits(e line) (units.TemperatureDelta, error) {
	if e.Thermometer == "" {
		return e.PlusMinus, nil
	}
	th, ok := l.spec.thermometer(e.Thermometer)
	if !ok {
		return units.TemperatureDelta{}, l.spec.noThermometer(e.Thermometer)
	}
	if !e.PlusMinus.IsZero() {
		return units.TemperatureDelta{}, fmt.Errorf("both thermometer %s and ± %s; want the thermometer, whose own limits count", e.Thermometer, e.PlusMinus)
	}
	return th.PlusMinus.Add(th.Step.Scale(0.5)), nil
}

func (l ledger) checkObserved(e line) (ledger, error) {
	if err := l.rolePlug(e.Plug, sealing.Check); err != nil {
		return l, err
	}
	l.openPlug(e.Plug, sealing.Check)
	before := l.flows
	if !e.Amount.IsZero() {
		if e.fault != nil {
			return l, e.fault
		}
		if err := l.takeOut(e.volume, false); err != nil {
			return l, err
		}
	}
	why := l.noProof()
	if opened := l.drainPlugLoose(); opened > 0 {
		l.note("drain-plug-loose", func() string {
			return fmt.Sprintf("the drain plug, opened by entry %d, is not recorded as tightened", opened)
		})
	}
	l.observed = observation{entry: l.n, flow: e.Flow, proof: why == "", why: why, before: before}
	return l, nil
}

// noProof says why a look at the check plug would prove nothing now.
func (l ledger) noProof() string {
	if !l.spec.hasWindow() {
		return ""
	}
	w := l.spec.Window
	switch {
	case l.window.entry == 0:
		return "no temperature was read against the window"
	case l.window.verdict == measure.Undecided:
		return "the fluid's temperature was too near an end of the window for that thermometer"
	case l.window.verdict != measure.Inside:
		return "the fluid's temperature was " + l.window.verdict.String() + " the window"
	case w.EngineIdling && !l.window.idling:
		return "the engine was not idling"
	case w.Level && !l.window.level:
		return "the box was not level"
	}
	return ""
}

// drainPlugLoose returns the entry that opened the drain plug, where it is not
// recorded as tightened since; else 0.
func (l ledger) drainPlugLoose() int {
	if i, ok := l.plugFor("", sealing.Drain); ok && !l.plugs[i].torqued {
		return l.plugs[i].opened
	}
	return 0
}

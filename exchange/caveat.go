package exchange

import "fmt"

// Caveat is a warning that travels with a result as data, so that a report or a
// program can act on it. The zero value is no caveat.
type Caveat uint8

const (
	// DrainedSampleFlatters: the fluid drained last is never older than the
	// fluid in the box as a whole. Derived from the two-zone model; it does not
	// hold for a one-way loop whose fluid moves like a plug.
	DrainedSampleFlatters Caveat = iota + 1
	// CleanOutletProvesNothing: what leaves a flushed system and what remains in
	// it are different shares.
	CleanOutletProvesNothing
	// MixingIsWhatIf: the figure rests on a mixing share nobody can measure in a
	// workshop.
	MixingIsWhatIf
	// RestsOnMixing: the target is met only if the gears mix the fluid held back.
	RestsOnMixing
	// SumpNotKnown: without the sump only the largest drain is sure to have
	// brought old fluid out.
	SumpNotKnown
	// SampleAboveSystem: a drained sample shows more old fluid than the box can
	// hold by the samples before it; a reading or the capacity is wrong, or the
	// fluid moved like a plug.
	SampleAboveSystem
	// CapacityDominates: most of the doubt comes from not knowing the capacity;
	// better jugs will not help.
	CapacityDominates
	// SimulatedInterval: the deterministic interval did not settle and a seeded
	// simulation stands in for it.
	SimulatedInterval
)

// String returns the caveat's stable name, such as "drained-sample-flatters".
func (c Caveat) String() string {
	name, _ := c.words()
	return name
}

// Sentence returns the caveat for a reader, in one sentence.
func (c Caveat) Sentence() string {
	_, sentence := c.words()
	return sentence
}

// MarshalText returns the stable name; a value that is no caveat is an error.
func (c Caveat) MarshalText() ([]byte, error) {
	if c == 0 || c > SimulatedInterval {
		return nil, fmt.Errorf("exchange: caveat %d; want 1 to %d", uint8(c), uint8(SimulatedInterval))
	}
	return []byte(c.String()), nil
}

func (c Caveat) words() (name, sentence string) {
	switch c {
	case DrainedSampleFlatters:
		return "drained-sample-flatters", "A drained sample is never older than the fluid in the box: a clean last drain is no proof of a clean box."
	case CleanOutletProvesNothing:
		return "clean-outlet-proves-nothing", "What leaves a flushed system is not what remains in it: a clean outlet does not prove a clean system."
	case MixingIsWhatIf:
		return "mixing-is-what-if", "The mixing share cannot be measured in a workshop: figures that use one answer what if, the bounds hold whatever it is."
	case RestsOnMixing:
		return "rests-on-mixing", "The target is met only if running the gears mixes the fluid the drain plug cannot reach."
	case SumpNotKnown:
		return "sump-not-known", "The sump is not known: whatever the mixing, only the largest drain is sure to have brought old fluid out."
	case SampleAboveSystem:
		return "sample-above-system", "A drained sample shows more old fluid than the box can hold by the samples before it: check the readings and the capacity."
	case CapacityDominates:
		return "capacity-dominates", "Most of the doubt comes from the capacity: a better figure for it helps more than better jugs."
	case SimulatedInterval:
		return "simulated-interval", "The interval comes from a seeded simulation: the direct computation did not settle."
	}
	return "none", ""
}

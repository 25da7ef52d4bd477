package exchange

import (
	"errors"
	"fmt"
	"time"

	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
)

// AtPlug is what is seen at the open check plug. The words are the trade's. No
// flow rate is published for any of them, so none is attached.
type AtPlug uint8

const (
	// PlugNotSeen is the zero value: nobody looked.
	PlugNotSeen AtPlug = iota
	// PlugDry: nothing comes.
	PlugDry
	// PlugDrips: single drops.
	PlugDrips
	// PlugTrickles: the stream has broken; the level is at the lip (common
	// practice, no published source).
	PlugTrickles
	// PlugStreams: an unbroken stream.
	PlugStreams
)

// String returns "not seen", "no flow", "drip", "trickle" or "stream".
func (p AtPlug) String() string {
	switch p {
	case PlugDry:
		return "no flow"
	case PlugDrips:
		return "drip"
	case PlugTrickles:
		return "trickle"
	case PlugStreams:
		return "stream"
	}
	return "not seen"
}

// MarshalText returns String; a value that is none of them is an error.
func (p AtPlug) MarshalText() ([]byte, error) {
	if p > PlugStreams {
		return nil, fmt.Errorf("exchange: seen at the plug %d; want 0 to %d", uint8(p), uint8(PlugStreams))
	}
	return []byte(p.String()), nil
}

// UnmarshalText reads what MarshalText writes.
func (p *AtPlug) UnmarshalText(text []byte) error {
	if p == nil {
		return errNowhere
	}
	for seen := PlugNotSeen; seen <= PlugStreams; seen++ {
		if seen.String() == string(text) {
			*p = seen
			return nil
		}
	}
	return fmt.Errorf("exchange: seen at the plug %q; want not seen, no flow, drip, trickle or stream", coverClip(string(text)))
}

// Observation is the check plug as it was watched.
type Observation struct {
	First   AtPlug        // as the plug came out
	Last    AtPlug        // as it was last seen; zero is as First
	Watched time.Duration // from first to last; zero: not recorded
	// Caught is all that ran out, measured, where CaughtKnown. It must not be in
	// the ledger's net already.
	Caught      measure.Volume
	CaughtKnown bool
	CaughtAt    measure.Temperature // of what was caught when measured; zero: as in the box
	// NoProof says why the look proves nothing, such as "the fluid's temperature was
	// above the window", in at most 200 bytes; empty: it was made as the sheet wants.
	NoProof string
}

const observationMostWhy = 200

// Against is what an observation says of the ledger.
type Against uint8

const (
	// AgainstUndecided: it fits the ledger and others besides, or the ledger says
	// nothing.
	AgainstUndecided Against = iota
	// AgainstAgrees: what was seen is what the ledger expects, within the doubt.
	AgainstAgrees
	// AgainstLower: the level is lower than the ledger says.
	AgainstLower
	// AgainstHigher: the level is higher than the ledger says.
	AgainstHigher
)

// String returns "undecided", "agrees", "lower" or "higher".
func (a Against) String() string {
	switch a {
	case AgainstAgrees:
		return "agrees"
	case AgainstLower:
		return "lower"
	case AgainstHigher:
		return "higher"
	}
	return "undecided"
}

// MarshalText returns String; a value that is none of them is an error.
func (a Against) MarshalText() ([]byte, error) {
	if a > AgainstHigher {
		return nil, fmt.Errorf("exchange: against the ledger %d; want 0 to %d", uint8(a), uint8(AgainstHigher))
	}
	return []byte(a.String()), nil
}

// Standing is where the level stands after an observation.
type Standing uint8

const (
	// StandingUnknown is the zero value: nobody looked.
	StandingUnknown Standing = iota
	// BelowLip: nothing ran; how far below is not known.
	BelowLip
	// AtLip: what was too much has run out.
	AtLip
	// AboveLip: it was still running.
	AboveLip
)

// String returns "unknown", "below the lip", "at the lip" or "above the lip".
func (s Standing) String() string {
	switch s {
	case BelowLip:
		return "below the lip"
	case AtLip:
		return "at the lip"
	case AboveLip:
		return "above the lip"
	}
	return "unknown"
}

// MarshalText returns String; a value that is none of them is an error.
func (s Standing) MarshalText() ([]byte, error) {
	if s > AboveLip {
		return nil, fmt.Errorf("exchange: standing %d; want 0 to %d", uint8(s), uint8(AboveLip))
	}
	return []byte(s.String()), nil
}

// Bound says how a volume is known.
type Bound uint8

const (
	// BoundNone is the zero value: nothing is known.
	BoundNone Bound = iota
	// BoundExact: measured, with its doubt.
	BoundExact
	// BoundAtLeast: that much or more.
	BoundAtLeast
	// BoundAtMost: that much or less.
	BoundAtMost
)

// String returns "not known", "measured", "at least" or "at most".
func (b Bound) String() string {
	switch b {
	case BoundExact:
		return "measured"
	case BoundAtLeast:
		return "at least"
	case BoundAtMost:
		return "at most"
	}
	return "not known"
}

// MarshalText returns String; a value that is none of them is an error.
func (b Bound) MarshalText() ([]byte, error) {
	if b > BoundAtMost {
		return nil, fmt.Errorf("exchange: bound %d; want 0 to %d", uint8(b), uint8(BoundAtMost))
	}
	return []byte(b.String()), nil
}

// LevelFinding is an observation held against the ledger. Volumes are at
// mid-window temperature.
type LevelFinding struct {
	Against  Against
	Standing Standing
	Ran      measure.Volume // out of the plug, known as Bound says
	Bound    Bound
	// Difference is Ran less what the ledger expected to run, known as Bound says.
	Difference measure.Volume
	Zeta       float64 // |Difference| in standard uncertainties, where Ran was measured
	// CameInBy is how far off the level must have been before the job for ledger
	// and check to agree, known as Bound says; it is the answer for a box that
	// came in low.
	CameInBy measure.Volume
	Words    []string
	Steps    working.Steps
}

func (o Observation) last() AtPlug {
	if o.Last == PlugNotSeen {
		return o.First
	}
	return o.Last
}

func (o Observation) check() error {
	var faults []error
	if o.First > PlugStreams || o.Last > PlugStreams {
		faults = append(faults, fmt.Errorf("exchange: observation: seen %d, then %d; want 0 to %d", o.First, o.Last, PlugStreams))
	}
	if o.First == PlugNotSeen && o.Last != PlugNotSeen {
		faults = append(faults, fmt.Errorf("exchange: observation: last seen %s, first not seen; want what came as the plug came out", o.Last))
	}
	if len(o.NoProof) > observationMostWhy {
		faults = append(faults, fmt.Errorf("exchange: observation: %d bytes of why it proves nothing; want at most %d", len(o.NoProof), observationMostWhy))
	}
	if o.Watched < 0 {
		faults = append(faults, fmt.Errorf("exchange: observation: watched for %s; want 0 or more", o.Watched))
	}
	if err := errors.Join(o.Caught.Err(), o.CaughtAt.Err()); err != nil {
		return errors.Join(append(faults, fmt.Errorf("exchange: observation: caught: %w", err))...)
	}
	caught := o.Caught.Best()
	switch {
	case caught.Sign() < 0:
		faults = append(faults, fmt.Errorf("exchange: observation: caught %s; want 0 L or more", caught))
	case !o.CaughtKnown && !caught.IsZero():
		faults = append(faults, fmt.Errorf("exchange: observation: caught %s but not known; want CaughtKnown with an amount", caught))
	case o.First == PlugDry && o.last() == PlugDry && caught.Sign() > 0:
		faults = append(faults, fmt.Errorf("exchange: observation: no flow, yet %s caught; want what flowed", caught))
	case o.First == PlugNotSeen && o.CaughtKnown:
		faults = append(faults, errors.New("exchange: observation: caught, yet nothing seen; want what flowed"))
	}
	return errors.Join(faults...)
}

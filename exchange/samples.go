package exchange

import (
	"errors"
	"fmt"
	"strconv"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// DrainedSample is one drain whose fluid was compared with old and new: its
// volume, put back as new fluid, and the old share it showed.
type DrainedSample struct {
	Volume         units.Volume
	OldShare       float64 // 0 to 1, of what came out
	RefillOldShare float64 // 0 for new fluid
}

// SampleBalance is what drained samples say of the box.
type SampleBalance struct {
	Share    Share     // old share of the box after the last refill
	LastSeen float64   // old share of the last sample, which flatters
	After    []float64 // old share after each drain, at the largest capacity
	Caveats  []Caveat
	Steps    working.Steps
}

// samplesSlack is how far a sample may stand above the box before it is told: the
// rounding of the sums, nothing more.
const samplesSlack = 1e-12

// FromSamples returns the old share of a box from its drained samples by what
// came out, with no model of mixing at all:
//
//	1 - (1/C)·Σ d·(s - c)
//
// with s the old share of a drain and c that of its refill. The box started full
// and all old, and each drain was refilled with as much. A capacity known as a range
// gives a range. Between 1 and 1000 samples. Samples that carry out more old fluid
// than the smallest capacity held are an error.
//
// The result always carries [DrainedSampleFlatters]: the last sample itself
// proves nothing. It carries [SampleAboveSystem] where a sample shows more old
// fluid than the box as a whole can still hold at the largest capacity.
func FromSamples(capacity units.Range[units.VolumeDim], samples []DrainedSample) (SampleBalance, error) {
	if err := samplesFaults(capacity, samples); err != nil {
		return SampleBalance{Share: allOld(), LastSeen: 1}, fmt.Errorf("exchange: from samples: %w", err)
	}
	b := SampleBalance{Share: allOld(), Caveats: []Caveat{DrainedSampleFlatters}}
	b.After = make([]float64, 0, len(samples))
	var steps working.Builder
	above := false
	for i, s := range samples {
		above = above || s.OldShare > b.Share.High+samplesSlack
		took := s.OldShare - s.RefillOldShare
		before := b.Share.High
		b.Share.Low -= float64(s.Volume.Ratio(capacity.Low()) * took)
		b.Share.High -= float64(s.Volume.Ratio(capacity.High()) * took)
		b.After = append(b.After, b.Share.High)
		b.LastSeen = s.OldShare
		steps.Add("old share after drain "+strconv.Itoa(i+1)+", largest capacity", "x - d·(s - c)/C",
			fmt.Sprintf("%s - %s × (%s - %s) / %s", shareText(before), stepLitres(s.Volume), shareText(s.OldShare),
				shareText(s.RefillOldShare), stepLitres(capacity.High())), shareText(b.Share.High))
	}
	b.Steps = steps.Steps()
	if above {
		b.Caveats = append(b.Caveats, SampleAboveSystem)
	}
	return b.checked()
}

// checked refuses a balance below nothing; rounding alone is forgiven.
func (b SampleBalance) checked() (SampleBalance, error) {
	low, high := min(b.Share.Low, b.Share.High), max(b.Share.Low, b.Share.High) // impure refills can turn the ends round
	if low < -samplesSlack || high > 1+samplesSlack {
		return SampleBalance{Share: allOld(), LastSeen: 1}, fmt.Errorf(
			"exchange: from samples: the samples leave an old share of %.3f to %.3f; want 0 to 1: a reading or the capacity is wrong", low, high)
	}
	b.Share = Share{intervalClip(low), intervalClip(high)}
	for i, x := range b.After {
		b.After[i] = intervalClip(x)
	}
	return b, nil
}

func samplesFaults(capacity units.Range[units.VolumeDim], samples []DrainedSample) error {
	for _, end := range [...]units.Volume{capacity.Low(), capacity.High()} {
		if err := systemCapacityFault(end); err != nil {
			return err
		}
	}
	if err := samplesCountFault(len(samples)); err != nil {
		return err
	}
	var faults []error
	for i, s := range samples {
		if len(faults) >= remainingMostFaults {
			break
		}
		where := "sample " + strconv.Itoa(i+1)
		if err := systemDrainFault("volume", s.Volume, capacity.Low(), "smallest capacity"); err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", where, err))
		}
		if !systemIsShare(s.OldShare) {
			faults = append(faults, fmt.Errorf("%s: %w", where, systemShareFault("old share", s.OldShare)))
		}
		if !systemIsShare(s.RefillOldShare) {
			faults = append(faults, fmt.Errorf("%s: %w", where, systemShareFault("refill's old share", s.RefillOldShare)))
		}
	}
	return errors.Join(faults...)
}

func samplesCountFault(n int) error {
	if n < 1 || n > traceMostPasses {
		return fmt.Errorf("%d samples; want 1 to %d", n, traceMostPasses)
	}
	return nil
}

package exchange

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// MeasuredSample is a drained sample with the doubt of its volume and of the old
// share read from it, a bare number from 0 to 1. New fluid went back.
type MeasuredSample struct {
	Volume   measure.Volume
	OldShare measure.Reading
}

// SamplesReading returns [FromSamples] with doubt: the old share left, as a bare
// number, with the causes of the volumes, of the shares read and of the capacity
// range, shared ones added with their signs (first-order propagation, JCGM
// 100:2008 5.1.2). A comparison scale used for every sample is one cause, and does
// not average out. Faults as for FromSamples; a share read may stand outside 0 to 1
// by no more than three of its standard uncertainties.
func SamplesReading(capacity units.Range[units.VolumeDim], samples []MeasuredSample) (measure.Reading, error) {
	if err := samplesMeasuredFaults(capacity, samples); err != nil {
		return measure.Reading{}, fmt.Errorf("exchange: samples reading: %w", err)
	}
	box, err := MeasuredService{Capacity: capacity}.capacityReading()
	if err != nil {
		return measure.Reading{}, fmt.Errorf("exchange: samples reading: %w", err)
	}
	c, took := box.Value(), 0.0
	parts := make([]measure.Part, 0, 2*len(samples)+1)
	for _, s := range samples {
		v, share := s.Volume.Reading(), s.OldShare
		took += float64(v.Value() * share.Value())
		parts = append(parts, measure.Part{Of: v, Sensitivity: -share.Value() / c}, measure.Part{Of: share, Sensitivity: -v.Value() / c})
	}
	parts = append(parts, measure.Part{Of: box, Sensitivity: took / c / c})
	r, err := measure.Combine(1-took/c, parts...)
	if err != nil {
		return measure.Reading{}, fmt.Errorf("exchange: samples reading: %w", err)
	}
	if slack := float64(3 * r.U()); r.Value() < -slack || r.Value() > 1+slack {
		return measure.Reading{}, fmt.Errorf("exchange: samples reading: the samples leave an old share of %.3f ± %.3f; want 0 to 1: a reading or the capacity is wrong", r.Value(), r.U())
	}
	return r, nil
}

func samplesMeasuredFaults(capacity units.Range[units.VolumeDim], samples []MeasuredSample) error {
	if err := samplesCountFault(len(samples)); err != nil {
		return err
	}
	plain := make([]DrainedSample, len(samples))
	for i, s := range samples {
		plain[i].Volume = s.Volume.Best()
	}
	if err := samplesFaults(capacity, plain); err != nil {
		return err
	}
	var faults []error
	for i, s := range samples {
		if len(faults) >= remainingMostFaults {
			break
		}
		x, slack := s.OldShare.Value(), float64(3*s.OldShare.U())
		if !s.OldShare.Valid() || math.IsNaN(x) || x < -slack || x > 1+slack {
			faults = append(faults, fmt.Errorf("sample %s: old share %g ± %g; want 0 to 1", strconv.Itoa(i+1), x, s.OldShare.U()))
		}
	}
	return errors.Join(faults...)
}

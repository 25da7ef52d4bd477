package jobcard

import (
	"fmt"

	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// atReference turns an amount as it was read into the true volume at the job's
// reference temperature, with its doubt. Instruments used twice are the same
// causes twice, so that what cancels in reality cancels here. n is the entry's
// number: the reading of a line is a doubt of its own each time.
func (s *Spec) atReference(n int, a Amount, law thermal.Fluid) (measure.Volume, error) {
	if !a.Mass.IsZero() {
		mass, err := s.weighed(n, a)
		if err != nil {
			return measure.Volume{}, err
		}
		return law.VolumeMeasured(mass, measure.TemperatureExactly(s.reference()))
	}
	at, err := s.temperature(n, a.Temperature, a.Thermometer)
	if err != nil {
		return measure.Volume{}, err
	}
	read, err := s.volume(n, a, at)
	if err != nil {
		return measure.Volume{}, err
	}
	return law.ConvertMeasured(read, at, measure.TemperatureExactly(s.reference()))
}

// volume is the true volume at the temperature it was read.
func (s *Spec) volume(n int, a Amount, at measure.Temperature) (measure.Volume, error) {
	if a.Vessel == "" {
		if a.PlusMinus.IsZero() {
			return measure.MeasuredExactly(a.Volume), nil
		}
		return estimated(n, a)
	}
	vessel, ok := s.vessel(a.Vessel)
	if !ok {
		return measure.Volume{}, s.noVessel(a.Vessel)
	}
	return vessel.For(entryName(n)).Read(a.Volume, at)
}

// estimated is a volume nobody measured: known only to lie within limits.
func estimated(n int, a Amount) (measure.Volume, error) {
	return estimate(a, "estimate/"+entryName(n), "estimate, "+entryName(n))
}

func estimate(a Amount, id, label string) (measure.Volume, error) {
	u, err := measure.FromHalfWidth(measure.Rectangular, a.PlusMinus.In(units.Litre))
	if err != nil {
		return measure.Volume{}, err
	}
	cause, err := measure.NewCause(id, label, measure.Rectangular, 0)
	if err != nil {
		return measure.Volume{}, err
	}
	return measure.NewMeasured(a.Volume, measure.Term{Cause: cause, Scale: u})
}

func (s *Spec) weighed(n int, a Amount) (measure.Mass, error) {
	if a.Scale == "" {
		return measure.MeasuredExactly(a.Mass), nil
	}
	scale, ok := s.scale(a.Scale)
	if !ok {
		return measure.Mass{}, s.noScale(a.Scale)
	}
	instrument := measure.Scale{ID: scale.ID, Tolerance: scale.PlusMinus, Resolution: scale.Step}
	return instrument.For(entryName(n)).Read(a.Mass)
}

func (s *Spec) temperature(n int, t units.Temperature, id string) (measure.Temperature, error) {
	if id == "" {
		return measure.TemperatureExactly(t), nil
	}
	th, ok := s.thermometer(id)
	if !ok {
		return measure.Temperature{}, s.noThermometer(id)
	}
	return th.probe().For(entryName(n)).Read(t)
}

// entryName tells the doubt of one reading from that of another.
func entryName(n int) string { return fmt.Sprintf("entry-%d", n) }

func (t Thermometer) probe() measure.ContactProbe {
	return measure.ContactProbe{ID: t.ID, Tolerance: t.PlusMinus, Resolution: t.Step}
}

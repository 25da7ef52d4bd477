package measure

import (
	"fmt"

	"example.com/meniscus/units"
)

// Measured is an exact best quantity of dimension D and its doubt, whose terms
// are in the base unit: L, N·m, m, kg, K, or km for road distances. It never
// changes once made. The zero value is exactly zero. Results past the range, or
// of causes that share an id and differ, are not valid, as for Reading.
type Measured[D units.Dimension] struct {
	best  units.Quantity[D]
	doubt doubt
}

// What is measured in a service.
type (
	// Volume is a measured volume; terms in litres.
	Volume = Measured[units.VolumeDim]
	// Mass is a measured mass; terms in kilograms.
	Mass = Measured[units.MassDim]
	// Torque is a measured torque; terms in newton metres.
	Torque = Measured[units.TorqueDim]
	// Length is a measured length; terms in metres.
	Length = Measured[units.LengthDim]
	// TemperatureDelta is a measured difference of temperatures; terms in kelvin.
	TemperatureDelta = Measured[units.TemperatureDeltaDim]
)

// MeasuredExactly returns q without doubt. An out-of-range q gives a Measured
// that is not valid.
func MeasuredExactly[D units.Dimension](q units.Quantity[D]) Measured[D] {
	return measuredOf(q, doubt{})
}

// NewMeasured returns q with terms in the base unit. An out-of-range q, a scale
// that is not finite, a term without a cause and two meanings of one id are errors.
func NewMeasured[D units.Dimension](q units.Quantity[D], terms ...Term) (Measured[D], error) {
	if !q.Valid() {
		return Measured[D]{}, fmt.Errorf("measure: quantity is %w; want a valid one", units.ErrOutOfRange)
	}
	d, err := newDoubt(terms)
	if err != nil {
		return Measured[D]{}, err
	}
	return Measured[D]{q, d}, nil
}

// MeasuredFrom returns a reading in the base unit as a quantity, its value
// rounded once to the nearest tick. A reading that is not valid or too large is
// an error.
func MeasuredFrom[D units.Dimension](r Reading) (Measured[D], error) {
	if r.doubt.fault != nil {
		return Measured[D]{}, r.doubt.fault
	}
	q, err := base[D]().TryOf(r.value)
	if err != nil {
		return Measured[D]{}, fmt.Errorf("measure: %w", err)
	}
	return Measured[D]{q, r.doubt}, nil
}

func measuredOf[D units.Dimension](q units.Quantity[D], d doubt) Measured[D] {
	if d.fault == nil && !q.Valid() {
		d = overflow()
	}
	return Measured[D]{q, d}
}

// Best returns the best estimate, exact; out of range if m is not valid.
func (m Measured[D]) Best() units.Quantity[D] {
	if m.doubt.fault != nil {
		return units.Unit[D](0).Of(0) // no unit: out of range
	}
	return m.best
}

// Reading returns the value in the base unit, the nearest float64, with the
// same terms.
func (m Measured[D]) Reading() Reading {
	if m.doubt.fault != nil {
		return Reading{doubt: m.doubt}
	}
	return Reading{m.best.In(base[D]()), m.doubt}
}

// U returns the standard uncertainty, rounded to the nearest tick; out of range
// if m is not valid.
func (m Measured[D]) U() units.Quantity[D] { return base[D]().Of(m.doubt.u()) }

// Valid is false for the result of an overflow or of two causes that share an
// id and differ.
func (m Measured[D]) Valid() bool { return m.doubt.fault == nil }

// Err says why m is not valid; nil if it is.
func (m Measured[D]) Err() error { return m.doubt.fault }

// Add returns m + o: the best estimates exactly, shared causes with their signs.
func (m Measured[D]) Add(o Measured[D]) Measured[D] {
	return measuredOf(m.best.Add(o.best), m.doubt.plus(o.doubt, 1))
}

// Sub returns m - o: the best estimates exactly, shared causes with their signs.
func (m Measured[D]) Sub(o Measured[D]) Measured[D] {
	return measuredOf(m.best.Sub(o.best), m.doubt.plus(o.doubt, -1))
}

// Scale returns k·m for a known dimensionless k; the best estimate is rounded
// once to the nearest tick, as units.Quantity.Scale does. NaN and infinities
// give a Measured that is not valid.
func (m Measured[D]) Scale(k float64) Measured[D] {
	return measuredOf(m.best.Scale(k), doubt{}.plus(m.doubt, k))
}

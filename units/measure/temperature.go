package measure

import (
	"fmt"

	"example.com/meniscus/units"
)

// Temperature is a measured point on the temperature scale: an exact best
// estimate and its doubt, terms in kelvin. It never changes once made. The zero
// value is absolute zero, a temperature nobody set.
type Temperature struct {
	best  units.Temperature
	doubt doubt
}

// TemperatureExactly returns t without doubt. An out-of-range t gives a
// Temperature that is not valid.
func TemperatureExactly(t units.Temperature) Temperature { return temperatureOf(t, doubt{}) }

// NewTemperature returns t with terms in kelvin. An out-of-range t, a scale that
// is not finite, a term without a cause and two meanings of one id are errors.
func NewTemperature(t units.Temperature, terms ...Term) (Temperature, error) {
	if !t.Valid() {
		return Temperature{}, fmt.Errorf("measure: temperature is %w; want a valid one", units.ErrOutOfRange)
	}
	d, err := newDoubt(terms)
	if err != nil {
		return Temperature{}, err
	}
	return Temperature{t, d}, nil
}

func temperatureOf(t units.Temperature, d doubt) Temperature {
	if d.fault == nil && !t.Valid() {
		d = overflow()
	}
	return Temperature{t, d}
}

// Best returns the best estimate, exact; out of range if t is not valid.
func (t Temperature) Best() units.Temperature {
	if t.doubt.fault != nil {
		return units.Celsius(-units.Huge)
	}
	return t.best
}

// U returns the standard uncertainty, rounded to the nearest tick; out of range
// if t is not valid.
func (t Temperature) U() units.TemperatureDelta { return units.CelsiusDegree.Of(t.doubt.u()) }

// Reading returns the value in kelvin, the nearest float64, with the same terms.
func (t Temperature) Reading() Reading {
	if t.doubt.fault != nil {
		return Reading{doubt: t.doubt}
	}
	return Reading{t.best.Kelvin(), t.doubt}
}

// Valid is false for a point out of range or causes that share an id and differ.
func (t Temperature) Valid() bool { return t.doubt.fault == nil }

// Err says why t is not valid; nil if it is.
func (t Temperature) Err() error { return t.doubt.fault }

// Sub returns how far t lies above o. Two points read with one probe share its
// offset, which drops out of their difference.
func (t Temperature) Sub(o Temperature) TemperatureDelta {
	return measuredOf(t.best.Sub(o.best), t.doubt.plus(o.doubt, -1))
}

// Add returns the temperature d above t.
func (t Temperature) Add(d TemperatureDelta) Temperature {
	return temperatureOf(t.best.Add(d.best), t.doubt.plus(d.doubt, 1))
}

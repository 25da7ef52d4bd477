package measure

import (
	"fmt"
	"strconv"

	"example.com/meniscus/units"
)

// String returns the value and its standard uncertainty to two digits, such as
// "2.400 (u = 0.020)"; the value alone where there is no doubt.
func (r Reading) String() string { return r.doubt.brief(r.value, "") }

// Text returns the value with its expanded uncertainty U = k·u to two digits, such as
// "2.400 ± 0.040 (k = 2)". A k that is not a finite number above 0 gives "not valid".
func (r Reading) Text(k float64) string { return r.doubt.full(r.value, 1, k, "") }

// String returns the best estimate and its standard uncertainty to two digits in
// the base unit, such as "2.400 L (u = 0.020 L)".
func (m Measured[D]) String() string {
	u := base[D]()
	return m.doubt.brief(m.best.In(u), u.String())
}

// Text returns the best estimate and its expanded uncertainty U = k·u in the
// unit, such as "-18 mL ± 41 mL (k = 2)": U to two digits, nearest, and the
// estimate to the same place. A unit of another dimension, or a k that is not a
// finite number above 0, gives "not valid".
func (m Measured[D]) Text(unit units.Unit[D], k float64) string {
	one := base[D]().Of(1).In(unit)
	if one == units.Huge {
		return notValid
	}
	return m.doubt.full(m.best.In(unit), one, k, unit.String())
}

// String returns the best estimate and its standard uncertainty to two digits in
// °C, such as "41.00 °C (u = 0.58 °C)".
func (t Temperature) String() string {
	return t.doubt.brief(t.best.Celsius(), units.CelsiusDegree.String())
}

// Text returns the best estimate and its expanded uncertainty U = k·u on the
// scale, such as "41.0 °C ± 1.2 °C (k = 2)". A k that is not a finite number
// above 0 gives "not valid".
func (t Temperature) Text(scale units.Scale, k float64) string {
	if scale == units.FahrenheitScale {
		return t.doubt.full(t.best.Fahrenheit(), 1.8, k, units.FahrenheitDegree.String())
	}
	return t.doubt.full(t.best.Celsius(), 1, k, units.CelsiusDegree.String())
}

// brief states the standard uncertainty, in the unit of the terms.
func (d doubt) brief(value float64, unit string) string {
	if d.fault != nil {
		return notValid
	}
	v, u := TwoDigits(value, d.u(), Nearest)
	if len(d.terms) == 0 {
		return with(v, unit)
	}
	return fmt.Sprintf("%s (u = %s)", with(v, unit), with(u, unit))
}

func (d doubt) full(value, factor, k float64, unit string) string {
	if d.fault != nil || !finite(k) || k <= 0 {
		return notValid
	}
	v, u := TwoDigits(value, d.u()*factor*k, Nearest)
	return fmt.Sprintf("%s ± %s (k = %s)", with(v, unit), with(u, unit), strconv.FormatFloat(k, 'g', 3, 64))
}

func with(number, unit string) string {
	if unit == "" || number == notValid {
		return number
	}
	return number + " " + unit
}

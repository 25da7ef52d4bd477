package units

import (
	"cmp"
	"fmt"
)

// Temperature is a point on the scale, exact to 1/9 nK, so that 97 °F and
// 325/9 °C are the same value. Points are never added: a difference is a
// TemperatureDelta. The zero value is absolute zero, which no correction
// accepts, so a forgotten temperature is noticed.
type Temperature struct{ ticks int64 }

const (
	ticksPerCelsius    = 9_000_000_000
	ticksPerFahrenheit = 5_000_000_000
	zeroCelsius        = 2_458_350_000_000 // 273.15 K, by definition of the Celsius scale
	zeroFahrenheit     = 2_298_350_000_000 // 459.67 °F above absolute zero
)

// Celsius returns the temperature x °C, x taken as its shortest decimal and
// rounded once to 1/9 nK. NaN, infinities and points below absolute zero give
// the out-of-range value.
func Celsius(x float64) Temperature { return point(x, ticksPerCelsius, zeroCelsius) }

// Fahrenheit returns the temperature x °F, by the same rules as Celsius.
func Fahrenheit(x float64) Temperature { return point(x, ticksPerFahrenheit, zeroFahrenheit) }

// TryCelsius is Celsius with an error where the result would be out of range.
func TryCelsius(x float64) (Temperature, error) { return checkPoint(Celsius(x), x, "°C") }

// TryFahrenheit is Fahrenheit with an error where the result would be out of range.
func TryFahrenheit(x float64) (Temperature, error) { return checkPoint(Fahrenheit(x), x, "°F") }

func point(x float64, perDegree uint64, zero int64) Temperature {
	n, _ := decimalTicks(x, ratio{perDegree, 1})
	return kelvinTicks(addTicks(n, zero))
}

// kelvinTicks refuses what lies below absolute zero.
func kelvinTicks(n int64) Temperature {
	if n < 0 {
		return Temperature{outOfRange}
	}
	return Temperature{n}
}

func checkPoint(t Temperature, x float64, scale string) (Temperature, error) {
	if t.Valid() {
		return t, nil
	}
	return t, fmt.Errorf("units: %v %s is not a temperature: %w; want a finite number at or above absolute zero (-273.15 °C, -459.67 °F)", x, scale, ErrOutOfRange)
}

// Celsius returns t in °C, the nearest float64; Huge when out of range.
func (t Temperature) Celsius() float64 { return t.degrees(zeroCelsius, ticksPerCelsius) }

// Fahrenheit returns t in °F, the nearest float64; Huge when out of range.
func (t Temperature) Fahrenheit() float64 { return t.degrees(zeroFahrenheit, ticksPerFahrenheit) }

// Kelvin returns t in kelvin, the nearest float64; Huge when out of range.
func (t Temperature) Kelvin() float64 { return t.degrees(0, ticksPerCelsius) }

func (t Temperature) degrees(zero int64, perDegree uint64) float64 {
	if !t.Valid() {
		return Huge
	}
	return readBack(t.ticks-zero, ratio{perDegree, 1})
}

// Valid is false only for the out-of-range value.
func (t Temperature) Valid() bool { return t.ticks != outOfRange }

// IsZero reports whether t is the zero value, absolute zero: a temperature
// nobody set.
func (t Temperature) IsZero() bool { return t.ticks == 0 }

// Add returns the temperature d above t; below absolute zero it is out of range.
func (t Temperature) Add(d TemperatureDelta) Temperature {
	return kelvinTicks(addTicks(t.ticks, d.ticks))
}

// Sub returns how far t lies above u, exactly.
func (t Temperature) Sub(u Temperature) TemperatureDelta {
	if !t.Valid() || !u.Valid() {
		return invalid[TemperatureDeltaDim]()
	}
	return fromTicks[TemperatureDeltaDim](t.ticks - u.ticks)
}

// Compare returns -1, 0 or +1 as t is colder than, equal to or warmer than u.
// The out-of-range value is below everything else.
func (t Temperature) Compare(u Temperature) int { return cmp.Compare(t.ticks, u.ticks) }

// Equal reports whether t and u are the same point; it is ==.
func (t Temperature) Equal(u Temperature) bool { return t == u }

// Scale names the two scales a temperature is printed in.
type Scale uint8

// The scales. The zero value is Celsius.
const (
	CelsiusScale Scale = iota
	FahrenheitScale
)

// Text returns t on the scale with the given number of decimals, such as
// "41.1 °C", rounded once, half to even.
func (t Temperature) Text(scale Scale, places int) string {
	zero, degree := int64(zeroCelsius), CelsiusDegree
	if scale == FahrenheitScale {
		zero, degree = zeroFahrenheit, FahrenheitDegree
	}
	if !t.Valid() || scale > FahrenheitScale {
		return outOfRangeText
	}
	return fromTicks[TemperatureDeltaDim](t.ticks-zero).Text(degree, places)
}

// String returns t exactly: in °C, or in °F where °C has no finite decimal.
func (t Temperature) String() string {
	var buf [textBytes]byte
	return string(t.appendExact(buf[:0]))
}

func (t Temperature) appendExact(b []byte) []byte {
	if !t.Valid() {
		return append(b, outOfRangeText...)
	}
	s := specOf[TemperatureDeltaDim]()
	if n := t.ticks - zeroCelsius; finite(n, s.exact, s.places) {
		return appendTrimmed(b, n, s.exact, s.places)
	}
	return appendTrimmed(b, t.ticks-zeroFahrenheit, s.fallback, s.more)
}

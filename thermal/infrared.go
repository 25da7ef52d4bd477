package thermal

import (
	"errors"
	"fmt"
	"math"

	"example.com/meniscus/units"
)

// ErrReflective is wrapped by the refusal of a surface that mirrors more than
// it shows of itself.
var ErrReflective = errors.New("surface too reflective for an infrared thermometer")

// Range and error of the correction with T⁴ for what an instrument sees between
// 8 and 14 µm. The error was found by integrating Planck's law over the band
// (computed) for emissivities 0.5 to 1, settings 0.9 to 1, surroundings 0 to
// 40 °C. Bare aluminium shows what is at stake: at emissivity 0.1 a surface of
// 106 °F reads 72 °F, and ±0.03 of emissivity is ±11 °F (computed).
const (
	leastEmissivity    = 0.5   // our judgement, below it the correction is larger than what is measured
	leastSetting       = 0.9   // our judgement: fixed instruments are set to 0.95 (seen in manuals)
	mostEmissivityPM   = 0.2   // our judgement
	surfaceLow         = 0.0   // °C, of the corrected surface
	surfaceHigh        = 120.0 // °C
	surfaceWarm        = 60.0  // °C; the form is worse above
	reflectedLow       = 0.0   // °C, of the surroundings
	reflectedHigh      = 40.0  // °C
	formShareWarm      = 0.04  // of the correction made, up to surfaceWarm, reflection subtracted (computed)
	formShareHot       = 0.14  // the same above
	formKeptWarm       = 3.0   // K, up to surfaceWarm, reflection kept (computed)
	formKeptHot        = 4.6   // K, the same above
	tapeOrPaint        = 0.95  // emissivity of masking tape and matt black paint, instrument manuals (seen)
	leastEmissivityGap = 0.02  // least ± of an emissivity out of a table; our judgement
)

// Reflection is how the instrument treats what the surface mirrors of its
// surroundings; its manual says. The zero value is not known, and is refused:
// at an emissivity of 0.95 the two ways differ by 2 to 3 °C.
type Reflection uint8

// The ways.
const (
	ReflectionUnknown    Reflection = iota
	ReflectionSubtracted            // it takes the mirrored part off, by a background temperature of its own
	ReflectionKept                  // it takes all it sees for the surface's own
)

// String returns "unknown", "subtracted" or "kept".
func (r Reflection) String() string {
	switch r {
	case ReflectionSubtracted:
		return "subtracted"
	case ReflectionKept:
		return "kept"
	}
	return "unknown"
}

// Infrared is one reading of an infrared thermometer and what is known of the
// spot it was taken of. The zero value is refused.
type Infrared struct {
	Reading    units.Temperature // what it showed
	Reflected  units.Temperature // of what the spot mirrors, 0 to 40 °C: the floor, the workshop
	Emissivity float64           // of the spot, 0.5 to 1; see Emissivities
	PlusMinus  float64           // of the emissivity, rectangular, 0 to 0.2
	Set        float64           // emissivity the instrument is set to, 0.9 to 1
	Reflection Reflection        // from the instrument's manual
}

// Surface is the temperature of a surface as corrected from an infrared
// reading. The skin of a pan is not the fluid in it: with the fluid warmer than
// the air the skin is colder.
type Surface struct {
	Temperature   units.Temperature
	EmissivityOff units.TemperatureDelta // what the ± of the emissivity is worth, ±
	FormOff       units.TemperatureDelta // what T⁴ for the 8-14 µm band may be off, ±

	of Infrared
}

// Surface returns the surface temperature, with S(T) = T⁴ in kelvin:
//
//	S(T) = S(Refl) + (Set/ε)·[S(Reading) - S(Refl)]   reflection subtracted
//	S(T) = [Set·S(Reading) - (1 - ε)·S(Refl)]/ε       reflection kept
//
// It holds for a surface of 0 to 120 °C. Up to 60 °C the T⁴ form is off by at
// most 4 % of the correction (above: 14 %) where the reflection is subtracted,
// and by 3 °C (above: 4.6 °C) where it is kept. An emissivity below 0.5 is an
// error that wraps [ErrReflective] and says what to do instead; other inputs
// outside their ranges are errors, all reported at once.
//
// Source: Stefan-Boltzmann law and the grey-body balance of emitted and
// reflected radiation, from memory; error of the form computed.
func (i Infrared) Surface() (Surface, error) {
	if err := i.check(); err != nil {
		return Surface{}, err
	}
	x := i.radiance()
	if x <= 0 {
		return Surface{}, fmt.Errorf("thermal: infrared: reading %s is below what %s around it reflects: %w; want a reading of the spot itself", i.Reading, i.Reflected, ErrOutsideLaw)
	}
	kelvin := math.Sqrt(math.Sqrt(x))
	t := units.Celsius(kelvin - zeroCelsius)
	if !t.Valid() || t.Compare(units.Celsius(surfaceLow)) < 0 || t.Compare(units.Celsius(surfaceHigh)) > 0 {
		return Surface{}, fmt.Errorf("thermal: infrared: surface comes out at %s: %w; want 0 to 120 °C", celsius(t), ErrOutsideLaw)
	}
	s := Surface{Temperature: t, of: i}
	s.EmissivityOff = units.CelsiusDegree.Of(math.Abs(i.slopes(kelvin).emissivity) * i.PlusMinus)
	s.FormOff = units.CelsiusDegree.Of(i.formOff(t))
	return s, nil
}

const zeroCelsius = 273.15 // K, exact: definition of the Celsius scale

func (i Infrared) check() error {
	if i.Emissivity > 0 && i.Emissivity < leastEmissivity {
		return fmt.Errorf("thermal: infrared: emissivity %v is below 0.5: %w; put masking tape or matt black paint on the spot (emissivity about %v), let it take up the temperature and read that, or use a contact probe",
			i.Emissivity, ErrReflective, tapeOrPaint)
	}
	var faults []error
	add := func(format string, args ...any) {
		faults = append(faults, fmt.Errorf("thermal: infrared: "+format, args...))
	}
	if !(i.Emissivity >= leastEmissivity && i.Emissivity <= 1) {
		add("emissivity %v; want 0.5 to 1 (see Emissivities)", i.Emissivity)
	}
	if !(i.PlusMinus >= 0 && i.PlusMinus <= mostEmissivityPM) {
		add("emissivity ± %v; want 0 to 0.2", i.PlusMinus)
	}
	if !(i.Set >= leastSetting && i.Set <= 1) {
		add("instrument set to %v; want 0.9 to 1", i.Set)
	}
	if i.Reflection != ReflectionSubtracted && i.Reflection != ReflectionKept {
		add("not known whether the instrument subtracts or keeps the reflection; want what its manual says")
	}
	if !i.Reading.Valid() || i.Reading.IsZero() {
		add("reading %s; want a temperature", i.Reading)
	}
	if !i.Reflected.Valid() || i.Reflected.Compare(units.Celsius(reflectedLow)) < 0 || i.Reflected.Compare(units.Celsius(reflectedHigh)) > 0 {
		add("reflected temperature %s; want 0 to 40 °C", i.Reflected)
	}
	return errors.Join(faults...)
}

// radiance is S(T) of the surface.
func (i Infrared) radiance() float64 {
	seen, around := fourth(i.Reading.Kelvin()), fourth(i.Reflected.Kelvin())
	if i.Reflection == ReflectionSubtracted {
		return around + float64(i.Set/i.Emissivity*(seen-around))
	}
	return (float64(i.Set*seen) - float64((1-i.Emissivity)*around)) / i.Emissivity
}

func fourth(kelvin float64) float64 {
	square := kelvin * kelvin
	return float64(square * square)
}

// slopes is how the surface temperature answers to each input.
type slopes struct{ reading, reflected, emissivity float64 }

func (i Infrared) slopes(kelvin float64) slopes {
	cube := func(x float64) float64 { return x * x * x }
	t3 := cube(kelvin)
	k := i.Set / i.Emissivity
	s := slopes{
		reading:    k * cube(i.Reading.Kelvin()) / t3,
		reflected:  (1 - k) * cube(i.Reflected.Kelvin()) / t3,
		emissivity: (fourth(i.Reflected.Kelvin()) - fourth(kelvin)) / (4 * i.Emissivity * t3),
	}
	if i.Reflection == ReflectionKept {
		s.reflected = -(1 - i.Emissivity) / i.Emissivity * cube(i.Reflected.Kelvin()) / t3
	}
	return s
}

// formOff is the half-width of the form's error in kelvin.
func (i Infrared) formOff(surface units.Temperature) float64 {
	hot := surface.Compare(units.Celsius(surfaceWarm)) > 0
	if i.Reflection == ReflectionKept {
		if hot {
			return formKeptHot
		}
		return formKeptWarm
	}
	correction := math.Abs(surface.Sub(i.Reading).In(units.CelsiusDegree))
	if hot {
		return formShareHot * correction
	}
	return formShareWarm * correction
}

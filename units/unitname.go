package units

import (
	"strings"
	"unicode/utf8"
)

// How a unit was named, where that matters.
type naming uint8

const (
	named  naming = iota
	bare          // qt, pt, gal or fl oz with neither US nor imp
	kelvin        // K: a step of 1 °C, or a point above absolute zero
)

// unitNamed returns the unit that a text names, 0 for none. Names are
// case-sensitive and have one meaning each over all dimensions.
func unitNamed(s string) (code, naming) {
	if c, how := lookUp(s); c != 0 {
		return c, how
	}
	var buf [mostBytes]byte
	return lookUp(string(plainName(buf[:0], s)))
}

// plainName writes every space as " " and every sign of a product as ".".
func plainName(b []byte, s string) []byte {
	p := scanner{s}
	for p.rest != "" && len(b) < mostBytes {
		if p.spaces() {
			if p.rest != "" && len(b) > 0 && b[len(b)-1] != '.' {
				b = append(b, ' ')
			}
			continue
		}
		c, size := utf8.DecodeRuneInString(p.rest)
		switch c {
		case '.', '·', '⋅', '∙', '•', '*', '-', '‑', '‐':
			if len(b) > 0 && b[len(b)-1] == ' ' {
				b = b[:len(b)-1]
			}
			b = append(b, '.')
			p.rest = p.rest[size:]
			p.spaces()
			continue
		}
		b = append(b, p.rest[:size]...)
		p.rest = p.rest[size:]
	}
	return b
}

func lookUp(s string) (code, naming) {
	if c := volumeNamed(s); c != 0 {
		return c, named
	}
	if c := liquidMeasure(s); c != 0 {
		return code(c), bare
	}
	if base, ok := strings.CutPrefix(s, "US "); ok {
		return code(liquidMeasure(base)), named
	}
	for _, p := range [...]string{"imp ", "imperial "} {
		if base, ok := strings.CutPrefix(s, p); ok {
			return code(imperial(liquidMeasure(base))), named
		}
	}
	if c := torqueNamed(s); c != 0 {
		return c, named
	}
	if s == "K" || s == "kelvin" {
		return code(CelsiusDegree), kelvin
	}
	return restNamed(s), named
}

func volumeNamed(s string) code {
	switch s {
	case "mL", "ml", "cc", "cm³", "cm3", "millilitre", "millilitres", "milliliter", "milliliters":
		return code(Millilitre)
	case "L", "l", "litre", "litres", "liter", "liters":
		return code(Litre)
	case "in³", "in3", "cu in", "cubic inch", "cubic inches":
		return code(CubicInch)
	}
	return 0
}

// liquidMeasure reads the names that the US and imperial systems share.
func liquidMeasure(s string) Unit[VolumeDim] {
	switch s {
	case "qt", "quart", "quarts":
		return USQuart
	case "fl oz", "fluid ounce", "fluid ounces":
		return USFluidOunce
	case "pt", "pint", "pints":
		return USPint
	case "gal", "gallon", "gallons":
		return USGallon
	}
	return 0
}

func imperial(us Unit[VolumeDim]) Unit[VolumeDim] {
	switch us {
	case USFluidOunce:
		return ImperialFluidOunce
	case USPint:
		return ImperialPint
	case USQuart:
		return ImperialQuart
	case USGallon:
		return ImperialGallon
	}
	return 0
}

func torqueNamed(s string) code {
	switch s {
	case "N·m", "N.m", "Nm", "N m", "newton metre", "newton metres", "newton meter", "newton meters":
		return code(NewtonMetre)
	case "lbf·ft", "lbf.ft", "lbf ft", "ft.lbf", "ft lbf", "lb.ft", "lb ft", "ft.lb", "ft lb",
		"pound.foot", "pound.feet", "pound foot", "pound feet", "foot.pound", "foot.pounds", "foot pound", "foot pounds":
		return code(PoundForceFoot)
	case "lbf·in", "lbf.in", "lbf in", "in.lbf", "in lbf", "lb.in", "lb in", "in.lb", "in lb",
		"pound.inch", "pound.inches", "pound inch", "pound inches", "inch.pound", "inch.pounds", "inch pound", "inch pounds":
		return code(PoundForceInch)
	case "kgf·cm", "kgf.cm", "kgf cm":
		return code(KilogramForceCentimetre)
	case "kgf·m", "kgf.m", "kgf m":
		return code(KilogramForceMetre)
	}
	return 0
}

func restNamed(s string) code {
	switch s {
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return code(Millimetre)
	case "m", "metre", "metres", "meter", "meters":
		return code(Metre)
	case "in", "inch", "inches":
		return code(Inch)
	case "g", "gram", "grams":
		return code(Gram)
	case "kg", "kilogram", "kilograms":
		return code(Kilogram)
	case "oz", "ounce", "ounces":
		return code(Ounce)
	case "lb", "lbs", "pound", "pounds":
		return code(Pound)
	case "°C", "degC", "deg C", "C", "℃":
		return code(CelsiusDegree)
	case "°F", "degF", "deg F", "F", "℉":
		return code(FahrenheitDegree)
	case "km", "kilometre", "kilometres", "kilometer", "kilometers":
		return code(Kilometre)
	case "mi", "mile", "miles":
		return code(Mile)
	}
	return 0
}

// kindNamed says what a unit that we do not use, or use elsewhere, measures.
func kindNamed(s string) string {
	switch s {
	case "ft", "foot", "feet", "yd", "cm", "dm", "µm", "um":
		return "a length"
	case "cL", "cl", "dL", "dl", "dm³", "dm3", "m³", "m3", "ft³", "ft3", "cu ft", "cup", "tsp", "tbsp":
		return "a volume, but not one used here"
	case "lbf", "N", "kgf", "kN":
		return "a force"
	case "psi", "bar", "kPa", "Pa", "MPa":
		return "a pressure"
	case "s", "min", "h", "hr":
		return "a time"
	case "kg/m³", "kg/m3", "kg/L", "kg/l", "g/mL", "g/ml", "g/cm³", "g/cm3", "lb/US gal", "lb/gal", "lb/imp gal":
		return "a density"
	case "rpm":
		return "a speed"
	case "%":
		return "a share"
	}
	return ""
}

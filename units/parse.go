package units

import "strings"

// The grammar, one for all dimensions: a number, an optional space, a unit.
//
//	2.5 qt   .5 L   2½ qt   2 1/2 qt   ½ qt   1/3 qt   2.5e-3 L   -250 mL
//	1,234,567 mL   2,500.5 mL   2,500 mL
//
// A sign may be + or - or the Unicode minus. A space may be plain, no-break
// (U+00A0), narrow no-break (U+202F) or thin (U+2009). Two commas, or a comma
// and a point, can only group thousands. One comma and three digits could be a
// decimal comma, so it is taken as thousands only with mL and g, thousandths
// of which are read on no jug or scale; everywhere else a comma is refused.
//
// Unit names are case-sensitive. A text has at most 64 bytes, 18 digits before
// the point and 18 after, and an exponent between -18 and 18.

// Parse reads a quantity of dimension D, such as "2.5 US qt" or "26 lbf·ft".
// The exact number written is rounded once to the nearest tick, half to even.
// A bare "qt", "pt", "gal" or "fl oz" is a US one; ParseExplicit refuses those.
// Negative quantities are read: a ledger has them. The error is a *ParseError.
func Parse[D Dimension](s string) (Quantity[D], error) { return parse[D](s, false) }

// ParseExplicit is Parse for files that others will read: "qt", "pt", "gal"
// and "fl oz" must say US or imp.
func ParseExplicit[D Dimension](s string) (Quantity[D], error) { return parse[D](s, true) }

// ParseVolume reads a volume: mL, L, in³, and US or imperial fl oz, pt, qt, gal.
func ParseVolume(s string) (Volume, error) { return parse[VolumeDim](s, false) }

// ParseTorque reads a torque: N·m, lbf·ft, lbf·in, kgf·cm or kgf·m. The dot may
// be ·, a full stop, a hyphen or a space, and lb-ft and ft-lb mean lbf·ft.
func ParseTorque(s string) (Torque, error) { return parse[TorqueDim](s, false) }

// ParseLength reads a length of a part: mm, m or in.
func ParseLength(s string) (Length, error) { return parse[LengthDim](s, false) }

// ParseMass reads a mass: g, kg, oz or lb.
func ParseMass(s string) (Mass, error) { return parse[MassDim](s, false) }

// ParseTemperatureDelta reads a difference of temperatures: °C, °F or K, all
// as steps, so that "9 °F" is "5 °C".
func ParseTemperatureDelta(s string) (TemperatureDelta, error) {
	return parse[TemperatureDeltaDim](s, false)
}

// ParseDistance reads a road distance: km or mi.
func ParseDistance(s string) (Distance, error) { return parse[DistanceDim](s, false) }

// ParseTemperature reads a point on the scale: °C, °F or K. Without the degree
// sign, "97 F", "97 degF" and "97 deg F" are read too; nothing else a record
// holds is written so. Points below absolute zero are refused.
func ParseTemperature(s string) (Temperature, error) {
	q, m := parseTemperature(s)
	if m.some() {
		return Temperature{}, m.in(s, acceptedPoint)
	}
	return q, nil
}

const acceptedPoint = "a number with °C, °F or K"

func parseTemperature(s string) (Temperature, mistake) {
	n, name, m := split(s)
	if m.some() {
		return Temperature{}, m
	}
	c, how := unitNamed(name)
	if !dimensioned[TemperatureDeltaDim](c) {
		return Temperature{}, wrongUnit(name, "a temperature")
	}
	if n.thousands {
		return Temperature{}, ambiguousComma(s)
	}
	ticks, ok := n.ticks(ticksPer(c))
	t := kelvinTicks(addTicks(ticks, zeroOf(c, how)))
	if !ok || !t.Valid() {
		return Temperature{}, mistake{token: s, reason: "below absolute zero or past the range", cause: ErrOutOfRange}
	}
	return t, mistake{}
}

// zeroOf is where a scale's zero lies, in ticks above absolute zero.
func zeroOf(c code, how naming) int64 {
	switch {
	case how == kelvin:
		return 0
	case c == code(FahrenheitDegree):
		return zeroFahrenheit
	}
	return zeroCelsius
}

func parse[D Dimension](s string, explicit bool) (Quantity[D], error) {
	n, name, m := split(s)
	if !m.some() {
		var q Quantity[D]
		if q, m = resolve[D](n, name, explicit); !m.some() {
			return q, nil
		}
	}
	return Quantity[D]{}, m.in(s, accepted[D]())
}

// split parts a text into its number and the name of its unit.
func split(s string) (numeral, string, mistake) {
	if len(s) > mostBytes {
		return numeral{}, "", mistake{token: s, reason: "longer than 64 bytes"}
	}
	p := scanner{s}
	p.spaces()
	if p.rest == "" {
		return numeral{}, "", mistake{reason: "is empty"}
	}
	n, m := p.numeral()
	if m.some() {
		return n, "", m
	}
	p.spaces()
	return n, trimRight(p.rest), mistake{}
}

// trimRight drops spaces of every accepted kind at the end.
func trimRight(s string) string {
	for s != "" {
		last := s[len(s)-1]
		switch {
		case last == ' ':
			s = s[:len(s)-1]
		case last < 0x80:
			return s
		default:
			t := strings.TrimSuffix(strings.TrimSuffix(strings.TrimSuffix(s, "\u00a0"), "\u202f"), "\u2009")
			if len(t) == len(s) {
				return s
			}
			s = t
		}
	}
	return s
}

// resolve turns a number and the name of a unit into a quantity.
func resolve[D Dimension](n numeral, name string, explicit bool) (Quantity[D], mistake) {
	c, how := unitNamed(name)
	switch {
	case !dimensioned[D](c):
		return Quantity[D]{}, wrongUnit(name, specOf[D]().name())
	case how == bare && explicit:
		return Quantity[D]{}, mistake{
			token:  name,
			reason: quoted(name) + " may be US or imperial: write " + symbol(c) + " or " + symbol(code(imperial(Unit[VolumeDim](c)))),
		}
	case n.thousands && c != code(Millilitre) && c != code(Gram):
		return Quantity[D]{}, ambiguousComma(name)
	}
	ticks, ok := n.ticks(ticksPer(c))
	if !ok {
		return Quantity[D]{}, mistake{
			token:  name,
			reason: "past the range of " + specOf[D]().name() + ", about " + fromTicks[D](maxTicks).Text(Unit[D](c), 0) + " either way",
			cause:  ErrOutOfRange,
		}
	}
	return fromTicks[D](ticks), mistake{}
}

func ambiguousComma(token string) mistake {
	return mistake{token: token, reason: "a comma is ambiguous here: write 2500 or 2.5, with no comma"}
}

// wrongUnit says why a name is not a unit of what is wanted.
func wrongUnit(name, want string) mistake {
	m := mistake{token: name}
	plain := string(plainName(nil, name))
	c, how := unitNamed(name)
	switch {
	case name == "":
		m.reason = "no unit"
	case name[0]-'0' <= 9 || name[0] == '.' || name[0] == '/' || name[0] == ',' || name[0] == '-':
		m.reason = "the number goes on with " + quoted(name) + ", which is neither a fraction nor a unit"
	case hint(plain, want) != "":
		m.reason = quoted(name) + " is " + hint(plain, want)
	case c != 0:
		m.reason = quoted(name) + " is " + kindOf(c, how) + ", not " + want
	case kindNamed(plain) != "":
		m.reason = quoted(name) + " is " + kindNamed(plain) + ", not " + want
	case near(plain) != "":
		m.reason = quoted(name) + " is not a unit: capitals matter, write " + near(plain)
	default:
		m.reason = quoted(name) + " is not a unit of " + strings.TrimPrefix(strings.TrimPrefix(want, "a "), "an ")
	}
	return m
}

// hint answers names that are written by mistake for a unit of what is wanted.
func hint(plain, want string) string {
	switch want + " " + plain {
	case "a volume ML":
		return "a megalitre: write mL"
	case "a torque nm", "a torque nM", "a torque NM":
		return "not a newton metre: capitals matter, write N·m"
	case "a torque kg.m", "a torque kg m", "a torque kgm":
		return "not a torque: write kgf·m"
	case "a torque kg.cm", "a torque kg cm", "a torque kgcm":
		return "not a torque: write kgf·cm"
	}
	return ""
}

// near returns the symbol that a name differs from in capitals only.
func near(plain string) string {
	for c := code(1); c <= code(Mile); c++ {
		if sym := symbol(c); sym != "?" && strings.EqualFold(sym, plain) {
			return sym
		}
	}
	lower := strings.ToLower(plain)
	if c, _ := unitNamed(lower); c != 0 {
		return lower
	}
	return ""
}

// kindOf says what a unit measures, with its article.
func kindOf(c code, how naming) string {
	switch {
	case how == kelvin || dimensioned[TemperatureDeltaDim](c):
		return "a temperature"
	case c == code(Ounce):
		return "a mass (for a volume write US fl oz or imp fl oz)"
	case dimensioned[VolumeDim](c):
		return "a volume"
	case dimensioned[TorqueDim](c):
		return "a torque"
	case dimensioned[LengthDim](c):
		return "a length"
	case dimensioned[MassDim](c):
		return "a mass"
	}
	return "a road distance"
}

// accepted lists the units of D as an error names them.
func accepted[D Dimension]() string {
	var names []string
	for c := code(1); c <= code(Mile); c++ {
		if dimensioned[D](c) {
			names = append(names, symbol(c))
		}
	}
	last := len(names) - 1
	return "a number with " + strings.Join(names[:last], ", ") + " or " + names[last]
}

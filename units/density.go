package units

import (
	"math/big"
	"strconv"
)

// Density is in kilograms per cubic metre. It is a bare float64 because
// densities come out of models, not off a jug; the zero value is no density.
type Density float64

// The range of a density: far thinner than any gas in a workshop, far denser
// than any metal. Inside it the text of every density reads back exactly.
const (
	leastDensity = 1e-6
	mostDensity  = 1e6
)

func perKilogramPerLitre() ratio { return ratio{1000, 1} }

// perPoundPerUSGallon is exact: 0.45359237 kg over 3.785411784 L.
func perPoundPerUSGallon() ratio { return ratio{453_592_370_000, 3_785_411_784} }

// KilogramsPerLitre converts a density in kg/L, taken as its shortest decimal;
// the result is the nearest float64. What is not above zero, not finite or
// outside 1e-6 to 1e6 kg/m³ gives no density, the zero value.
func KilogramsPerLitre(x float64) Density { return densityOf(x, perKilogramPerLitre()) }

// PoundsPerUSGallon converts a density in lb/US gal by the rules of
// KilogramsPerLitre; the factor is exact.
func PoundsPerUSGallon(x float64) Density { return densityOf(x, perPoundPerUSGallon()) }

func densityOf(x float64, per ratio) Density {
	if !(x >= leastDensity/1000 && x <= mostDensity) {
		return 0
	}
	var buf [32]byte
	digits, exp := splitDecimal(strconv.AppendFloat(buf[:0], x, 'e', -1, 64))
	y, _ := numeral{lo: digits, exp: exp, over: 1}.rat(per).Float64()
	return Density(y).orNone()
}

func (d Density) orNone() Density {
	if !d.Valid() {
		return 0
	}
	return d
}

// KilogramsPerCubicMetre returns the density in kg/m³; 0 where it is not valid.
func (d Density) KilogramsPerCubicMetre() float64 { return float64(d.orNone()) }

// KilogramsPerLitre returns the density in kg/L, the nearest float64, or the
// decimal of up to 15 digits that was turned into this density; 0 where it is
// not valid.
func (d Density) KilogramsPerLitre() float64 { return d.in(perKilogramPerLitre()) }

// PoundsPerUSGallon returns the density in lb/US gal by the rules of
// KilogramsPerLitre.
func (d Density) PoundsPerUSGallon() float64 { return d.in(perPoundPerUSGallon()) }

func (d Density) in(per ratio) float64 {
	if !d.Valid() {
		return 0
	}
	x, _ := new(big.Rat).Mul(new(big.Rat).SetFloat64(float64(d)), big.NewRat(int64(per.den), int64(per.num))).Float64()
	short, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 14, 64), 64)
	if err == nil && densityOf(short, per) == d {
		return short
	}
	return x
}

// Valid reports whether d lies between 1e-6 and 1e6 kg/m³.
func (d Density) Valid() bool { return d >= leastDensity && d <= mostDensity }

// String returns the density to 0.1 kg/m³, the step petroleum tables print.
// MarshalText keeps every digit.
func (d Density) String() string {
	if !d.Valid() {
		return outOfRangeText
	}
	return strconv.FormatFloat(float64(d), 'f', 1, 64) + " kg/m³"
}

// ParseDensity reads a density: kg/m³, kg/L, g/mL, g/cm³ or lb/US gal. A bare
// lb/gal is per US gallon; ParseExplicitDensity refuses it. The number is the
// nearest float64 to what is written. The error is a *ParseError.
func ParseDensity(s string) (Density, error) { return parseDensity(s, false) }

// ParseExplicitDensity is ParseDensity for files that others will read: it
// refuses lb/gal.
func ParseExplicitDensity(s string) (Density, error) { return parseDensity(s, true) }

const acceptedDensity = "a number with kg/m³, kg/L, g/mL, g/cm³ or lb/US gal"

func parseDensity(s string, explicit bool) (Density, error) {
	n, name, m := split(s)
	per, how := densityNamed(string(plainName(nil, name)))
	switch {
	case m.some():
	case per == ratio{}:
		m = wrongUnit(name, "a density")
	case how == bare && explicit:
		m = mistake{token: name, reason: quoted(name) + " may be US or imperial: write lb/US gal"}
	case n.thousands:
		m = ambiguousComma(name)
	default:
		x, _ := n.rat(per).Float64()
		if d := Density(x); d.Valid() {
			return d, nil
		}
		m = mistake{token: s, reason: "outside 1e-6 to 1e6 kg/m³", cause: ErrOutOfRange}
	}
	return 0, m.in(s, acceptedDensity)
}

// densityNamed returns how many kg/m³ the unit is; a zero ratio for none.
func densityNamed(s string) (ratio, naming) {
	switch s {
	case "kg/m³", "kg/m3":
		return ratio{1, 1}, named
	case "kg/L", "kg/l", "g/mL", "g/ml", "g/cm³", "g/cm3":
		return perKilogramPerLitre(), named
	case "lb/US gal":
		return perPoundPerUSGallon(), named
	case "lb/gal":
		return perPoundPerUSGallon(), bare
	}
	return ratio{}, named
}

// rat returns the signed numeral times r, exactly.
func (n numeral) rat(r ratio) *big.Rat {
	num := new(big.Int).SetUint64(n.hi)
	num.Lsh(num, 64).Add(num, new(big.Int).SetUint64(n.lo))
	num.Mul(num, new(big.Int).SetUint64(r.num))
	den := new(big.Int).SetUint64(n.over)
	den.Mul(den, new(big.Int).SetUint64(r.den))
	power := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(n.exp, -n.exp))), nil)
	if n.exp >= 0 {
		num.Mul(num, power)
	} else {
		den.Mul(den, power)
	}
	if n.negative {
		num.Neg(num)
	}
	return new(big.Rat).SetFrac(num, den)
}

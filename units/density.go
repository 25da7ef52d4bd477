package units

import (
	"fmt"
	"math"
	"math/big"
)

// Density is in kilograms per cubic metre. It is a bare float64 because
// densities come out of models, not off a jug; the zero value is no density.
type Density float64

// PoundsPerUSGallon converts a density in lb/US gal. The factor is exact:
// 0.45359237 kg over 3.785411784 L.
func PoundsPerUSGallon(x float64) Density { return Density(x * 453.59237 / 3.785411784) }

// KilogramsPerLitre converts a density in kg/L.
func KilogramsPerLitre(x float64) Density { return Density(x * 1000) }

// KilogramsPerCubicMetre returns the density in kg/m³.
func (d Density) KilogramsPerCubicMetre() float64 { return float64(d) }

// PoundsPerUSGallon returns the density in lb/US gal.
func (d Density) PoundsPerUSGallon() float64 { return float64(d) * 3.785411784 / 453.59237 }

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
	per, how := densityNamed(name)
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
		m = mistake{token: name, reason: "not a density above zero, or past its range", cause: ErrOutOfRange}
	}
	return 0, m.in(s, acceptedDensity)
}

// densityNamed returns how many kg/m³ the unit is; a zero ratio for none.
func densityNamed(s string) (ratio, naming) {
	switch s {
	case "kg/m³", "kg/m3":
		return ratio{1, 1}, named
	case "kg/L", "kg/l", "g/mL", "g/ml", "g/cm³", "g/cm3":
		return ratio{1000, 1}, named
	case "lb/US gal":
		return ratio{453_592_370_000, 3_785_411_784}, named
	case "lb/gal":
		return ratio{453_592_370_000, 3_785_411_784}, bare
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

// Valid reports whether d is finite and above zero.
func (d Density) Valid() bool {
	return d > 0 && float64(d) <= math.MaxFloat64
}

// String returns the density to 0.1 kg/m³, the step petroleum tables print.
func (d Density) String() string {
	if !d.Valid() {
		return outOfRangeText
	}
	return fmt.Sprintf("%.1f kg/m³", float64(d))
}

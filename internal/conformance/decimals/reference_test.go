package decimals

import (
	"math"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

// dimension is a dimension with its units as rational numbers of its base unit,
// the one String prints in.
type dimension[D units.Dimension] struct {
	tick *big.Rat
	all  []unit[D]
}

type unit[D units.Dimension] struct {
	of  units.Unit[D]
	per *big.Rat
}

// fraction reads a product or quotient such as "231 × 16.387064 / 1000".
func fraction(s string) *big.Rat {
	x := big.NewRat(1, 1)
	parts := strings.Fields(s)
	for i := 0; i < len(parts); i += 2 {
		f, ok := new(big.Rat).SetString(parts[i])
		if !ok {
			panic(s)
		}
		if i > 0 && parts[i-1] == "/" {
			f.Inv(f)
		}
		x.Mul(x, f)
	}
	return x
}

// The definitions, in full: inch 25.4 mm and pound 0.45359237 kg (1959), gallon
// 231 in³, imperial gallon 4.54609 L, standard gravity 9.80665 m/s².
func volumes() dimension[units.VolumeDim] {
	in3 := "2.54 × 2.54 × 2.54 / 1000 × "
	return dimension[units.VolumeDim]{fraction("1e-14"), []unit[units.VolumeDim]{
		{units.Litre, fraction("1")}, {units.Millilitre, fraction("1e-3")}, {units.CubicInch, fraction(in3 + "1")},
		{units.USGallon, fraction(in3 + "231")}, {units.USQuart, fraction(in3 + "231 / 4")}, {units.USPint, fraction(in3 + "231 / 8")}, {units.USFluidOunce, fraction(in3 + "231 / 128")},
		{units.ImperialGallon, fraction("4.54609")}, {units.ImperialQuart, fraction("4.54609 / 4")}, {units.ImperialPint, fraction("4.54609 / 8")}, {units.ImperialFluidOunce, fraction("4.54609 / 160")},
	}}
}

func torques() dimension[units.TorqueDim] {
	return dimension[units.TorqueDim]{fraction("1e-15"), []unit[units.TorqueDim]{
		{units.NewtonMetre, fraction("1")}, {units.PoundForceFoot, fraction("0.45359237 × 9.80665 × 0.3048")},
		{units.PoundForceInch, fraction("0.45359237 × 9.80665 × 0.0254")}, {units.KilogramForceMetre, fraction("9.80665")}, {units.KilogramForceCentimetre, fraction("0.0980665")},
	}}
}

func lengths() dimension[units.LengthDim] {
	return dimension[units.LengthDim]{fraction("1e-6"), []unit[units.LengthDim]{
		{units.Millimetre, fraction("1")}, {units.Metre, fraction("1000")}, {units.Inch, fraction("25.4")},
	}}
}

func masses() dimension[units.MassDim] {
	return dimension[units.MassDim]{fraction("1e-10"), []unit[units.MassDim]{
		{units.Gram, fraction("1")}, {units.Kilogram, fraction("1000")}, {units.Pound, fraction("453.59237")}, {units.Ounce, fraction("453.59237 / 16")},
	}}
}

func steps() dimension[units.TemperatureDeltaDim] {
	return dimension[units.TemperatureDeltaDim]{fraction("1 / 9e9"), []unit[units.TemperatureDeltaDim]{
		{units.CelsiusDegree, fraction("1")}, {units.FahrenheitDegree, fraction("5 / 9")},
	}}
}

func distances() dimension[units.DistanceDim] {
	return dimension[units.DistanceDim]{fraction("1e-6"), []unit[units.DistanceDim]{
		{units.Kilometre, fraction("1")}, {units.Mile, fraction("1.609344")},
	}}
}

// round rounds to a whole number of steps by a rule of package units.
func round(x, step *big.Rat, how units.Rounding) *big.Rat {
	q := new(big.Rat).Quo(x, step)
	floor, rem := new(big.Int).DivMod(q.Num(), q.Denom(), new(big.Int))
	half := new(big.Rat).SetFrac(rem, q.Denom())
	side := half.Cmp(big.NewRat(1, 2))
	up := false
	switch how {
	case units.HalfEven:
		up = side > 0 || side == 0 && floor.Bit(0) == 1
	case units.HalfAway:
		up = side > 0 || side == 0 && x.Sign() > 0
	case units.Down:
		up = rem.Sign() != 0 && x.Sign() < 0
	case units.Up:
		up = rem.Sign() != 0 && x.Sign() > 0
	case units.Ceiling:
		up = rem.Sign() != 0
	}
	if up {
		floor.Add(floor, big.NewInt(1))
	}
	return q.Mul(q.SetInt(floor), step)
}

// ticks is the exact value of a quantity in ticks, and nil out of range.
func (d dimension[D]) ticks(t *testing.T, q units.Quantity[D]) *big.Int {
	t.Helper()
	if !q.Valid() {
		return nil
	}
	amount, name, _ := strings.Cut(q.String(), " ")
	x := number(t, amount)
	if name == "°F" {
		x.Mul(x, big.NewRat(5, 9))
	}
	if x.Quo(x, d.tick); !x.IsInt() {
		t.Fatalf("%s is no whole number of ticks", q)
	}
	return x.Num()
}

// limited rounds an exact amount to ticks, nil where it is out of range.
func (d dimension[D]) limited(x *big.Rat) *big.Int {
	n := round(new(big.Rat).Quo(x, d.tick), big.NewRat(1, 1), units.HalfEven).Num()
	if n.CmpAbs(new(big.Int).Lsh(big.NewInt(1), 63)) >= 0 {
		return nil
	}
	return n
}

func same(a, b *big.Int) bool {
	if a == nil || b == nil {
		return a == nil && b == nil
	}
	return a.Cmp(b) == 0
}

func number(t *testing.T, s string) *big.Rat {
	t.Helper()
	x, ok := new(big.Rat).SetString(s)
	if !ok {
		t.Fatalf("%q is no number", s)
	}
	return x
}

func money(d decimal.Decimal) *big.Rat { return d.Rat() }

// random gives a quantity of any size the dimension can hold: a float of up to
// 2^63 ticks and, so that the last digits are not those of a float, some more.
func random[D units.Dimension](r *rand.Rand, d dimension[D]) units.Quantity[D] {
	tick, _ := d.tick.Float64()
	base := d.all[0].of
	q := base.Of((2*r.Float64() - 1) * math.Ldexp(tick, r.IntN(63))).Add(base.Of(tick * float64(r.IntN(1e6))))
	if !q.Valid() {
		return base.Of(1)
	}
	return q
}

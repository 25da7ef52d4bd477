package gnuunits

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"example.com/meniscus/units"
)

// pair is a unit of ours under the name it has in the definitions file.
type pair[D units.Dimension] struct {
	ours   units.Unit[D]
	theirs string
}

// dimension is all of a dimension: base is the unit that String prints in, one
// tick the finest step of ours, first the number of its first unit.
type dimension[D units.Dimension] struct {
	name  string
	base  string
	tick  string // of the base unit
	first units.Unit[D]
	pairs []pair[D]
}

func volumes() dimension[units.VolumeDim] {
	return dimension[units.VolumeDim]{"volume", "L", "1e-14", units.Millilitre, []pair[units.VolumeDim]{
		{units.Millilitre, "milliliter"}, {units.Litre, "liter"}, {units.CubicInch, "in^3"},
		{units.USFluidOunce, "usfluidounce"}, {units.USPint, "uspint"}, {units.USQuart, "usquart"}, {units.USGallon, "usgallon"},
		{units.ImperialFluidOunce, "brfluidounce"}, {units.ImperialPint, "brpint"}, {units.ImperialQuart, "brquart"}, {units.ImperialGallon, "brgallon"},
	}}
}

func torques() dimension[units.TorqueDim] {
	return dimension[units.TorqueDim]{"torque", "N m", "1e-15", units.NewtonMetre, []pair[units.TorqueDim]{
		{units.NewtonMetre, "N m"}, {units.PoundForceFoot, "lbf ft"}, {units.PoundForceInch, "lbf in"},
		{units.KilogramForceCentimetre, "kgf cm"}, {units.KilogramForceMetre, "kgf m"},
	}}
}

func lengths() dimension[units.LengthDim] {
	return dimension[units.LengthDim]{"length", "mm", "1e-6", units.Millimetre, []pair[units.LengthDim]{
		{units.Millimetre, "mm"}, {units.Metre, "m"}, {units.Inch, "inch"},
	}}
}

func masses() dimension[units.MassDim] {
	return dimension[units.MassDim]{"mass", "g", "1e-10", units.Gram, []pair[units.MassDim]{
		{units.Gram, "gram"}, {units.Kilogram, "kg"}, {units.Ounce, "ounce"}, {units.Pound, "pound"},
	}}
}

func steps() dimension[units.TemperatureDeltaDim] {
	return dimension[units.TemperatureDeltaDim]{"temperature step", "K", "1/9000000000", units.CelsiusDegree, []pair[units.TemperatureDeltaDim]{
		{units.CelsiusDegree, "degC"}, {units.FahrenheitDegree, "degF"},
	}}
}

func distances() dimension[units.DistanceDim] {
	return dimension[units.DistanceDim]{"road distance", "km", "1e-6", units.Kilometre, []pair[units.DistanceDim]{
		{units.Kilometre, "km"}, {units.Mile, "mile"},
	}}
}

func TestDefinitions(t *testing.T) {
	d := definitions(t)
	t.Run("volume", func(t *testing.T) { exactly(t, d, volumes()) })
	t.Run("torque", func(t *testing.T) { exactly(t, d, torques()) })
	t.Run("length", func(t *testing.T) { exactly(t, d, lengths()) })
	t.Run("mass", func(t *testing.T) { exactly(t, d, masses()) })
	t.Run("step", func(t *testing.T) { exactly(t, d, steps()) })
	t.Run("distance", func(t *testing.T) { exactly(t, d, distances()) })
}

// amounts are decimals as written on a jug or a sheet, small, large and signed.
func amounts(n int) []string {
	all := []string{"0", "1", "-1", "0.1", "2.5", "0.333333", "97", "115", "1000", "0.000001", "4999.5"}
	r := rand.New(rand.NewPCG(20, 26))
	for range n {
		x := r.Float64() * []float64{1, 10, 100, 5000}[r.IntN(4)]
		if r.IntN(8) == 0 {
			x = -x
		}
		all = append(all, strconv.FormatFloat(x, 'f', r.IntN(7), 64))
	}
	return all
}

// exactly compares, as rational numbers, what ours makes of an amount in one
// unit and says of it in another with the definitions.
func exactly[D units.Dimension](t *testing.T, d *Definitions, dim dimension[D]) {
	tick := rat(t, dim.tick)
	all := amounts(300)
	checked := 0
	for i, p := range dim.pairs {
		if want := dim.first + units.Unit[D](i); p.ours != want {
			t.Fatalf("unit %d is %s; want %s: every unit, in order", i, p.ours, want)
		}
		per := ratio(t, d, p.theirs, dim.base)
		for _, text := range all {
			x, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatal(err)
			}
			want := toTick(new(big.Rat).Mul(rat(t, text), per), tick)
			q := p.ours.Of(x)
			if past(want, tick) {
				if q.Valid() {
					t.Errorf("%s %s: ours %s; want out of range", text, p.ours, q)
				}
				continue
			}
			if got := base(t, q); got.Cmp(want) != 0 {
				t.Errorf("%s %s: ours %s, theirs %s", text, p.ours, got.FloatString(20), want.FloatString(20))
			}
			if parsed, err := units.ParseExplicit[D](text + " " + p.ours.String()); err != nil || parsed != q {
				t.Errorf("%s %s parsed: %s, %v", text, p.ours, parsed, err)
			}
			for _, other := range dim.pairs {
				readAs(t, q, want, other.ours, ratio(t, d, other.theirs, dim.base), tick)
				checked++
			}
		}
	}
	if over := dim.first + units.Unit[D](len(dim.pairs)); over.String() != "?" {
		t.Errorf("%s is a unit of %s and not compared", over, dim.name)
	}
	t.Logf("%s: %d units, %d conversions by the definitions", dim.name, len(dim.pairs), checked)
}

// past reports whether an amount is beyond 2^63 ticks.
func past(amount, tick *big.Rat) bool {
	limit := new(big.Rat).SetInt(new(big.Int).Lsh(big.NewInt(1), 63))
	return new(big.Rat).Abs(amount).Cmp(limit.Mul(limit, tick)) >= 0
}

func ratio(t *testing.T, d *Definitions, from, to string) *big.Rat {
	t.Helper()
	r, err := d.Ratio(from, to)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// readAs checks In and Text of an exact amount.
func readAs[D units.Dimension](t *testing.T, q units.Quantity[D], exact *big.Rat, u units.Unit[D], per, tick *big.Rat) {
	t.Helper()
	want := new(big.Rat).Quo(exact, per)
	nearest, _ := want.Float64()
	got := q.In(u)
	// In may give, as a float, the decimal that was written where a tick cannot
	// hold it: less than a tick away, and the rounding to a float on top.
	off := new(big.Rat).SetFloat64(got)
	off.Sub(off.Mul(off, per), exact)
	ulp := new(big.Rat).SetFloat64(math.Nextafter(math.Abs(got), math.MaxFloat64) - math.Abs(got))
	slack := ulp.Mul(ulp, per)
	slack.Add(slack.Quo(slack, big.NewRat(2, 1)), tick)
	if got != nearest && off.Abs(off).Cmp(slack) > 0 {
		t.Errorf("%s in %s: ours %v, theirs %v", q, u, got, nearest)
	}
	const places = 6
	text := strings.TrimSuffix(q.Text(u, places), " "+u.String())
	if rounded := toTick(want, big.NewRat(1, 1e6)); rat(t, text).Cmp(rounded) != 0 {
		t.Errorf("%s as text in %s: ours %s, theirs %s", q, u, text, rounded.FloatString(places))
	}
}

// toTick rounds to a whole number of ticks, half to even.
func toTick(x, tick *big.Rat) *big.Rat {
	q := new(big.Rat).Quo(x, tick)
	twice := new(big.Int).Lsh(q.Num(), 1)
	whole, rem := new(big.Int).DivMod(twice.Add(twice, q.Denom()), new(big.Int).Lsh(q.Denom(), 1), new(big.Int))
	if rem.Sign() == 0 && whole.Bit(0) == 1 { // a tie, rounded up to odd
		whole.Sub(whole, big.NewInt(1))
	}
	return q.Mul(q.SetInt(whole), tick)
}

// base reads String, which is exact, as a number of base units.
func base[D units.Dimension](t *testing.T, q units.Quantity[D]) *big.Rat {
	t.Helper()
	amount, unit, _ := strings.Cut(q.String(), " ")
	x := rat(t, amount)
	if unit == "°F" {
		x.Mul(x, big.NewRat(5, 9))
	}
	return x
}

func TestProgram(t *testing.T) {
	d := definitions(t)
	t.Run("volume", func(t *testing.T) { printed(t, d, volumes()) })
	t.Run("torque", func(t *testing.T) { printed(t, d, torques()) })
	t.Run("length", func(t *testing.T) { printed(t, d, lengths()) })
	t.Run("mass", func(t *testing.T) { printed(t, d, masses()) })
	t.Run("step", func(t *testing.T) { printed(t, d, steps()) })
	t.Run("distance", func(t *testing.T) { printed(t, d, distances()) })
}

// printed compares every unit with every other, both ways, with the answers of
// the program: to its digits, or to the tick and a half that rounding on the
// way in and the written decimal on the way out may take.
func printed[D units.Dimension](t *testing.T, d *Definitions, dim dimension[D]) {
	var all []question
	var ours, slack []*big.Rat
	ticks := new(big.Rat).Mul(rat(t, dim.tick), big.NewRat(3, 2))
	for _, from := range dim.pairs {
		for _, to := range dim.pairs {
			step := new(big.Rat).Quo(ticks, ratio(t, d, to.theirs, dim.base))
			for _, text := range amounts(25) {
				x, err := strconv.ParseFloat(text, 64)
				if err != nil {
					t.Fatal(err)
				}
				q := from.ours.Of(x)
				if !q.Valid() { // TestDefinitions holds that it should not be
					continue
				}
				all = append(all, question{fmt.Sprintf("(%s) %s", text, from.theirs), to.theirs})
				ours = append(ours, new(big.Rat).SetFloat64(q.In(to.ours)))
				slack = append(slack, step)
			}
		}
	}
	worst := 0.0
	for i, theirs := range ask(t, all) {
		digits := new(big.Rat).Mul(new(big.Rat).Abs(theirs), printedDigits())
		off := new(big.Rat).Sub(ours[i], theirs)
		if off.Abs(off).Cmp(digits.Add(digits, slack[i])) > 0 {
			t.Errorf("%s in %s: ours %s, theirs %s", all[i].have, all[i].want, ours[i].FloatString(20), theirs.FloatString(20))
		}
		if off.Sign() > 0 {
			share, _ := off.Quo(off, digits).Float64()
			worst = max(worst, share)
		}
	}
	t.Logf("%s: %d conversions, worst %.2f of what is allowed", dim.name, len(all), worst)
}

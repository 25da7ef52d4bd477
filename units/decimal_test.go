package units

import (
	"errors"
	"math/big"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
)

// Cases to be checked by eye: quarters and halves of a millilitre.
func TestDecimalRoundings(t *testing.T) {
	for _, c := range []struct {
		ml   float64
		want [6]string // half even, half away, down, up, floor, ceiling
	}{
		{2.5, [6]string{"2", "3", "2", "3", "2", "3"}},
		{3.5, [6]string{"4", "4", "3", "4", "3", "4"}},
		{-2.5, [6]string{"-2", "-3", "-2", "-3", "-3", "-2"}},
		{2.4, [6]string{"2", "2", "2", "3", "2", "3"}},
		{2.6, [6]string{"3", "3", "2", "3", "2", "3"}},
		{-2.6, [6]string{"-3", "-3", "-2", "-3", "-3", "-2"}},
		{2, [6]string{"2", "2", "2", "2", "2", "2"}},
		{-0.1, [6]string{"0", "0", "0", "-1", "-1", "0"}},
		{0, [6]string{"0", "0", "0", "0", "0", "0"}},
	} {
		for r, want := range c.want {
			got, err := Millilitre.Of(c.ml).Decimal(Millilitre, 0, Rounding(r))
			if err != nil || got.StringFixed(0) != want {
				t.Errorf("%v mL rounded %s is %s, %v; want %s", c.ml, Rounding(r), got.StringFixed(0), err, want)
			}
		}
	}
}

// Against rational numbers, for every unit and rounding.
func TestDecimalAgreesWithRationals(t *testing.T) {
	for i, n := range manyTicks(100) {
		places := i % (MostPlaces + 1)
		checkDecimal(t, n, volumeUnit(i), places)
		checkDecimalTorque(t, n, PoundForceFoot, places)
	}
}

// volumeUnit walks the units of volume.
func volumeUnit(i int) Unit[VolumeDim] { return Millilitre + Unit[VolumeDim](i%11) }

func checkDecimal(t *testing.T, n int64, u Unit[VolumeDim], places int) {
	t.Helper()
	for r := HalfEven; r <= Ceiling; r++ {
		got, err := fromTicks[VolumeDim](n).Decimal(u, places, r)
		if err != nil {
			t.Fatal(err)
		}
		compareDecimal(t, got, n, code(u), places, r)
	}
}

func checkDecimalTorque(t *testing.T, n int64, u Unit[TorqueDim], places int) {
	t.Helper()
	for r := HalfEven; r <= Ceiling; r++ {
		got, err := fromTicks[TorqueDim](n).Decimal(u, places, r)
		if err != nil {
			t.Fatal(err)
		}
		compareDecimal(t, got, n, code(u), places, r)
	}
}

func compareDecimal(t *testing.T, got decimal.Decimal, n int64, c code, places int, r Rounding) {
	t.Helper()
	power := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
	x := new(big.Rat).Quo(new(big.Rat).SetInt64(n), ticksOf(c))
	x.Mul(x, new(big.Rat).SetInt(power))
	want := slowRound(x, r)
	if have := new(big.Rat).Mul(got.Rat(), new(big.Rat).SetInt(power)); have.Cmp(new(big.Rat).SetInt(want)) != 0 {
		t.Fatalf("%d ticks in %s, %d places, %s: %s, want %s e-%d", n, symbol(c), places, r, got, want, places)
	}
}

// slowRound takes floor and ceiling and picks one.
func slowRound(x *big.Rat, r Rounding) *big.Int {
	floor := new(big.Int).Div(x.Num(), x.Denom())
	rest := new(big.Rat).Sub(x, new(big.Rat).SetInt(floor))
	if rest.Sign() == 0 {
		return floor
	}
	ceiling := new(big.Int).Add(floor, big.NewInt(1))
	half := rest.Cmp(big.NewRat(1, 2))
	pick := map[Rounding]bool{ // true: the ceiling
		Floor:    false,
		Ceiling:  true,
		Down:     x.Sign() < 0,
		Up:       x.Sign() > 0,
		HalfAway: half > 0 || half == 0 && x.Sign() > 0,
		HalfEven: half > 0 || half == 0 && floor.Bit(0) == 1,
	}
	if pick[r] {
		return ceiling
	}
	return floor
}

func TestDecimalErrors(t *testing.T) {
	for _, c := range []struct {
		v    Volume
		u    Unit[VolumeDim]
		r    Rounding
		want string
	}{
		{Litre.Of(1e9), Litre, HalfEven, "out of range"},
		{Litre.Of(1), Unit[VolumeDim](NewtonMetre), HalfEven, "not a unit of volume"},
		{Litre.Of(1), 0, HalfEven, "not a unit of volume"},
		{Litre.Of(1), Litre, 6, "rounding 6 is not known; want one from HalfEven to Ceiling"},
	} {
		if _, err := c.v.Decimal(c.u, 2, c.r); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("error %v, want %q", err, c.want)
		}
	}
	if _, err := Litre.Of(1e9).Decimal(Litre, 2, HalfEven); !errors.Is(err, ErrOutOfRange) {
		t.Errorf("%v does not wrap ErrOutOfRange", err)
	}
}

// A host may set these; our answers must not move. They are put back.
func TestDecimalIgnoresPackageVariables(t *testing.T) {
	division, exponent := decimal.DivisionPrecision, decimal.MarshalJSONWithoutQuotes
	defer func() { decimal.DivisionPrecision, decimal.MarshalJSONWithoutQuotes = division, exponent }()
	before, _ := Litre.Of(12.5).Scale(1.0/3).Decimal(USQuart, 12, HalfEven)
	decimal.DivisionPrecision, decimal.MarshalJSONWithoutQuotes = 2, true
	after, _ := Litre.Of(12.5).Scale(1.0/3).Decimal(USQuart, 12, HalfEven)
	if before.Cmp(after) != 0 {
		t.Errorf("%s becomes %s", before, after)
	}
}

func TestRoundingNames(t *testing.T) {
	want := []string{"half even", "half away from zero", "down", "up", "floor", "ceiling", "rounding 6"}
	for r, name := range want {
		if got := Rounding(r).String(); got != name {
			t.Errorf("rounding %d is %q, want %q", r, got, name)
		}
	}
}

package units

import (
	"math/rand/v2"
	"testing"
)

func TestTextAgreesWithDecimals(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for _, n := range manyTicks(500) {
		eachUnit(func(c code) {
			places := r.IntN(MostPlaces + 1)
			got := string(appendFixed(nil, n, ticksPer(c), places)) + " " + symbol(c)
			if want := slowText(n, c, int32(places)); got != want {
				t.Fatalf("%d ticks with %d places print %q, want %q", n, places, got, want)
			}
		})
	}
}

func TestTextTies(t *testing.T) {
	for _, c := range []struct {
		ml     float64
		places int
		want   string
	}{
		{0.5, 0, "0 mL"}, {1.5, 0, "2 mL"}, {2.5, 0, "2 mL"}, {-0.5, 0, "0 mL"}, {-1.5, 0, "-2 mL"}, {0.51, 0, "1 mL"},
		{0.125, 2, "0.12 mL"}, {0.375, 2, "0.38 mL"}, {9.995, 2, "10.00 mL"}, {9.985, 2, "9.98 mL"}, {-0.004, 2, "0.00 mL"}, {-0.005001, 2, "-0.01 mL"},
		{99.95, 1, "100.0 mL"}, {0.05, 3, "0.050 mL"}, {1, -3, "1 mL"}, {1, 99, "1.000000000000000 mL"},
	} {
		if got := Millilitre.Of(c.ml).Text(Millilitre, c.places); got != c.want {
			t.Errorf("%v with %d places prints %q, want %q", c.ml, c.places, got, c.want)
		}
	}
	if got := fromTicks[VolumeDim](-maxTicks).Text(Millilitre, 15); got != "-92233720.368547758070000 mL" {
		t.Errorf("the lowest volume prints %q", got)
	}
	if got := fromTicks[LengthDim](maxTicks).Text(Millimetre, 6); got != "9223372036854.775807 mm" {
		t.Errorf("the largest length prints %q", got)
	}
}

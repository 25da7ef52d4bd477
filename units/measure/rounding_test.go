package measure_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"example.com/meniscus/units/measure"
)

// JCGM 100:2008 7.2.6 rounds 10.47 up to 11 and 28.05 to 28.
func TestTwoDigits(t *testing.T) {
	for _, c := range []struct {
		value, u float64
		how      measure.Rounding
		v, want  string
	}{
		{100, 10.47, measure.Nearest, "100", "10"},
		{100, 10.47, measure.Up, "100", "11"},
		{100, 28.05, measure.Nearest, "100", "28"},
		{100, 28.05, measure.Up, "100", "29"},
		{0.353437, 0.02437, measure.Nearest, "0.353", "0.024"},
		{-0.0184, 0.0413, measure.Nearest, "-0.018", "0.041"},
		{-0.0001, 0.041, measure.Nearest, "0.000", "0.041"},
		{1.5, 0.0996, measure.Nearest, "1.50", "0.10"},
		{1.5, 0.0995, measure.Up, "1.50", "0.10"},
		{12345, 678, measure.Nearest, "12340", "680"}, // half to even
		{3, 678, measure.Nearest, "0", "680"},
		{1234567, 67812, measure.Nearest, "1235000", "68000"},
		{-987654321, 1.25e6, measure.Up, "-987700000", "1300000"},
		{1e20, 1.2e18, measure.Nearest, "1.000000e+20", "12e17"},
		{2.5, 0, measure.Nearest, "2.5", "0"},
		{math.Copysign(0, -1), 0, measure.Nearest, "0", "0"},
		{math.NaN(), 1, measure.Nearest, "not valid", "not valid"},
		{1, -1, measure.Nearest, "not valid", "not valid"},
		{1, math.Inf(1), measure.Up, "not valid", "not valid"},
	} {
		v, u := measure.TwoDigits(c.value, c.u, c.how)
		if v != c.v || u != c.want {
			t.Errorf("TwoDigits(%v, %v, %v) = %s ± %s, want %s ± %s", c.value, c.u, c.how, v, u, c.v, c.want)
		}
	}
}

// Up never understates, Nearest is within half a last digit.
func TestTwoDigitsProperty(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 20_000 {
		u := math.Exp(rng.Float64()*40 - 20)
		_, up := measure.TwoDigits(0, u, measure.Up)
		_, near := measure.TwoDigits(0, u, measure.Nearest)
		a, _ := strconv.ParseFloat(up, 64)
		b, _ := strconv.ParseFloat(near, 64)
		if a < u || a > u*1.1+1e-300 || math.Abs(b-u) > 0.0501*u {
			t.Fatalf("u = %v: up %s, nearest %s", u, up, near)
		}
	}
}

func ExampleTwoDigits() {
	v, u := measure.TwoDigits(2.40317, 0.010471, measure.Nearest)
	fmt.Println(v, "±", u)
	v, u = measure.TwoDigits(2.40317, 0.010471, measure.Up)
	fmt.Println(v, "±", u)
	// Output:
	// 2.403 ± 0.010
	// 2.403 ± 0.011
}

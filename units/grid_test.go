package units

import "testing"

// Every hundred-thousandth of a quart to 90 quarts is exactly its ticks, and
// reads back as the float it was. 1e-5 US qt is 9.46352946e-6 L, 946352946 ticks.
func TestEveryHundredThousandthOfAQuart(t *testing.T) {
	for i := range 9_000_001 {
		x := float64(i) / 1e5
		v := USQuart.Of(x)
		if v.ticks != int64(i)*946_352_946 {
			t.Fatalf("%v US qt is %d ticks", x, v.ticks)
		}
		if got := v.In(USQuart); got != x {
			t.Fatalf("%v US qt comes back as %v", x, got)
		}
	}
}

// Every tenth to 600 in each unit of torque.
func TestEveryTenthOfATorque(t *testing.T) {
	for _, u := range []Unit[TorqueDim]{NewtonMetre, PoundForceFoot, PoundForceInch, KilogramForceCentimetre, KilogramForceMetre} {
		grid(t, u, 10, 6000)
	}
}

// Grids as fine as an instrument or a maker's sheet shows, and finer; halves
// and eighths are among them.
func TestOtherGrids(t *testing.T) {
	grid(t, Millilitre, 100, 1_000_000) // to 10 L
	grid(t, Litre, 10_000, 1_000_000)   // to 100 L
	grid(t, CubicInch, 100, 600_000)
	grid(t, USFluidOunce, 1000, 600_000) // halves and eighths too
	grid(t, USPint, 1000, 200_000)
	grid(t, USGallon, 10_000, 300_000)
	grid(t, ImperialFluidOunce, 1000, 600_000)
	grid(t, ImperialPint, 1000, 200_000)
	grid(t, ImperialQuart, 10_000, 600_000)
	grid(t, ImperialGallon, 10_000, 200_000)
	grid(t, PoundForceFoot, 1000, 600_000)
	grid(t, PoundForceInch, 1000, 600_000)
	grid(t, PoundForceInch, 1, 81_000) // to the end of the range: 9223 N·m
	grid(t, PoundForceFoot, 1, 6_800)
	grid(t, Millimetre, 1000, 100_000)
	grid(t, Inch, 10_000, 100_000)
	grid(t, Gram, 10, 200_000)
	grid(t, Kilogram, 1000, 200_000)
	grid(t, Ounce, 100, 200_000)
	grid(t, Pound, 1000, 200_000)
	grid(t, CelsiusDegree, 100, 100_000)
	grid(t, FahrenheitDegree, 100, 100_000)
	grid(t, Kilometre, 10, 500_000)
	grid(t, Mile, 10, 500_000)
}

func grid[D Dimension](t *testing.T, u Unit[D], parts float64, n int) {
	t.Helper()
	for i := range n + 1 {
		x := float64(i) / parts
		q := u.Of(x)
		if got := q.In(u); got != x {
			t.Fatalf("%v %s comes back as %v", x, u, got)
		}
		if got := u.Of(-x); got != q.Neg() {
			t.Fatalf("-%v %s is %v", x, u, got)
		}
	}
}

func TestEveryHundredthOfADegree(t *testing.T) {
	for i := -27315; i <= 50000; i++ {
		x := float64(i) / 100
		if got := Celsius(x).Celsius(); got != x {
			t.Fatalf("%v °C comes back as %v", x, got)
		}
		if got := Fahrenheit(x).Fahrenheit(); got != x {
			t.Fatalf("%v °F comes back as %v", x, got)
		}
		// The definition, in integers: 9·(°C) + 160 = 5·(°F) in fifths.
		if i%5 == 0 && Celsius(x) != Fahrenheit(float64(9*i/5+3200)/100) {
			t.Fatalf("%v °C is not its °F", x)
		}
	}
}

// n equal drains are n times one drain, for every drain to 9 qt in hundredths.
func TestSumsOfEqualDrains(t *testing.T) {
	for i := range 901 {
		d := USQuart.Of(float64(i) / 100)
		var sum Volume
		drains := []Volume{}
		for n := 1; n <= 12; n++ {
			sum = sum.Add(d)
			drains = append(drains, d)
			if want := USQuart.Of(float64(i*n) / 100); sum != want || Sum(drains...) != want || d.Scale(float64(n)) != want {
				t.Fatalf("%d drains of %v are %v, not %v", n, d, sum, want)
			}
		}
	}
}

package gnuunits

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"strconv"
	"testing"

	"example.com/meniscus/units"
)

// points are temperatures as written, in the range of their scale.
func points(n int, low, high float64) []string {
	r := rand.New(rand.NewPCG(97, 115))
	all := []string{"0", "32", "97", "115", "100", "-40", "41.1", "36.1"}
	for range n {
		all = append(all, strconv.FormatFloat(low+r.Float64()*(high-low), 'f', r.IntN(7), 64))
	}
	return all
}

// Temperatures as points: °F to °C and back, exactly by the definitions and to
// the printed digits by the program.
func TestTemperaturePoints(t *testing.T) {
	d := definitions(t)
	tick := rat(t, "1/9000000000")
	checked := 0
	for _, s := range []struct {
		scale     string
		low, high float64
		of        func(float64) units.Temperature
	}{
		{"tempF", -459, 600, units.Fahrenheit}, {"tempC", -273, 320, units.Celsius},
	} {
		for _, text := range points(3000, s.low, s.high) {
			x, _ := strconv.ParseFloat(text, 64)
			point := s.of(x)
			kelvin, err := d.Point(s.scale, rat(t, text))
			if err != nil {
				t.Fatal(err)
			}
			want := toTick(kelvin, tick)
			if got := base(t, point.Sub(units.Temperature{})); got.Cmp(want) != 0 {
				t.Errorf("%s(%s): ours %s K, theirs %s K", s.scale, text, got.FloatString(15), want.FloatString(15))
			}
			backTo(t, d, "tempC", want, point.Celsius(), units.Celsius, point)
			backTo(t, d, "tempF", want, point.Fahrenheit(), units.Fahrenheit, point)
			checked += 3
		}
	}
	t.Logf("%d points, all exact", checked)
}

func backTo(t *testing.T, d *Definitions, scale string, kelvin *big.Rat, got float64, of func(float64) units.Temperature, point units.Temperature) {
	t.Helper()
	want, err := d.Back(scale, "K", kelvin)
	if err != nil {
		t.Fatal(err)
	}
	if nearest, _ := want.Float64(); got != nearest && of(got) != point {
		t.Errorf("%s K to %s: ours %v, theirs %v", kelvin.FloatString(12), scale, got, nearest)
	}
}

func TestTemperatureProgram(t *testing.T) {
	var all []question
	var ours []float64
	for _, text := range points(400, -459, 600) {
		x, _ := strconv.ParseFloat(text, 64)
		all = append(all, question{"tempF(" + text + ")", "tempC"}, question{"tempF(" + text + ")", "K"})
		ours = append(ours, units.Fahrenheit(x).Celsius(), units.Fahrenheit(x).Kelvin())
	}
	for _, text := range points(400, -273, 320) {
		x, _ := strconv.ParseFloat(text, 64)
		all = append(all, question{"tempC(" + text + ")", "tempF"})
		ours = append(ours, units.Celsius(x).Fahrenheit())
	}
	for i, theirs := range ask(t, all) {
		// The program goes through kelvin in float64: its error is that of some
		// 300 K, whatever the size of the answer.
		off := new(big.Rat).Sub(new(big.Rat).SetFloat64(ours[i]), theirs)
		if off.Abs(off).Cmp(rat(t, "5e-13")) > 0 {
			t.Errorf("%s in %s: ours %v, theirs %s", all[i].have, all[i].want, ours[i], theirs.FloatString(15))
		}
	}
	t.Logf("%d conversions to the program's digits", len(all))
}

// Densities are nearest floats of exact products.
func TestDensities(t *testing.T) {
	d := definitions(t)
	var all []question
	var ours []float64
	checked := 0
	for _, c := range []struct {
		theirs string
		of     func(float64) units.Density
		in     func(units.Density) float64
	}{
		{"kg/m^3", func(x float64) units.Density { return units.Density(x) }, units.Density.KilogramsPerCubicMetre},
		{"kg/liter", units.KilogramsPerLitre, units.Density.KilogramsPerLitre},
		{"pound/usgallon", units.PoundsPerUSGallon, units.Density.PoundsPerUSGallon},
	} {
		per := ratio(t, d, c.theirs, "kg/m^3")
		r := rand.New(rand.NewPCG(8, 5))
		for i := range 3000 {
			text := strconv.FormatFloat(0.5+r.Float64()*20, 'f', r.IntN(7), 64)
			x, _ := strconv.ParseFloat(text, 64)
			if x == 0 {
				continue
			}
			density := c.of(x)
			want, _ := new(big.Rat).Mul(rat(t, text), per).Float64()
			if c.theirs == "kg/m^3" {
				want = x
			}
			if float64(density) != want {
				t.Errorf("%s %s: ours %v, theirs %v kg/m³", text, c.theirs, float64(density), want)
			}
			if back := c.in(density); back != x {
				t.Errorf("%s %s comes back as %v", text, c.theirs, back)
			}
			checked++
			if i < 100 {
				all = append(all, question{fmt.Sprintf("(%s) %s", text, c.theirs), "kg/m^3"})
				ours = append(ours, float64(density))
			}
		}
	}
	for i, theirs := range ask(t, all) {
		if !near(new(big.Rat).SetFloat64(ours[i]), theirs) {
			t.Errorf("%s: ours %v, theirs %s", all[i].have, ours[i], theirs.FloatString(15))
		}
	}
	t.Logf("%d densities exact, %d to the program's digits", checked, len(all))
}

// The evaluator of definitions, against itself where the answer is known.
func TestEvaluator(t *testing.T) {
	d := definitions(t)
	for _, c := range []struct{ from, to, want string }{
		{"m/s s", "m/s^2", "1"}, {"2^3 m", "m", "8"}, {"1|3 kg", "g", "1000/3"}, {"(1+2) ft", "inch", "36"},
		{"kg m/s^2", "N", "1"}, {"1e-3 km", "m", "1"}, {"-2 m", "mm", "-2000"},
	} {
		if got := ratio(t, d, c.from, c.to); got.Cmp(rat(t, c.want)) != 0 {
			t.Errorf("%s in %s: %s; want %s", c.from, c.to, got, c.want)
		}
	}
	for _, c := range [][2]string{{"m", "kg"}, {"nosuchunit", "m"}, {"m/0", "m"}, {"(m", "m"}, {"m+kg", "m"}, {"m )", "m"}, {"m^x", "m"}, {"1|m", "m"}} {
		if got, err := d.Ratio(c[0], c[1]); err == nil {
			t.Errorf("%s in %s: %s; want an error", c[0], c[1], got)
		}
	}
}

package thermal

import (
	"math"
	"strings"
	"testing"
	"time"

	"example.com/meniscus/units"
)

// Every limit a doc comment states, from both sides: what is taken at the end itself
// and refused just past it.
func TestLimitsFromBothSides(t *testing.T) {
	good := Infrared{Reading: units.Celsius(60), Reflected: units.Celsius(20), Emissivity: 0.95, PlusMinus: 0.02, Set: 0.95, Reflection: ReflectionSubtracted}
	gun := func(edit func(*Infrared)) error { i := good; edit(&i); _, err := i.Surface(); return err }
	black := func(celsius float64) error {
		return gun(func(i *Infrared) { i.Reading, i.Emissivity, i.Set = units.Celsius(celsius), 1, 1 })
	}
	table := func(rows int) error {
		points := make([]DensityPoint, rows)
		for i := range points {
			points[i] = DensityPoint{At: units.Celsius(float64(i) / 10), Density: units.Density(900 - float64(i)/100)}
		}
		_, err := Tabulated(points)
		return err
	}
	exponent := func(c, u float64) error { _, err := Exponential(c, u); return err }
	doubt := func(expansion, density float64) error {
		_, err := UnknownDensity().WithDoubt(Doubt{Expansion: expansion, Density: density})
		return err
	}
	density := func(rho float64) error { _, err := UnknownDensity().WithDensity(units.Density(rho)); return err }
	oil := func(rho float64) error { _, err := Lubricant(units.Density(rho)); return err }
	observed := func(rho float64) error { _, err := Density15(units.Density(rho), units.Celsius(15)); return err }
	window := func(low, high float64) error {
		return Window{Low: units.Celsius(low), High: units.Celsius(high)}.Check()
	}
	jug := func(graduation, capacity float64) error {
		return Vessel{ID: "jug", Material: Uncorrected, Graduation: units.Litre.Of(graduation), Capacity: units.Litre.Of(capacity)}.Check()
	}
	mark := func(read float64) error {
		_, err := Vessel{ID: "jug", Material: Uncorrected, Capacity: units.Litre.Of(2)}.Contents(units.Litre.Of(read), units.Celsius(20))
		return err
	}
	lumped := func(tau, elapsed time.Duration) error {
		_, err := Lumped{Start: units.Celsius(20), Plateau: units.Celsius(80), Tau: tau}.At(elapsed)
		return err
	}
	follow := func(at time.Duration, celsius float64) error {
		trend, err := Follow(Course{PlateauLow: units.Celsius(80), Scatter: units.CelsiusDegree.Of(0.1)})
		if err == nil {
			_, err = trend.Add(at, units.Celsius(celsius))
		}
		return err
	}
	const most = longestCourse
	for name, tt := range map[string]struct{ taken, refused []error }{
		"coefficient":     {[]error{exponent(2e-3, 0), exponent(1e-300, 0)}, []error{exponent(math.Nextafter(2e-3, 1), 0), exponent(0, 0), exponent(-1e-3, 0)}},
		"doubt":           {[]error{exponent(1e-3, 0.5), doubt(0, 0), doubt(0.5, 0.5)}, []error{exponent(1e-3, 0.51), exponent(1e-3, -0.1), doubt(0.51, 0), doubt(0, 0.51), doubt(math.NaN(), 0)}},
		"density":         {[]error{density(500), density(2000)}, []error{density(499.99), density(2000.01)}},
		"lubricant":       {[]error{oil(800.9), oil(1163.49)}, []error{oil(800.89), oil(1163.5)}},
		"observed":        {[]error{observed(800.9), observed(1163.49)}, []error{observed(800.89), observed(1163.5)}},
		"table":           {[]error{table(2), table(1000)}, []error{table(1), table(1001)}},
		"± emissivity":    {[]error{gun(func(i *Infrared) { i.PlusMinus = 0.2 })}, []error{gun(func(i *Infrared) { i.PlusMinus = 0.21 })}},
		"surface":         {[]error{black(0), black(120)}, []error{black(-0.001), black(120.001)}},
		"window":          {[]error{window(-40, 150), window(40, 40.001)}, []error{window(-40.001, 100), window(40, 150.001), window(40, 40)}},
		"one end":         {nil, []error{Window{Low: units.Celsius(40)}.Check(), Window{High: units.Celsius(40)}.Check()}},
		"graduation":      {[]error{jug(2, 2), jug(2, 0)}, []error{jug(2.001, 2)}},
		"top mark":        {[]error{mark(2), mark(0)}, []error{mark(2.001), mark(-0.001)}},
		"time constant":   {[]error{lumped(most, 0), lumped(1, 0)}, []error{lumped(most+1, 0), lumped(0, 0)}},
		"elapsed":         {[]error{lumped(time.Hour, most)}, []error{lumped(time.Hour, most+1), lumped(time.Hour, -1)}},
		"time of reading": {[]error{follow(0, 20), follow(most, 20)}, []error{follow(most+1, 20), follow(-1, 20)}},
		"near plateau":    {[]error{follow(0, 79.49)}, []error{follow(0, 79.5)}},
	} {
		for i, err := range tt.taken {
			if err != nil {
				t.Errorf("%s, to be taken %d: %v", name, i+1, err)
			}
		}
		for i, err := range tt.refused {
			if err == nil {
				t.Errorf("%s, to be refused %d: taken", name, i+1)
			}
		}
	}
}

func TestEmissivityEnds(t *testing.T) {
	for _, c := range []struct {
		low, high, middle float64
		usable            bool
	}{
		{0.5, 1, 0.75, true}, {0.49, 1, 0.745, false}, {0.5, 1.01, 0, false}, {0, 0.5, 0.25, false}, {-0.1, 0.5, 0, false}, {0.9, 0.8, 0, true}, {1, 1, 1, true},
	} {
		e := Emissivity{Low: c.low, High: c.high}
		middle, plusMinus := e.Middle()
		if math.Abs(middle-c.middle) > 1e-15 || (plusMinus == 0) != (middle == 0) || e.Usable() != c.usable {
			t.Errorf("%v to %v: %v ± %v, usable %v", c.low, c.high, middle, plusMinus, e.Usable())
		}
	}
}

// A table that holds only one of its ends beyond 15 °C has no density there; one that
// begins or ends at 15 °C has.
func TestTableAboutFifteen(t *testing.T) {
	at := func(low, high float64) Fluid {
		f, err := Tabulated([]DensityPoint{{At: units.Celsius(low), Density: 870}, {At: units.Celsius(high), Density: 850}})
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	for _, c := range []struct {
		low, high float64
		known     bool
	}{{15, 40, true}, {0, 15, true}, {0, 40, true}, {15.001, 40, false}, {0, 14.999, false}} {
		_, err := at(c.low, c.high).Factor(units.Celsius(c.low))
		if (err == nil) != c.known {
			t.Errorf("%v to %v °C: %v", c.low, c.high, err)
		}
	}
	// Every row counts in the name, and so does their order.
	if at(0, 40).ID() == at(0, 41).ID() || at(0, 40).ID() == at(1, 40).ID() {
		t.Error("two tables have one name")
	}
	// From row to row to the last, the density runs straight.
	f, err := Tabulated([]DensityPoint{{units.Celsius(0), 880}, {units.Celsius(10), 870}, {units.Celsius(30), 860}})
	if err != nil {
		t.Fatal(err)
	}
	for celsius, want := range map[float64]float64{0: 880, 5: 875, 10: 870, 20: 865, 30: 860} {
		if rho, err := f.Density(units.Celsius(celsius)); err != nil || math.Abs(float64(rho)-want) > 1e-9 {
			t.Errorf("%v °C: %v, %v; want %v", celsius, float64(rho), err, want)
		}
	}
}

func TestDescriptionSaysTheDensityOnce(t *testing.T) {
	oil, _ := Lubricant(850)
	known, _ := UnknownDensity().WithDensity(850)
	if _, err := known.WithDensity(860); err == nil {
		t.Error("a second density is taken")
	}
	if _, err := oil.WithDensity(860); err == nil {
		t.Error("an oil with a density takes another")
	}
	for want, f := range map[string]Fluid{
		"generalised lubricating-oil equation, 850 kg/m³ at 15 °C, -50 °C to 150 °C": oil,
		"one coefficient, 0.00076 per kelvin, -20 °C to 120 °C":                      UnknownDensity(),
		"one coefficient, 0.00076 per kelvin, 850 kg/m³ at 15 °C, -20 °C to 120 °C":  known,
	} {
		if got := f.Describe(); !strings.HasPrefix(got, want) {
			t.Errorf("%s; want %s", got, want)
		}
	}
}

func TestUnknownMaterialListsAll(t *testing.T) {
	_, err := ParseMaterial("tin")
	var names []string
	for _, m := range Materials() {
		names = append(names, m.String())
	}
	if err == nil || !strings.HasSuffix(err.Error(), "want one of "+strings.Join(names, ", ")) {
		t.Errorf("%v", err)
	}
	if _, err := ParseMaterial(strings.Repeat("x", 40)); strings.Contains(err.Error(), "…") {
		t.Errorf("40 bytes are cut: %v", err)
	}
	if _, err := ParseMaterial(strings.Repeat("x", 41)); !strings.Contains(err.Error(), strings.Repeat("x", 40)+"…") {
		t.Errorf("41 bytes are not cut to 40: %v", err)
	}
}

// The thermometer's offset widens both ends: 20 to 80 °C with a time constant of 25 min
// passes 50 °C after 25·ln 2 = 17.33 min; with an offset of 3 °C both ways, between
// 25·ln(60/33) = 14.95 min and 25·ln(60/27) = 19.96 min (by hand).
func TestOffsetWidensBothEnds(t *testing.T) {
	course := Course{PlateauLow: units.Celsius(80), Scatter: units.CelsiusDegree.Of(1e-6), Offset: units.CelsiusDegree.Of(3)}
	trend, err := Follow(course)
	if err != nil {
		t.Fatal(err)
	}
	exact := Lumped{Start: units.Celsius(20), Plateau: units.Celsius(80), Tau: 25 * time.Minute}
	for i := range 5 {
		at := time.Duration(i) * 2 * time.Minute
		reading, err := exact.At(at)
		if err != nil {
			t.Fatal(err)
		}
		if trend, err = trend.Add(at, reading); err != nil {
			t.Fatal(err)
		}
	}
	m, err := trend.Reach(units.Celsius(50))
	if err != nil {
		t.Fatal(err)
	}
	for what, c := range map[string]struct {
		got  time.Duration
		want float64
	}{"earliest": {m.Earliest, 25 * math.Log(60.0/33)}, "best": {m.Best, 25 * math.Ln2}, "latest": {m.Latest, 25 * math.Log(60.0/27)}} {
		if math.Abs(c.got.Minutes()-c.want) > 1e-3 {
			t.Errorf("%s %v min; want %v", what, c.got.Minutes(), c.want)
		}
	}
	// 2 °C short of the plateau the offset may keep it out of reach for ever: at the
	// earliest after 25·ln(60/5) = 62.12 min, at the latest never.
	if m, err = trend.Reach(units.Celsius(78)); err != nil || math.Abs(m.Earliest.Minutes()-25*math.Log(60.0/5)) > 1e-3 || m.Latest != Never {
		t.Errorf("%v, %v; want from 62.12 min to never", m, err)
	}
	if _, err := trend.Reach(units.Celsius(math.NaN())); err == nil {
		t.Error("a target that is none is reached")
	}
	if _, err := trend.At(longestCourse); err != nil {
		t.Errorf("after 1000 h: %v", err)
	}
	if _, err := trend.At(longestCourse + 1); err == nil {
		t.Error("past 1000 h is answered")
	}
	if _, err := trend.Reach(units.Temperature{}); err == nil {
		t.Error("no target is reached")
	}
}

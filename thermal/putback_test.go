package thermal

import (
	"math"
	"testing"

	"example.com/meniscus/units"
)

// TestPutBack: the same vessel and temperature give the same mark; there and
// back is the identity; and the mass that goes in is the mass that came out.
func TestPutBack(t *testing.T) {
	f := mustLubricant(t, 850)
	r := rand01(71)
	jugs := []Vessel{{ID: "a", Material: Polypropylene}, {ID: "b", Material: Aluminium}, {ID: "c", Material: Uncorrected}}
	for range 1000 {
		out := Measurement{jugs[int(r.next()*3)], units.Millilitre.Of(math.Round(r.between(1, 5000))), units.Celsius(math.Round(r.between(0, 90)))}
		into, at := jugs[int(r.next()*3)], units.Celsius(math.Round(r.between(0, 90)))
		mark, err := f.PutBack(out, into, at)
		if err != nil {
			t.Fatal(err)
		}
		back, err := f.PutBack(Measurement{into, mark, at}, out.Vessel, out.At)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "there and back", back.Sub(out.Mark).In(units.Litre), 0, 1e-13)
		same, err := f.PutBack(out, out.Vessel, out.At)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "like for like", same.Sub(out.Mark).In(units.Litre), 0, 2e-14)

		weigh := func(m Measurement) units.Mass {
			held, err := m.Vessel.Contents(m.Mark, m.At)
			if err != nil {
				t.Fatal(err)
			}
			mass, err := f.Mass(held, m.At)
			if err != nil {
				t.Fatal(err)
			}
			return mass
		}
		near(t, "mass", weigh(Measurement{into, mark, at}).Sub(weigh(out)).In(units.Gram), 0, 1e-9)
	}
}

func TestPutBackRefuses(t *testing.T) {
	f := mustLubricant(t, 850)
	jug := Vessel{ID: "a", Material: Polypropylene, Capacity: units.Litre.Of(3)}
	good := Measurement{jug, units.Litre.Of(2.4), units.Celsius(60)}
	small := Vessel{ID: "small", Material: HDPE, Capacity: units.Litre.Of(1)}
	for name, do := range map[string]func() (units.Volume, error){
		"no vessel":    func() (units.Volume, error) { return f.PutBack(Measurement{}, jug, good.At) },
		"no fluid":     func() (units.Volume, error) { return Fluid{}.PutBack(good, jug, good.At) },
		"into nothing": func() (units.Volume, error) { return f.PutBack(good, Vessel{}, good.At) },
		"too small":    func() (units.Volume, error) { return f.PutBack(good, small, good.At) },
		"too hot":      func() (units.Volume, error) { return f.PutBack(good, jug, units.Celsius(160)) },
	} {
		if mark, err := do(); err == nil || !mark.IsZero() {
			t.Errorf("%s: %s, %v", name, mark, err)
		}
	}
	if s, err := f.PutBackWorking(good, small, good.At); err == nil || s != nil {
		t.Error("steps of a refused filling")
	}
}

package thermal

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

// TestVesselVector: 2.5 L read in polypropylene at 60 °C is 2.5445 L.
func TestVesselVector(t *testing.T) {
	row := published.Load(t, "thermal_vectors").Find("quantity", "vessel")
	v := Vessel{ID: "jug", Material: Polypropylene}
	got, err := v.Contents(units.Litre.Of(input(t, row, "read")), units.Celsius(input(t, row, "t")))
	if err != nil {
		t.Fatal(err)
	}
	if text := got.Text(units.Litre, 4); text != row.Text("expected") {
		t.Errorf("%s, want %s", text, row.Text("expected"))
	}
}

// TestVesselOracle compares with 200-bit arithmetic, and Mark with its inverse.
func TestVesselOracle(t *testing.T) {
	r := rand01(2)
	for range 3000 {
		all := Materials()
		m := all[int(r.next()*float64(len(all)))]
		g := growthOf(m)
		tenths := math.Round(r.between(g.low, g.high) * 10)
		read := math.Round(r.between(0, 20000))
		v := Vessel{ID: "x", Material: m}
		got, err := v.Contents(units.Millilitre.Of(read), units.Celsius(tenths/10))
		if err != nil {
			t.Fatal(err)
		}
		want := mul(bigF(read), add(bigF(1), mul(bigS(t, short(g.gamma)), div(bigF(tenths-200), bigF(10)))))
		w, _ := want.Float64()
		near(t, m.String(), got.In(units.Millilitre), w, 4e-16*w+1e-11)
		back, err := v.Mark(got, units.Celsius(tenths/10))
		if err != nil {
			t.Fatal(err)
		}
		same(t, "the mark of its contents", back, units.Millilitre.Of(read))
	}
	if got, _ := (Vessel{Material: Polypropylene}).Contents(units.Litre.Of(2.5), VesselReference()); got != units.Litre.Of(2.5) {
		t.Errorf("at 20 °C the marks are true; got %s", got)
	}
}

func TestVesselRefuses(t *testing.T) {
	litre, warm := units.Litre.Of(1), units.Celsius(40)
	jug := Vessel{ID: "jug", Material: Polypropylene, Graduation: units.Millilitre.Of(50), ScaleError: 0.01, Capacity: units.Litre.Of(3)}
	if err := jug.Check(); err != nil {
		t.Fatal(err)
	}
	for name, v := range map[string]Vessel{
		"no material":         {ID: "jug"},
		"not a material":      {Material: 200},
		"negative graduation": {Material: HDPE, Graduation: units.Millilitre.Of(-1)},
		"negative capacity":   {Material: HDPE, Capacity: units.Millilitre.Of(-1)},
		"graduation range":    {Material: HDPE, Graduation: units.Millilitre.Of(math.NaN())},
		"scale error":         {Material: HDPE, ScaleError: 1},
		"NaN scale error":     {Material: HDPE, ScaleError: math.NaN()},
		"one mark above top":  {Material: HDPE, Graduation: units.Litre.Of(2), Capacity: units.Litre.Of(1)},
	} {
		if got, err := v.Contents(litre, warm); err == nil || !got.IsZero() {
			t.Errorf("%s: %s, %v", name, got, err)
		}
	}
	for name, c := range map[string]struct {
		read units.Volume
		at   units.Temperature
	}{
		"negative":       {units.Litre.Of(-1), warm},
		"above the top":  {units.Litre.Of(3.1), warm},
		"out of range":   {units.Litre.Of(math.NaN()), warm},
		"melting":        {litre, units.Celsius(101)},
		"no temperature": {litre, units.Temperature{}},
		"bad point":      {litre, units.Celsius(math.NaN())},
	} {
		if got, err := jug.Contents(c.read, c.at); err == nil || !got.IsZero() {
			t.Errorf("%s: %s, %v", name, got, err)
		}
	}
	if _, err := jug.Mark(units.Litre.Of(3.2), warm); err == nil {
		t.Error("a mark above the top")
	}
	if _, err := jug.Mark(units.Litre.Of(-1), warm); err == nil {
		t.Error("a negative content")
	}
	if _, err := jug.Mark(units.Litre.Of(math.NaN()), warm); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("out of range: %v", err)
	}
	err := Vessel{Graduation: units.Millilitre.Of(-1), ScaleError: 2}.Check()
	for _, want := range []string{"material", "graduation", "scale error"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("want every fault at once, %s missing: %v", want, err)
		}
	}
}

package scientific

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func exact(t *testing.T, x float64) measure.Reading {
	t.Helper()
	r, err := measure.Exact(x)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// A rectangular pan at any tilt, also where the surface meets floor or roof,
// against integration of the depth.
func TestPanAgainstIntegration(t *testing.T) {
	type pan struct {
		Length  float64 `json:"length"`
		Width   float64 `json:"width"`
		Lip     float64 `json:"lip"`
		Hole    float64 `json:"hole"`
		Rim     float64 `json:"rim"`
		Roof    float64 `json:"roof"`
		Degrees float64 `json:"degrees"`
	}
	r := rand.New(rand.NewPCG(2, 9))
	var all []pan
	for range 1000 {
		p := pan{Length: rounded(r, 0.2, 0.8), Width: rounded(r, 0.1, 0.5), Lip: rounded(r, 0, 0.1), Degrees: rounded(r, -30, 30)}
		p.Hole = rounded(r, -p.Length/2.01, p.Length/2.01)
		if r.IntN(3) == 0 {
			p.Rim = rounded(r, 0, 0.02)
		}
		if r.IntN(2) == 0 {
			p.Roof = p.Lip + rounded(r, 0.001, 0.1)
		}
		all = append(all, p)
	}
	var w worst
	for i, want := range ask[[]float64](t, "pan", map[string]any{"cases": all}) {
		p := all[i]
		m := units.Metre
		got, err := exchange.RectangularPan{Length: m.Of(p.Length), Width: m.Of(p.Width), Lip: m.Of(p.Lip),
			Hole: m.Of(p.Hole), Rim: m.Of(p.Rim), Roof: m.Of(p.Roof)}.Retained(p.Degrees)
		if err != nil {
			t.Fatal(err)
		}
		w.see(math.Abs(got.In(units.Litre)-want), "%+v", p)
	}
	w.within(t, 1e-9, "litres kept by a pan") // lengths are whole nanometres
}

// Any outline: the depth integrated over random triangles to hexagons.
func TestOutlinesAgainstIntegration(t *testing.T) {
	type outline struct {
		X       []float64 `json:"x"`
		Y       []float64 `json:"y"`
		Hole    float64   `json:"hole"`
		Degrees float64   `json:"degrees"`
	}
	r := rand.New(rand.NewPCG(6, 3))
	var all []outline
	for range 500 {
		o := outline{Hole: rounded(r, -0.3, 0.3), Degrees: rounded(r, -10, 10)}
		corners := 3 + r.IntN(4)
		for k := range corners {
			turn := (float64(k) + between(r, 0, 0.4)) * 2 * math.Pi / float64(corners)
			o.X, o.Y = append(o.X, between(r, 0.1, 0.3)*math.Cos(turn)), append(o.Y, between(r, 0.1, 0.3)*math.Sin(turn))
		}
		all = append(all, o)
	}
	var w worst
	for i, want := range ask[[][3]float64](t, "outlines", map[string]any{"cases": all}) {
		w.see(math.Abs(tilted(t, want[1], all[i].Hole-want[2], all[i].Degrees)-want[0]), "%+v", all[i])
	}
	w.within(t, 1e-6, "litres left in by a tilt") // the distance is rounded to a nanometre
}

// An ellipse off the middle.
func TestEllipseAgainstIntegration(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 6))
	var all [][5]float64
	for range 300 {
		all = append(all, [5]float64{rounded(r, 0.1, 0.4), rounded(r, 0.1, 0.3), rounded(r, -0.2, 0.2), rounded(r, -0.4, 0.4), rounded(r, -10, 10)})
	}
	var w worst
	for i, want := range ask[[]float64](t, "ellipse", map[string]any{"cases": all}) {
		c := all[i]
		w.see(math.Abs(tilted(t, math.Pi*c[0]*c[1], c[3]-c[2], c[4])-want), "%v", c)
	}
	w.within(t, 1e-6, "litres left in by a tilt, ellipse")
}

func tilted(t *testing.T, area, hole, degrees float64) float64 {
	t.Helper()
	got, err := exchange.Tilt{Area: exact(t, area), Hole: measure.MeasuredExactly(units.Metre.Of(hole)), Degrees: exact(t, degrees)}.Effect()
	if err != nil {
		t.Fatal(err)
	}
	return got.Left.Best().In(units.Litre)
}

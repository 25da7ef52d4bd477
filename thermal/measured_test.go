package thermal

import (
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func cause(t testing.TB, id string) *measure.Cause {
	t.Helper()
	c, err := measure.NewCause(id, "", measure.Normal, 0)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func celsiusWith(t testing.TB, c, u float64, id string) measure.Temperature {
	t.Helper()
	x, err := measure.NewTemperature(units.Celsius(c), measure.Term{Cause: cause(t, id), Scale: u})
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func litresWith(t testing.TB, l, u float64, id string) measure.Volume {
	t.Helper()
	x, err := measure.NewMeasured(units.Litre.Of(l), measure.Term{Cause: cause(t, id), Scale: u})
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// scaleOf is the signed scale of one cause, zero where it has cancelled.
func scaleOf(r measure.Reading, id string) float64 {
	for _, term := range r.Terms() {
		if term.Cause.ID() == id {
			return term.Scale
		}
	}
	return 0
}

// nudged is the fluid with its coefficient larger by a share: the slow way to
// what the coefficient does.
func nudged(f Fluid, share float64) Fluid {
	if f.law != tabulated {
		f.perKelvin *= 1 + share
		return f
	}
	// A table with every ln F stretched by the same share.
	points := append([]DensityPoint(nil), f.table.points...)
	for i, p := range points {
		points[i].Density = units.Density(f.table.base * math.Pow(float64(p.Density)/f.table.base, 1+share))
	}
	f.table = newTable(points)
	return f
}

// TestConvertMeasuredByDifferences compares each term with a difference
// quotient of Convert itself.
func TestConvertMeasuredByDifferences(t *testing.T) {
	const h = 1e-4
	for _, f := range testFluids(t) {
		v, from, to := litresWith(t, 2.4, 0.02, "v"), celsiusWith(t, 62, 0.8, "from"), celsiusWith(t, 21, 0.5, "to")
		got, err := f.ConvertMeasured(v, from, to)
		if err != nil {
			t.Fatal(err)
		}
		if want := convert(t, f, v.Best(), from.Best(), to.Best()); got.Best() != want {
			t.Errorf("%s: best %s, want %s", f.Describe(), got.Best(), want)
		}
		slope := func(plus, minus units.Volume) float64 { return plus.Sub(minus).In(units.Litre) / (2 * h) }
		k := units.CelsiusDegree.Of(h)
		dl := units.Litre.Of(h)
		want := map[string]float64{
			"v":    0.02 * slope(convert(t, f, v.Best().Add(dl), from.Best(), to.Best()), convert(t, f, v.Best().Sub(dl), from.Best(), to.Best())),
			"from": 0.8 * slope(convert(t, f, v.Best(), from.Best().Add(k), to.Best()), convert(t, f, v.Best(), from.Best().Add(k.Neg()), to.Best())),
			"to":   0.5 * slope(convert(t, f, v.Best(), from.Best(), to.Best().Add(k)), convert(t, f, v.Best(), from.Best(), to.Best().Add(k.Neg()))),
			f.ID() + "/expansion": f.Doubt().Expansion * slope(
				convert(t, nudged(f, h), v.Best(), from.Best(), to.Best()), convert(t, nudged(f, -h), v.Best(), from.Best(), to.Best())),
		}
		for id, w := range want {
			// A stretched table is bent between its rows: a part in a thousand.
			near(t, f.Describe()+" "+id, scaleOf(got.Reading(), id), w, 2e-3*math.Abs(w))
		}
		if n := len(got.Reading().Terms()); n != len(want) {
			t.Errorf("%d terms, want %d", n, len(want))
		}
	}
}

// TestConvertMeasuredSimulated draws the inputs and converts each draw.
func TestConvertMeasuredSimulated(t *testing.T) {
	f := mustLubricant(t, 850)
	v, from, to := litresWith(t, 2.4, 0.004, "v"), celsiusWith(t, 75, 2, "from"), celsiusWith(t, 15, 1, "to")
	got, err := f.ConvertMeasured(v, from, to)
	if err != nil {
		t.Fatal(err)
	}
	r := rand01(21)
	const n = 20_000
	sum, square := 0.0, 0.0
	for range n {
		g := nudged(f, f.Doubt().Expansion*r.normal())
		x := convert(t, g, units.Litre.Of(2.4+0.004*r.normal()), units.Celsius(75+2*r.normal()), units.Celsius(15+r.normal())).In(units.Litre)
		sum += x
		square += x * x
	}
	mean := sum / n
	sd := math.Sqrt(square/n - mean*mean)
	near(t, "sd", got.Reading().U(), sd, 0.02*sd)
	near(t, "mean", got.Best().In(units.Litre), mean, 4*sd/math.Sqrt(n)+1e-5)
}

// ledger drains and refills four times and returns the net at 15 °C.
func ledger(t testing.TB, f Fluid, in, out Vessel, thermometer func(entry string, c float64) measure.Temperature, warm, cold float64) measure.Volume {
	t.Helper()
	reference := measure.TemperatureExactly(ReferenceTemperature())
	var net measure.Volume
	for _, entry := range []string{"1", "2", "3", "4"} {
		for _, side := range []struct {
			jug  Vessel
			c    float64
			name string
			sign float64
		}{{out, warm, "drain-" + entry, -1}, {in, cold, "fill-" + entry, 1}} {
			at := thermometer(side.name, side.c)
			read, err := side.jug.For(side.name).Read(units.USQuart.Of(2.7), at)
			if err != nil {
				t.Fatal(err)
			}
			ref, err := f.ConvertMeasured(read, at, reference)
			if err != nil {
				t.Fatal(err)
			}
			net = net.Add(ref.Scale(side.sign))
		}
	}
	if !net.Valid() {
		t.Fatal(net.Err())
	}
	return net
}

// TestLedgerCancels: in one jug at like temperature nothing is left but the
// looks at the mark; with two jugs the scales stay; at unlike temperatures the
// coefficient stays. The sizes are worked out by hand from the definitions.
func TestLedgerCancels(t *testing.T) {
	f := mustLubricant(t, 850)
	jug := func(id string) Vessel {
		return Vessel{ID: id, Material: Polypropylene, Graduation: units.Millilitre.Of(50), ScaleError: 0.02 * math.Sqrt(3)}
	}
	one := func(entry string, c float64) measure.Temperature { return celsiusWith(t, c, 1, "probe/offset") }
	read := units.USQuart.Of(2.7).In(units.Litre)
	gamma, u, _ := Polypropylene.Expansion()
	// Eight looks at the mark, one graduation of 50 mL each.
	looks := func(c float64) float64 {
		k, err := f.Factor(units.Celsius(c))
		if err != nil {
			t.Fatal(err)
		}
		return 0.05 / math.Sqrt(12) * (1 + gamma*(c-20)) * k
	}

	same := ledger(t, f, jug("jug-a"), jug("jug-a"), one, 40, 40)
	near(t, "one jug, like for like", same.Reading().U(), math.Sqrt(8)*looks(40), 1e-12)
	if !same.Best().IsZero() {
		t.Errorf("net %s", same.Best())
	}
	for _, id := range []string{"jug-a/scale", "jug-a/expansion", f.ID() + "/expansion", "probe/offset"} {
		if s := scaleOf(same.Reading(), id); s != 0 {
			t.Errorf("%s is still there: %g", id, s)
		}
	}

	two := ledger(t, f, jug("jug-a"), jug("jug-b"), one, 40, 40)
	k40, _ := f.Factor(units.Celsius(40))
	scale := 4 * read * 0.02 * (1 + gamma*20) * k40
	near(t, "second jug's scale", scaleOf(two.Reading(), "jug-b/scale"), -scale, 1e-12)
	near(t, "first jug's scale", scaleOf(two.Reading(), "jug-a/scale"), scale, 1e-12)
	near(t, "two jugs", two.Reading().U(), math.Sqrt(8*looks(40)*looks(40)+2*scale*scale+
		2*math.Pow(4*read*20*u*k40, 2)), 1e-12)

	unlike := ledger(t, f, jug("jug-a"), jug("jug-a"), one, 60, 20)
	e60, _ := f.at(units.Celsius(60))
	e20, _ := f.at(units.Celsius(20))
	want := 4 * read * 0.06 * (e20.factor()*e20.coefficient - (1+gamma*40)*e60.factor()*e60.coefficient)
	near(t, "coefficient, 60 against 20 °C", scaleOf(unlike.Reading(), f.ID()+"/expansion"), want, 1e-12)
	if want < 0.015 || unlike.Reading().U() < same.Reading().U() {
		t.Errorf("coefficient %g L, u %g L", want, unlike.Reading().U())
	}
}

// TestMassMeasured: a mass and back at the same reading of temperature leaves
// the doubt of the scale alone; a mass ledger of one fluid loses its density.
func TestMassMeasured(t *testing.T) {
	f := mustLubricant(t, 850)
	at := celsiusWith(t, 55, 1, "probe/offset")
	m, err := measure.NewMeasured(units.Kilogram.Of(2), measure.Term{Cause: cause(t, "scale/offset"), Scale: 0.002})
	if err != nil {
		t.Fatal(err)
	}
	v, err := f.VolumeMeasured(m, at)
	if err != nil {
		t.Fatal(err)
	}
	rho, _ := f.Density(at.Best())
	e, _ := f.at(at.Best())
	x := v.Best().In(units.Litre)
	near(t, "volume", x, 2000/float64(rho), 1e-12)
	near(t, "density", scaleOf(v.Reading(), f.ID()+"/density"), -x*0.005, 1e-15)
	near(t, "coefficient", scaleOf(v.Reading(), f.ID()+"/expansion"), -x*e.coefficient*0.06, 1e-15)
	near(t, "temperature", scaleOf(v.Reading(), "probe/offset"), -x*e.perKelvin, 1e-15)
	near(t, "scale", scaleOf(v.Reading(), "scale/offset"), 2/float64(rho), 1e-15)

	back, err := f.MassMeasured(v, at)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "there and back", back.Reading().U(), 0.002, 1e-15)
	near(t, "there and back, best", back.Best().Sub(m.Best()).In(units.Gram), 0, 1e-9)
}

// TestClosingMeasuredByDifferences compares each term with a difference quotient.
func TestClosingMeasuredByDifferences(t *testing.T) {
	const h = 1e-4
	w, f := exampleWindow(), mustLubricant(t, 850)
	capacity, at := litresWith(t, 12.8, 0.4, "capacity"), celsiusWith(t, 44, 1.5, "probe/offset")
	got, err := w.ClosingMeasured(f, capacity, Aluminium, at)
	if err != nil {
		t.Fatal(err)
	}
	off := func(f Fluid, c float64, temp float64) float64 {
		x, err := w.Closing(f, units.Litre.Of(c), Aluminium, units.Celsius(temp))
		if err != nil {
			t.Fatal(err)
		}
		return x.Off.In(units.Litre)
	}
	if got.Best().In(units.Litre) != off(f, 12.8, 44) {
		t.Errorf("best %s", got.Best())
	}
	_, u, _ := Aluminium.Expansion()
	ratio := convert(t, f, units.Litre.Of(1), units.Celsius(44), w.Mid()).In(units.Litre)
	for id, want := range map[string]float64{
		"capacity":                 0.4 * (off(f, 12.8+h, 44) - off(f, 12.8-h, 44)) / (2 * h),
		"probe/offset":             1.5 * (off(f, 12.8, 44+h) - off(f, 12.8, 44-h)) / (2 * h),
		f.ID() + "/expansion":      0.06 * (off(nudged(f, h), 12.8, 44) - off(nudged(f, -h), 12.8, 44)) / (2 * h),
		"case-aluminium/expansion": 12.8 * ratio * u * units.Celsius(44).Sub(w.Mid()).In(units.CelsiusDegree),
	} {
		near(t, id, scaleOf(got.Reading(), id), want, 1e-5*math.Abs(want))
	}
}

func TestMeasuredRefuses(t *testing.T) {
	f := mustLubricant(t, 850)
	v, at := litresWith(t, 2, 0.01, "v"), celsiusWith(t, 40, 1, "t")
	badV := measure.MeasuredExactly(units.Litre.Of(math.NaN()))
	badT := measure.TemperatureExactly(units.Celsius(math.NaN()))
	badM := measure.MeasuredExactly(units.Gram.Of(math.NaN()))
	hot := measure.TemperatureExactly(units.Celsius(160))
	m := measure.MeasuredExactly(units.Gram.Of(1))
	jug := Vessel{ID: "jug-a", Material: HDPE, Graduation: units.Millilitre.Of(50)}
	for name, do := range map[string]func() error{
		"volume":       func() error { _, err := f.ConvertMeasured(badV, at, at); return err },
		"from":         func() error { _, err := f.ConvertMeasured(v, badT, at); return err },
		"to":           func() error { _, err := f.ConvertMeasured(v, at, badT); return err },
		"hot":          func() error { _, err := f.ConvertMeasured(v, at, hot); return err },
		"no law":       func() error { _, err := Fluid{}.ConvertMeasured(v, at, at); return err },
		"mass, v":      func() error { _, err := f.MassMeasured(badV, at); return err },
		"mass, t":      func() error { _, err := f.MassMeasured(v, badT); return err },
		"mass, hot":    func() error { _, err := f.MassMeasured(v, hot); return err },
		"volume, m":    func() error { _, err := f.VolumeMeasured(badM, at); return err },
		"volume, t":    func() error { _, err := f.VolumeMeasured(m, badT); return err },
		"no density":   func() error { _, err := UnknownDensity().VolumeMeasured(m, at); return err },
		"jug, t":       func() error { _, err := jug.For("d").Read(units.Litre.Of(1), badT); return err },
		"jug, entry":   func() error { _, err := jug.Read(units.Litre.Of(1), at); return err },
		"jug, id":      func() error { _, err := Vessel{Material: HDPE}.Read(units.Litre.Of(1), at); return err },
		"jug, spaces":  func() error { _, err := Vessel{ID: "a b", Material: HDPE}.Read(units.Litre.Of(1), at); return err },
		"jug, unknown": func() error { _, err := Vessel{ID: "a"}.Read(units.Litre.Of(1), at); return err },
		"closing, c":   func() error { _, err := exampleWindow().ClosingMeasured(f, badV, Aluminium, at); return err },
		"closing, t":   func() error { _, err := exampleWindow().ClosingMeasured(f, v, Aluminium, badT); return err },
		"closing, hot": func() error { _, err := exampleWindow().ClosingMeasured(f, v, Aluminium, hot); return err },
	} {
		if err := do(); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}

func TestNamed(t *testing.T) {
	f, err := mustLubricant(t, 850).Named("drum-3")
	if err != nil || f.ID() != "drum-3" || f.Cause().ID() != "drum-3/expansion" || f.DensityCause().ID() != "drum-3/density" {
		t.Errorf("%s, %s, %v", f.ID(), f.Cause().ID(), err)
	}
	for _, id := range []string{"", "two words", strings.Repeat("x", 119), "naïve"} {
		if _, err := f.Named(id); err == nil {
			t.Errorf("%q accepted", clip(id))
		}
	}
	if _, err := f.Named(strings.Repeat("x", 118)); err != nil {
		t.Error(err)
	}
	if _, err := (Fluid{}).Named("x"); err == nil {
		t.Error("zero fluid named")
	}
	if (Fluid{}).Cause() != nil || (Fluid{}).DensityCause() != nil || (Fluid{}).ID() != "" {
		t.Error("the zero fluid has causes")
	}
	if a, b := mustLubricant(t, 850), mustLubricant(t, 850); a.ID() != b.ID() {
		t.Error("one density, two fluids")
	}
	// Two separate fluids do not cancel.
	g, err := mustLubricant(t, 850).Named("drum-4")
	if err != nil {
		t.Fatal(err)
	}
	v, at, ref := litresWith(t, 2, 0, "v"), celsiusWith(t, 60, 0, "t"), measure.TemperatureExactly(ReferenceTemperature())
	a, errA := f.ConvertMeasured(v, at, ref)
	b, errB := g.ConvertMeasured(v, at, ref)
	if errA != nil || errB != nil {
		t.Fatal(errA, errB)
	}
	near(t, "two fluids", a.Sub(b).Reading().U(), math.Sqrt2*a.Reading().U(), 1e-12)
	near(t, "one fluid", a.Sub(a).Reading().U(), 0, 0)
}

package exchange

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func tiltExact(t testing.TB, x float64) measure.Reading {
	t.Helper()
	r, err := measure.Exact(x)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// tiltDoubt is x with a standard uncertainty of its own.
func tiltDoubt(t testing.TB, id string, x, u float64) measure.Reading {
	t.Helper()
	c, err := measure.NewCause(id, id, measure.Normal, 0)
	if err != nil {
		t.Fatal(err)
	}
	r, err := measure.New(x, measure.Term{Cause: c, Scale: u})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func tiltPan(row published.Row) RectangularPan {
	return RectangularPan{
		Length: units.Metre.Of(row.Float("L_m")), Width: units.Metre.Of(row.Float("W_m")),
		Lip: units.Metre.Of(row.Float("lip_m")), Hole: units.Metre.Of(row.Float("x_c_m")), Rim: units.Metre.Of(row.Float("rim_radius_m")),
	}
}

func TestTiltPublishedPan(t *testing.T) {
	for _, row := range published.Load(t, "exchange_tilt").Rows() {
		p, degrees := tiltPan(row), row.Float("tilt_deg")
		v, err := p.Retained(degrees)
		if err != nil || math.Abs(v.In(units.Litre)-row.Float("retained_L")) > 1e-9 {
			t.Errorf("line %d: %s %v, want %s L", row.Line(), v, err, row.Text("retained_L"))
		}
		tilt, err := p.Tilt(tiltExact(t, degrees))
		if err != nil {
			t.Fatal(err)
		}
		e, err := tilt.Effect()
		if err != nil {
			t.Fatal(err)
		}
		if valid := e.Validity == ValidityHolds; valid != row.Bool("linear_form_valid") {
			t.Errorf("line %d: validity %s, limit %g°", row.Line(), e.Validity, e.Limit)
		}
		met := math.Abs(e.Left.Best().In(units.Litre)-row.Float("delta_L")) <= 1e-9
		if met != row.Bool("linear_form_valid") {
			t.Errorf("line %d: the law gives %s, the pan %s L", row.Line(), e.Left.Best(), row.Text("delta_L"))
		}
		if math.Abs(v.In(units.USQuart)-6/0.946352946-row.Float("delta_USqt")) > 5e-7 && row.Float("lip_m") == 0.05 {
			t.Errorf("line %d: %g qt more, want %s", row.Line(), v.In(units.USQuart)-6/0.946352946, row.Text("delta_USqt"))
		}
	}
}

// The figures of the reference note: 1° at 0.06 m² and 0.2 m is 209 mL; 3° with
// upright walls ±693 mL means A·x = 0.0132 m³.
func TestTiltReferenceFigures(t *testing.T) {
	at := func(area, hole, degrees float64) float64 {
		e, err := Tilt{Area: tiltExact(t, area), Hole: measure.MeasuredExactly(units.Metre.Of(hole)), Degrees: tiltExact(t, degrees)}.Effect()
		if err != nil {
			t.Fatal(err)
		}
		return e.Left.Best().In(units.Millilitre)
	}
	if got := at(0.06, 0.2, 1); math.Round(got) != 209 {
		t.Errorf("%g mL, want 209", got)
	}
	if got := at(0.12, 0.1, 1) / 946.352946; math.Abs(got-0.22) > 0.005 {
		t.Errorf("%g US qt, want 0.22", got)
	}
	if a, b := at(0.0661, 0.2, 3), at(0.0661, 0.2, -3); math.Round(a) != 693 || b != -a {
		t.Errorf("%g and %g mL, want ±693", a, b)
	}
}

// Any outline: add up the fluid over an L-shaped surface in small squares, level
// and tilted.
func TestTiltAnyOutline(t *testing.T) {
	const n, side = 800, 0.4
	inside := func(x, y float64) bool { return x < 0.16 || y < 0.12 }
	cell := side / n
	var area, moment float64
	for i := range n {
		for j := range n {
			if x := (float64(i) + 0.5) * cell; inside(x, (float64(j)+0.5)*cell) {
				area += cell * cell
				moment += x * cell * cell
			}
		}
	}
	centroid := moment / area
	r := rand.New(rand.NewPCG(31, 32))
	for range 20 {
		hole, degrees, lip := r.Float64()*side, 12*r.Float64()-6, 0.06
		tan := math.Tan(degrees * math.Pi / 180)
		kept := 0.0
		for i := range n {
			for j := range n {
				if x := (float64(i) + 0.5) * cell; inside(x, (float64(j)+0.5)*cell) {
					kept += (lip + (hole-x)*tan) * cell * cell
				}
			}
		}
		e, err := Tilt{Area: tiltExact(t, area), Hole: measure.MeasuredExactly(units.Metre.Of(hole - centroid)), Degrees: tiltExact(t, degrees)}.Effect()
		if err != nil {
			t.Fatal(err)
		}
		if want := 1e6 * (kept - lip*area); math.Abs(e.Left.Best().In(units.Millilitre)-want) > 1e-4 {
			t.Errorf("hole %g, %g°: %s, want %g mL", hole, degrees, e.Left.Best(), want)
		}
	}
}

// The exact pan against adding up slices, floor and roof met or not; turned
// round it keeps the same; the law holds up to its limit and not past it.
func TestTiltPanProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(33, 34))
	for range 300 {
		p := RectangularPan{
			Length: units.Metre.Of(0.2 + 0.4*r.Float64()), Width: units.Metre.Of(0.1 + 0.3*r.Float64()), Lip: units.Metre.Of(0.01 + 0.08*r.Float64()),
		}
		p.Hole = p.Length.Scale(0.9 * (r.Float64() - 0.5))
		if r.IntN(2) == 0 {
			p.Roof = p.Lip.Add(units.Metre.Of(0.05 * r.Float64()))
		}
		if r.IntN(2) == 0 {
			p.Rim = units.Millimetre.Of(4)
		}
		degrees := 30*r.Float64() - 15
		got, err := p.Retained(degrees)
		if err != nil {
			t.Fatal(err)
		}
		const n = 20000
		length, want := p.Length.In(units.Metre), 0.0
		hole := p.Hole.In(units.Metre) - math.Copysign(p.Rim.In(units.Metre), degrees)
		for i := range n {
			s := (float64(i)+0.5)/n*length - length/2
			depth := max(p.Lip.In(units.Metre)+(hole-s)*math.Tan(degrees*math.Pi/180), 0)
			if !p.Roof.IsZero() {
				depth = min(depth, p.Roof.In(units.Metre))
			}
			want += depth * length / n * p.Width.In(units.Metre) * 1000
		}
		if math.Abs(got.In(units.Litre)-want) > 1e-5 {
			t.Fatalf("%+v at %g°: %s, want %g L", p, degrees, got, want)
		}
		turned := p
		turned.Hole = p.Hole.Neg()
		if back, err := turned.Retained(-degrees); err != nil || math.Abs(back.In(units.Litre)-got.In(units.Litre)) > 1e-12 {
			t.Fatalf("turned round it keeps %s, not %s", back, got)
		}
		tiltCheckLimit(t, p, degrees)
	}
}

func tiltCheckLimit(t *testing.T, p RectangularPan, degrees float64) {
	t.Helper()
	level := p.Length.In(units.Metre) * p.Width.In(units.Metre) * p.Lip.In(units.Metre) * 1000
	tilt, err := p.Tilt(tiltExact(t, degrees))
	if err != nil {
		t.Fatal(err)
	}
	e, err := tilt.Effect()
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range []float64{0.999 * e.Limit, 1.05 * e.Limit} {
		at = math.Copysign(at, degrees)
		if math.Abs(at) > 44 {
			continue
		}
		if tilt, err = p.Tilt(tiltExact(t, at)); err != nil {
			t.Fatal(err)
		}
		e, err := tilt.Effect()
		if err != nil {
			t.Fatal(err)
		}
		kept, err := p.Retained(at)
		if err != nil {
			t.Fatal(err)
		}
		met := math.Abs(kept.In(units.Litre)-level-e.Left.Best().In(units.Litre)) < 1e-9
		if met != (e.Validity == ValidityHolds) {
			t.Fatalf("%+v at %g° of %g°: law %s, pan %s over %g L, %s", p, at, e.Limit, e.Left.Best(), kept, level, e.Validity)
		}
	}
}

// Doubt is the slope of the law times that of each reading.
func TestTiltDoubt(t *testing.T) {
	tilt := Tilt{
		Area: tiltDoubt(t, "area", 0.06, 0.006), Degrees: tiltDoubt(t, "angle", 1, 0.5),
		Hole: measure.MeasuredExactly(units.Metre.Of(0.2)),
	}
	e, err := tilt.Effect()
	if err != nil {
		t.Fatal(err)
	}
	area := 0.006 * 0.2 * math.Tan(math.Pi/180)
	angle := 0.06 * 0.2 * 0.5 * math.Pi / 180 / math.Pow(math.Cos(math.Pi/180), 2)
	if want := 1000 * math.Hypot(area, angle); !scheduleClose(e.Left.U().In(units.Litre), want, 1e-9) {
		t.Errorf("u %s, want %g L", e.Left.U(), want)
	}
	// The hole is located to 5 mm as well.
	if tilt.Hole, err = measure.MeasuredFrom[units.LengthDim](tiltDoubt(t, "hole", 0.2, 0.005)); err != nil {
		t.Fatal(err)
	}
	hole := 0.06 * 0.005 * math.Tan(math.Pi/180)
	if e, err = tilt.Effect(); err != nil || !scheduleClose(e.Left.U().In(units.Litre), 1000*math.Sqrt(area*area+angle*angle+hole*hole), 1e-9) {
		t.Errorf("u %s with the hole's, %v", e.Left.U(), err)
	}
	tilt.Hole = measure.MeasuredExactly(units.Metre.Of(0.2))
	// Level as far as one can tell is still in doubt.
	tilt.Degrees = tiltDoubt(t, "angle", 0, 0.5)
	if e, err = tilt.Effect(); err != nil || !e.Left.Best().IsZero() || math.Round(e.Left.U().In(units.Millilitre)) != 105 {
		t.Errorf("%s ± %s %v", e.Left.Best(), e.Left.U(), err)
	}
	if e.Validity != ValidityUnknown || e.Limit != 0 {
		t.Errorf("%s %g", e.Validity, e.Limit)
	}
	// Half of what limits the law says nothing, unless the half is already broken.
	for _, c := range []struct {
		depth, room, extent float64
		want                Validity
	}{
		{0.05, 0, 0, ValidityUnknown}, {0, 0, 0.3, ValidityUnknown}, {0, 0.05, 0.3, ValidityUnknown}, {0.05, 0, 0.3, ValidityHolds},
		{0.05, 0.05, 0.3, ValidityHolds}, {0, 0.001, 0.3, ValidityBroken}, {0.001, 0, 0.3, ValidityBroken},
	} {
		half := tilt
		half.Degrees = tiltExact(t, 1)
		half.Depth, half.Headroom, half.Extent = units.Metre.Of(c.depth), units.Metre.Of(c.room), units.Metre.Of(c.extent)
		if e, err = half.Effect(); err != nil || e.Validity != c.want {
			t.Errorf("%+v: %s %v", c, e.Validity, err)
		}
	}
	if e, err = (Tilt{}).Effect(); err != nil || !e.Left.Best().IsZero() || e.Validity != ValidityHolds || !(Tilt{}).IsZero() {
		t.Errorf("level: %+v %v", e, err)
	}
}

func TestTiltRefuses(t *testing.T) {
	good := Tilt{Area: tiltExact(t, 0.06), Hole: measure.MeasuredExactly(units.Metre.Of(0.2)), Degrees: tiltExact(t, 1)}
	for _, c := range []struct {
		change func(*Tilt)
		want   string
	}{
		{func(x *Tilt) { x.Area = tiltExact(t, -1) }, "area -1 m²; want above 0, at most 10"},
		{func(x *Tilt) { x.Area = x.Area.Times(math.NaN()) }, "want"},
		{func(x *Tilt) { *x = Tilt{Degrees: x.Degrees} }, "area 0 m²; want above 0"},
		{func(x *Tilt) { x.Degrees = tiltExact(t, 46) }, "46 degrees; want -45 to 45"},
		{func(x *Tilt) { x.Hole = measure.MeasuredExactly(units.Metre.Of(11)) }, "hole is 11000 mm off; want at most 10 m"},
		{func(x *Tilt) { x.Rim = units.Metre.Of(-1) }, "rim is -1000 mm; want 0 to 10 m"},
		{func(x *Tilt) { x.Extent = units.Metre.Of(1e300) }, "extent is out of range"},
	} {
		bad := good
		c.change(&bad)
		if _, err := bad.Effect(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
	pan := RectangularPan{Length: units.Metre.Of(0.4), Width: units.Metre.Of(0.3), Lip: units.Metre.Of(0.05)}
	for _, c := range []struct {
		change  func(*RectangularPan)
		degrees float64
		want    string
	}{
		{func(p *RectangularPan) { p.Length = units.Length{} }, 1, "length is 0 mm; want above 0"},
		{func(p *RectangularPan) { p.Hole = units.Metre.Of(0.3) }, 1, "hole is 300 mm from the middle; want inside"},
		{func(p *RectangularPan) { p.Roof = units.Metre.Of(0.04) }, 1, "lip at 50 mm is above the roof at 40 mm"},
		{func(p *RectangularPan) {}, math.NaN(), "NaN degrees"},
	} {
		bad := pan
		c.change(&bad)
		if _, err := bad.Retained(c.degrees); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
	if _, err := (RectangularPan{}).Tilt(tiltExact(t, 1)); err == nil {
		t.Error("no pan was accepted")
	}
	for v, want := range map[Validity]string{ValidityUnknown: "unknown", ValidityHolds: "holds", ValidityBroken: "broken"} {
		if text, err := v.MarshalText(); err != nil || string(text) != want {
			t.Errorf("%d is %q %v", v, text, err)
		}
	}
	if _, err := Validity(9).MarshalText(); err == nil {
		t.Error("validity 9 was written")
	}
}

// On the level the fluid runs over at the middle of the hole, and the limit is that of
// a tilt with the hole uphill: 0.05 m deep over 0.3 m less 0.1 m, tangent 0.25 (by hand).
func TestTiltOnTheLevel(t *testing.T) {
	tilt := Tilt{
		Area: tiltExact(t, 0.06), Degrees: tiltDoubt(t, "angle", 0, 0.5), Hole: measure.MeasuredExactly(units.Metre.Of(0.1)), Rim: units.Metre.Of(0.01),
		Depth: units.Metre.Of(0.05), Extent: units.Metre.Of(0.3),
	}
	e, err := tilt.Effect()
	if err != nil {
		t.Fatal(err)
	}
	if want := 60 * 0.1 * 0.5 * math.Pi / 180; !scheduleClose(e.Left.U().In(units.Litre), want, 1e-9) {
		t.Errorf("u %s, want %g L", e.Left.U(), want)
	}
	if want := math.Atan(0.25) * 180 / math.Pi; !scheduleClose(e.Limit, want, 1e-12) {
		t.Errorf("limit %g°, want %g°", e.Limit, want)
	}
}

// The limit itself is within the law, and a lip at the roof within the pan. A hole
// further out than the fluid reaches still meets the roof downhill: 0.02/(0.1 + 0.15).
func TestTiltAtTheLimit(t *testing.T) {
	tilt := Tilt{
		Area: tiltExact(t, 0.06), Degrees: tiltExact(t, 1), Hole: measure.MeasuredExactly(units.Metre.Of(0.1)),
		Depth: units.Metre.Of(0.02), Extent: units.Metre.Of(0.3),
	}
	e, err := tilt.Effect()
	if err != nil {
		t.Fatal(err)
	}
	for past, want := range map[float64]Validity{0: ValidityHolds, 1e-9: ValidityBroken} {
		tilt.Degrees = tiltExact(t, e.Limit+past)
		if at, err := tilt.Effect(); err != nil || at.Validity != want || at.Limit != e.Limit {
			t.Errorf("%g° past the limit of %g°: %s, limit %g, %v", past, e.Limit, at.Validity, at.Limit, err)
		}
	}
	out := Tilt{
		Area: tiltExact(t, 0.06), Degrees: tiltExact(t, 1), Hole: measure.MeasuredExactly(units.Metre.Of(0.15)),
		Headroom: units.Metre.Of(0.02), Extent: units.Metre.Of(0.1),
	}
	if e, err = out.Effect(); err != nil || !scheduleClose(e.Limit, math.Atan(0.08)*180/math.Pi, 1e-12) {
		t.Errorf("hole past the fluid: limit %g, %v", e.Limit, err)
	}
	full := RectangularPan{Length: units.Metre.Of(0.4), Width: units.Metre.Of(0.3), Lip: units.Metre.Of(0.05), Roof: units.Metre.Of(0.05)}
	if v, err := full.Retained(0); err != nil || v != units.Litre.Of(6) {
		t.Errorf("lip at the roof: %s, %v", v, err)
	}
}

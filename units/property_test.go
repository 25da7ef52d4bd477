package units

import (
	"math"
	"reflect"
	"slices"
	"testing"
)

func TestOutOfRangeIsSticky(t *testing.T) {
	bad := Litre.Of(math.NaN())
	one := Litre.Of(1)
	for name, q := range map[string]Volume{
		"Add": bad.Add(one), "Add to": one.Add(bad), "Sub": bad.Sub(one), "Sub from": one.Sub(bad), "Sub itself": bad.Sub(bad),
		"Neg": bad.Neg(), "Abs": bad.Abs(), "Scale": bad.Scale(0), "Scale by NaN": one.Scale(math.NaN()), "Scale by Inf": one.Scale(math.Inf(1)),
		"Sum": Sum(one, bad, one), "Min": Min(one, bad), "Min first": Min(bad, one), "Max": Max(one, bad), "Max first": Max(bad, one),
		"range": Exactly(bad).Mid(), "width": Exactly(bad).Width(), "past the top": Litre.Of(92233).Add(Litre.Of(92233)), "past the bottom": Litre.Of(-92233).Sub(Litre.Of(92233)),
	} {
		if q.Valid() || q != bad || q.String() != "out of range" || q.Sign() != 0 || q.IsZero() {
			t.Errorf("%s: %v", name, q)
		}
	}
	if bad.In(Litre) != Huge || bad.Ratio(one) != Huge || one.Ratio(bad) != Huge || one.Ratio(Volume{}) != Huge {
		t.Error("an out-of-range result is not Huge")
	}
	if Litre.Of(Huge).Valid() {
		t.Error("Huge goes back in")
	}
	if Exactly(bad).Contains(bad) || Exactly(bad).Valid() || Exactly(bad).Text(Litre, 1) != "out of range" {
		t.Error("an out-of-range range passes for valid")
	}
	if _, err := Mean(one, bad); err == nil {
		t.Error("Mean takes an out-of-range quantity")
	}
	if _, err := NewRange(one, bad); err == nil {
		t.Error("NewRange takes an out-of-range quantity")
	}
	if _, err := bad.Decimal(Litre, 2, HalfEven); err == nil {
		t.Error("Decimal takes an out-of-range quantity")
	}
	cold := Celsius(-300)
	for name, p := range map[string]Temperature{
		"NaN": Celsius(math.NaN()), "Inf": Fahrenheit(math.Inf(1)), "too hot": Celsius(1e300), "below zero": Fahrenheit(-459.68),
		"Add": cold.Add(CelsiusDegree.Of(1000)), "Add out of range": Celsius(20).Add(CelsiusDegree.Of(1e300)), "Add down": Celsius(20).Add(CelsiusDegree.Of(-300)),
	} {
		if p.Valid() || p != cold || p.String() != "out of range" || p.Text(CelsiusScale, 1) != "out of range" || p.Celsius() != Huge || p.Fahrenheit() != Huge || p.Kelvin() != Huge {
			t.Errorf("%s: %v", name, p)
		}
	}
	if cold.Sub(Celsius(20)).Valid() || Celsius(20).Sub(cold).Valid() {
		t.Error("a difference to an out-of-range temperature is valid")
	}
}

func TestArithmeticProperties(t *testing.T) {
	ticks := manyTicks(60)
	for _, a := range ticks {
		p := fromTicks[MassDim](a)
		if p.Neg().Neg() != p || p.Abs().Sign() < 0 || p.Sub(p) != (Mass{}) || p.Scale(1) != p || p.Scale(-1) != p.Neg() || p.Scale(0) != (Mass{}) {
			t.Fatalf("%d ticks break an identity", a)
		}
		for _, b := range ticks {
			q := fromTicks[MassDim](b)
			if p.Add(q) != q.Add(p) {
				t.Fatalf("%d + %d depends on the order", a, b)
			}
			if sum := p.Add(q); sum.Valid() && (sum.Sub(q) != p || sum.Sub(p) != q) {
				t.Fatalf("%d + %d does not come back", a, b)
			}
			if p.Compare(q) != -q.Compare(p) || (p.Compare(q) == 0) != (p == q) || p.Equal(q) != (p == q) {
				t.Fatalf("%d and %d are ordered two ways", a, b)
			}
			if diff := p.Sub(q); diff.Valid() && diff.Sign() != p.Compare(q) {
				t.Fatalf("%d - %d has sign %d", a, b, diff.Sign())
			}
			if lo, hi := Min(p, q), Max(p, q); lo.Compare(hi) > 0 || lo != p && lo != q || Sum(lo, hi) != Sum(p, q) {
				t.Fatalf("%d and %d: Min %v, Max %v", a, b, lo, hi)
			}
		}
	}
}

func TestRangeProperties(t *testing.T) {
	ticks := manyTicks(60)
	for _, a := range ticks {
		for _, b := range ticks {
			p, q := fromTicks[LengthDim](a), fromTicks[LengthDim](b)
			r, err := NewRange(p, q)
			if (err == nil) != (a <= b) {
				t.Fatalf("range %d to %d: error %v", a, b, err)
			}
			if err != nil {
				continue
			}
			if !r.Contains(p) || !r.Contains(q) || !r.Contains(r.Mid()) || r.Contains(q.Add(fromTicks[LengthDim](1))) || r.Contains(p.Sub(fromTicks[LengthDim](1))) {
				t.Fatalf("range %d to %d does not hold its ends or its middle, or holds a neighbour", a, b)
			}
			if w := r.Width(); w.Valid() && p.Add(w) != q {
				t.Fatalf("range %d to %d has width %v", a, b, w)
			}
		}
	}
	if !(Range[VolumeDim]{}).IsZero() || !Exactly(Volume{}).IsZero() || Exactly(Litre.Of(1)).IsZero() {
		t.Error("the zero range is not zero")
	}
	widest := Range[VolumeDim]{fromTicks[VolumeDim](-maxTicks), fromTicks[VolumeDim](maxTicks)}
	if !widest.Mid().IsZero() || widest.Width().Valid() {
		t.Errorf("the widest range has middle %v, width %v", widest.Mid(), widest.Width())
	}
}

func TestTemperatureProperties(t *testing.T) {
	points := []Temperature{{}, {1}, Celsius(0), Fahrenheit(0), Celsius(20), Fahrenheit(97), Celsius(150), {maxTicks}}
	for _, p := range points {
		for _, q := range points {
			if d := p.Sub(q); q.Add(d) != p || d.Neg() != q.Sub(p) || d.Sign() != p.Compare(q) || p.Equal(q) != d.IsZero() {
				t.Errorf("%v and %v: difference %v", p, q, d)
			}
			m, err := MeanTemperature(p, q)
			if err != nil || m.Compare(p)*m.Compare(q) > 0 {
				t.Errorf("mean of %v and %v is %v, %v", p, q, m, err)
			}
		}
	}
	if m, _ := MeanTemperature(Fahrenheit(95), Fahrenheit(97), Fahrenheit(99)); m != Fahrenheit(97) {
		t.Errorf("mean of 95, 97, 99 °F is %v", m)
	}
	// Half a tick: to even.
	if m, _ := MeanTemperature(Temperature{1}, Temperature{2}); m.ticks != 2 {
		t.Errorf("mean of 1 and 2 ticks is %d", m.ticks)
	}
	if m, _ := MeanTemperature(Temperature{2}, Temperature{3}); m.ticks != 2 {
		t.Errorf("mean of 2 and 3 ticks is %d", m.ticks)
	}
	if m, _ := MeanTemperature(Temperature{maxTicks}, Temperature{maxTicks}, Temperature{maxTicks}); m.ticks != maxTicks {
		t.Errorf("mean of the hottest is %d", m.ticks)
	}
	if _, err := MeanTemperature(); err == nil {
		t.Error("no temperatures have a mean")
	}
	if !(Temperature{}).IsZero() || Celsius(0).IsZero() {
		t.Error("IsZero is not absolute zero")
	}
}

func TestSortingIsTotal(t *testing.T) {
	bad := Litre.Of(math.Inf(-1))
	vs := []Volume{Litre.Of(2), bad, Litre.Of(-1), {}, bad, Litre.Of(1)}
	slices.SortFunc(vs, Volume.Compare)
	if want := []Volume{bad, bad, Litre.Of(-1), {}, Litre.Of(1), Litre.Of(2)}; !slices.Equal(vs, want) {
		t.Errorf("sorted %v", vs)
	}
}

// No exported method or function panics or lets a NaN or an infinity out,
// whatever it is called with: the cross product of edge values over every
// argument.
func TestNothingPanics(t *testing.T) {
	calls := 0
	for _, v := range receivers() {
		rv := reflect.ValueOf(v)
		for i := range rv.NumMethod() {
			name := rv.Type().String() + "." + rv.Type().Method(i).Name
			calls += callAll(t, name, rv.Method(i))
		}
	}
	for name, f := range map[string]any{
		"Celsius": Celsius, "Fahrenheit": Fahrenheit, "TryCelsius": TryCelsius, "TryFahrenheit": TryFahrenheit,
		"PoundsPerUSGallon": PoundsPerUSGallon, "KilogramsPerLitre": KilogramsPerLitre,
		"MeanTemperature": MeanTemperature, "Mean": Mean[VolumeDim], "Sum": Sum[VolumeDim], "Min": Min[VolumeDim], "Max": Max[VolumeDim],
		"NewRange": NewRange[VolumeDim], "Exactly": Exactly[VolumeDim],
		"ParseVolume": ParseVolume, "ParseTorque": ParseTorque, "ParseLength": ParseLength, "ParseMass": ParseMass,
		"ParseTemperature": ParseTemperature, "ParseTemperatureDelta": ParseTemperatureDelta, "ParseDistance": ParseDistance,
		"ParseDensity": ParseDensity, "ParseExplicitDensity": ParseExplicitDensity, "ParseTemperatureRange": ParseTemperatureRange,
		"Parse": Parse[VolumeDim], "ParseExplicit": ParseExplicit[VolumeDim], "ParseRange": ParseRange[VolumeDim], "ParseExplicitRange": ParseExplicitRange[VolumeDim],
	} {
		calls += callAll(t, name, reflect.ValueOf(f))
	}
	if calls < 10_000 {
		t.Errorf("only %d calls were made", calls)
	}
}

// receivers holds each exported type with methods, values and pointers.
func receivers() []any {
	vs := []any{
		Unit[VolumeDim](0), USQuart, Unit[VolumeDim](NewtonMetre), Unit[VolumeDim](255), PoundForceInch, FahrenheitDegree, Inch,
		HalfEven, Rounding(200), Density(0), Density(867.5), Density(math.NaN()), Density(math.Inf(1)), Density(-1), Density(1e-320),
		Range[VolumeDim]{}, Exactly(Litre.Of(math.NaN())), Range[TorqueDim]{fromTicks[TorqueDim](-maxTicks), fromTicks[TorqueDim](maxTicks)},
		Temperature{}, Temperature{maxTicks}, Temperature{outOfRange}, Celsius(20), CelsiusScale,
		new(Volume), new(Temperature), new(Range[VolumeDim]), new(Density), &ParseError{},
	}
	for _, n := range []int64{0, 1, -1, 1<<53 + 1, maxTicks, -maxTicks, outOfRange} {
		vs = append(vs, fromTicks[VolumeDim](n), fromTicks[TorqueDim](n), fromTicks[LengthDim](n), fromTicks[MassDim](n), fromTicks[TemperatureDeltaDim](n), fromTicks[DistanceDim](n))
	}
	return vs
}

// edges are the values tried for an argument of a type.
func edges(t reflect.Type) []reflect.Value {
	var vs []reflect.Value
	add := func(candidates ...any) {
		for _, c := range candidates {
			v := reflect.ValueOf(c)
			if v.Type().ConvertibleTo(t) && (v.Kind() == t.Kind()) {
				vs = append(vs, v.Convert(t))
			}
		}
	}
	add(math.NaN(), math.Inf(1), math.Inf(-1), Huge, -Huge, 0.0, 1.0, -2.5, 0.1, 5e-324, 1e18)
	add(0, 1, -1, 15, 16, math.MaxInt, math.MinInt)
	add("", " ", "2.5 qt", "-1/3 L", "1/0 qt", "2,5", "°", "\xff", "9e18 L", "..", " to ", "1-2 qt", "1e-18 mL to 2 L")
	add([]byte(nil), []byte("null"), []byte(`"2.5 L"`), []byte(`"`), []byte("2.5 L"), []byte(`"20 °C"`))
	add(uint8(0), uint8(1), uint8(0x11), uint8(0x21), uint8(0x1F), uint8(0x52), uint8(255))
	switch t.Kind() {
	case reflect.Interface:
		for _, v := range []any{"2.5 L", []byte(nil), 1.5, int64(1)} {
			if reflect.TypeOf(v).Implements(t) {
				vs = append(vs, reflect.ValueOf(v))
			}
		}
		vs = append(vs, reflect.Zero(t))
	case reflect.Struct:
		for _, r := range receivers() {
			if reflect.TypeOf(r) == t {
				vs = append(vs, reflect.ValueOf(r))
			}
		}
	}
	if len(vs) == 0 {
		vs = append(vs, reflect.Zero(t))
	}
	return vs
}

// callAll calls f with the cross product of edge values and returns how often.
func callAll(t *testing.T, name string, f reflect.Value) int {
	t.Helper()
	ft := f.Type()
	lists := [][]reflect.Value{{}}
	for i := range ft.NumIn() {
		in := ft.In(i)
		if ft.IsVariadic() && i == ft.NumIn()-1 {
			in = in.Elem()
		}
		var longer [][]reflect.Value
		for _, l := range lists {
			for _, v := range edges(in) {
				longer = append(longer, append(slices.Clone(l), v))
			}
		}
		lists = longer
	}
	if ft.IsVariadic() {
		lists = append(lists, lists[0][:ft.NumIn()-1])
	}
	for _, args := range lists {
		callOne(t, name, f, args)
	}
	return len(lists)
}

func callOne(t *testing.T, name string, f reflect.Value, args []reflect.Value) {
	t.Helper()
	defer func() {
		if p := recover(); p != nil {
			t.Errorf("%s%v panics: %v", name, args, p)
		}
	}()
	for _, out := range f.Call(args) {
		if out.Kind() != reflect.Float64 {
			continue
		}
		if x := out.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			t.Errorf("%s%v lets %v out", name, args, x)
		}
	}
}

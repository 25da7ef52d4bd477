package units

import (
	"math"
	"reflect"
	"slices"
	"testing"
)

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

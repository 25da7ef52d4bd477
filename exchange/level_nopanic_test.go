package exchange

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"github.com/shopspring/decimal"
)

// levelEdges makes values of any type this part of the package takes: ordinary
// ones mostly, so that calls get past the checks, extreme ones often enough.
type levelEdges struct {
	r              *rand.Rand
	usual, extreme map[reflect.Type][]reflect.Value
}

func newLevelEdges(t *testing.T) *levelEdges {
	e := &levelEdges{rand.New(rand.NewPCG(51, 52)), map[reflect.Type][]reflect.Value{}, map[reflect.Type][]reflect.Value{}}
	add := func(to map[reflect.Type][]reflect.Value, values ...any) {
		for _, v := range values {
			to[reflect.TypeOf(v)] = append(to[reflect.TypeOf(v)], reflect.ValueOf(v))
		}
	}
	for i, x := range []float64{0, 0.5, 1, 2.5, 10, -1, 1e-14, 30000, math.NaN(), 1e300} {
		to := e.usual
		if i > 4 {
			to = e.extreme
		}
		add(to, units.Litre.Of(x), units.Metre.Of(x), units.Kilometre.Of(x), units.CelsiusDegree.Of(x), units.Celsius(x))
		add(to, measure.MeasuredExactly(units.Litre.Of(x)), measure.MeasuredExactly(units.Metre.Of(x)), measure.TemperatureExactly(units.Celsius(x)))
		r, _ := measure.Exact(x)
		add(to, r, x)
	}
	add(e.usual, levelVolume(t, "a", 100, 20), levelVolume(t, "b", 2000, 300), levelAt(t, 40, 1), tiltDoubt(t, "c", 1, 0.5),
		decimal.New(950, -2), decimal.New(40, 0), levelOil(t, 850), "litre", time.Hour, 365*24*time.Hour,
		thermal.Window{Low: units.Celsius(35), High: units.Celsius(45)}, thermal.Aluminium, thermal.Uncorrected, 0, 1, 2, uint8(0), uint8(1), uint8(2))
	add(e.extreme, measure.Volume{}, measure.Temperature{}, measure.Reading{}, measure.Length{}, units.Temperature{},
		measure.MeasuredExactly(units.Litre.Of(1)).Scale(math.Inf(1)),
		decimal.Decimal{}, decimal.New(-1, 0), decimal.New(1, 9), decimal.New(1, 30000), decimal.New(7, -9), decimal.New(1, math.MinInt32),
		thermal.Fluid{}, thermal.UnknownDensity(), "", strings.Repeat("\xff", 200), "\u202e",
		time.Duration(0), time.Duration(math.MinInt64), time.Duration(math.MaxInt64), thermal.Window{},
		thermal.Window{Low: units.Celsius(45), High: units.Celsius(35)}, thermal.UnknownMaterial, thermal.Material(255),
		1e-300, 1e9, math.MaxFloat64, math.Inf(1), math.Inf(-1), math.Copysign(0, -1), -1, 1000, math.MaxInt32, math.MinInt32, uint8(61), uint8(255))
	for _, net := range []float64{-300, 0, 300} {
		c := levelCheck(t, levelVolume(t, "net", net, 40))
		x, err := c.Expect()
		if err != nil {
			t.Fatal(err)
		}
		add(e.usual, c, x)
	}
	add(e.usual, []byte("trickle"), scheduleEvery(2, 3, 0.2), estimateBoomer(),
		Tilt{}, Markers{}, Schedule{}) // the empty ones are filled in field by field
	add(e.extreme, LevelExpectation{}, []byte(nil))
	return e
}

func (e *levelEdges) make(t reflect.Type) reflect.Value {
	from := e.usual[t]
	if len(from) == 0 || e.r.IntN(12) == 0 {
		from = e.extreme[t]
	}
	v := reflect.New(t).Elem()
	if len(from) > 0 {
		v.Set(from[e.r.IntN(len(from))])
	}
	_, whole := v.Interface().(LevelExpectation)
	if len(from) > 0 && (t.Kind() != reflect.Struct || t.PkgPath() != "example.com/meniscus/exchange" || whole || e.r.IntN(3) == 0) {
		return v
	}
	switch t.Kind() {
	case reflect.Uint8:
		v.SetUint(e.make(reflect.TypeFor[uint8]()).Uint())
	case reflect.Bool:
		v.SetBool(e.r.IntN(2) == 0)
	case reflect.Slice:
		v.Set(e.slice(t, e.r.IntN(5)))
	case reflect.Struct:
		e.fields(v)
	case reflect.Pointer:
		if e.r.IntN(4) != 0 {
			v.Set(reflect.New(t.Elem()))
			v.Elem().Set(e.make(t.Elem()))
		}
	}
	return v
}

func (e *levelEdges) slice(t reflect.Type, n int) reflect.Value {
	v := reflect.MakeSlice(t, n, n)
	for i := range n {
		v.Index(i).Set(e.make(t.Elem()))
	}
	return v
}

// fields fills a struct; now and then all its slices get one length.
func (e *levelEdges) fields(v reflect.Value) {
	together, n := e.r.IntN(2) == 0, 3+e.r.IntN(3)
	known := !v.IsZero()
	for i := range v.NumField() {
		f := v.Type().Field(i)
		switch {
		case !f.IsExported(), known && e.r.IntN(4) != 0: // change a good value here and there
		case together && f.Type.Kind() == reflect.Slice:
			v.Field(i).Set(e.slice(f.Type, n))
		default:
			v.Field(i).Set(e.make(f.Type))
		}
	}
}

// levelNaN names the first NaN or infinity among the exported parts of a value.
func levelNaN(v reflect.Value, at string) string {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Sprintf("%s = %v", at, x)
		}
	case reflect.Slice:
		for i := range v.Len() {
			if s := levelNaN(v.Index(i), fmt.Sprintf("%s[%d]", at, i)); s != "" {
				return s
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				if s := levelNaN(v.Field(i), at+"."+v.Type().Field(i).Name); s != "" {
					return s
				}
			}
		}
	}
	return ""
}

// No exported function or method of this part panics, and none lets a NaN or an
// infinity out of a call without an error.
func TestBuyingToLevelEdgeValues(t *testing.T) {
	e := newLevelEdges(t)
	functions := map[string]reflect.Value{}
	for name, f := range map[string]any{
		"Cover": Cover, "CoverBudget": CoverBudget, "CompareSchedules": CompareSchedules, "EstimateCapacity": EstimateCapacity,
	} {
		functions[name] = reflect.ValueOf(f)
	}
	for _, v := range []any{
		Stock{}, Schedule{}, DistanceRound{}, TimeRound{}, ScheduleComparison{}, CapacityEstimate{}, &UnsettledError{}, Straightness(0),
		Tilt{}, RectangularPan{}, Validity(0), CameIn(0), LevelCheck{}, LevelExpectation{}, AtPlug(0), new(AtPlug), Against(0), Standing(0), Bound(0),
	} {
		for i := range reflect.TypeOf(v).NumMethod() {
			m := reflect.TypeOf(v).Method(i)
			functions[reflect.TypeOf(v).String()+"."+m.Name] = m.Func
		}
	}
	if len(functions) < 40 {
		t.Fatalf("only %d functions", len(functions))
	}
	for _, name := range slices.Sorted(maps.Keys(functions)) {
		good := 0
		for range 1500 {
			good += levelCall(t, e, name, functions[name])
		}
		if good == 0 {
			t.Errorf("%s: never without an error: the edge values do not reach it", name)
		}
	}
}

func levelCall(t *testing.T, e *levelEdges, name string, f reflect.Value) int {
	t.Helper()
	var in []reflect.Value
	for i := range f.Type().NumIn() {
		in = append(in, e.make(f.Type().In(i)))
	}
	defer func() {
		if p := recover(); p != nil {
			t.Fatalf("%s(%+v) panics: %v", name, in, p)
		}
	}()
	if strings.HasPrefix(name, "*") && in[0].IsNil() && !strings.Contains(name, "UnsettledError") {
		return 0 // a nil receiver of a decoder is the caller's own slip
	}
	out := f.Call(in)
	last := out[len(out)-1]
	if last.Type().Implements(reflect.TypeFor[error]()) && !last.IsNil() {
		text := last.Interface().(error).Error()
		if text == "" || len(text) > 20000 {
			t.Fatalf("%s: error of %d bytes", name, len(text))
		}
		return 0
	}
	for _, o := range out {
		if s := levelNaN(o, "result"); s != "" {
			t.Fatalf("%s(%+v): %s", name, in, s)
		}
	}
	return 1
}

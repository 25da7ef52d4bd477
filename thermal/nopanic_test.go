package thermal

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"time"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// exported lists every exported function; TestExportedIsComplete keeps it so.
func exported() map[string]any {
	return map[string]any{
		"Density15": Density15, "Emissivities": Emissivities, "Exponential": Exponential, "Follow": Follow,
		"Lubricant": Lubricant, "LubricatingCTL": LubricatingCTL, "Materials": Materials, "ParseMaterial": ParseMaterial,
		"ReferenceTemperature": ReferenceTemperature, "Tabulated": Tabulated, "UnknownDensity": UnknownDensity, "VesselReference": VesselReference,
	}
}

// edges are the values each parameter takes: zero, ordinary, hostile.
func edges(t testing.TB) map[reflect.Type][]any {
	nan, inf := math.NaN(), math.Inf(1)
	c := units.Celsius
	lub := mustLubricant(t, 850)
	window := exampleWindow()
	closing, err := window.Closing(lub, units.Litre.Of(12), Aluminium, c(50))
	if err != nil {
		t.Fatal(err)
	}
	trend := follow(t, Course{PlateauLow: c(80), PlateauHigh: c(85)})
	for i := range 4 {
		trend = added(t, trend, float64(i), 75+5*float64(i))
	}
	forecast, err := trend.Forecast(window)
	if err != nil {
		t.Fatal(err)
	}
	ir := Infrared{c(40), c(20), 0.9, 0.02, 0.95, ReflectionSubtracted}
	surface, err := ir.Surface()
	if err != nil {
		t.Fatal(err)
	}
	kept := ir
	kept.Reflection, kept.Emissivity = ReflectionKept, 0.5
	bad := measure.MeasuredExactly(units.Litre.Of(nan))
	pools := [][]any{
		{units.Volume{}, units.Litre.Of(2.4), units.Litre.Of(-3), units.Litre.Of(92_000), units.Litre.Of(nan)},
		{units.Mass{}, units.Kilogram.Of(2), units.Kilogram.Of(-900_000), units.Kilogram.Of(nan)},
		{units.Temperature{}, c(20), c(-50), c(150), c(1e9), c(nan), units.Fahrenheit(110)},
		{units.TemperatureDelta{}, units.CelsiusDegree.Of(1), units.CelsiusDegree.Of(-1), units.CelsiusDegree.Of(1e9), units.CelsiusDegree.Of(inf)},
		{units.Density(0), units.Density(850), units.Density(800.9), units.Density(1163.5), units.Density(-1), units.Density(nan), units.Density(inf)},
		{0.0, 7e-4, 0.05, 1.0, -1.0, 5e-324, math.MaxFloat64, nan, inf, -inf},
		{time.Duration(0), time.Minute, time.Duration(-1), Never, time.Duration(math.MinInt64)},
		{"", "jug-a", "two words", strings.Repeat("x", 5000), "\xff\x00"},
		{UnknownMaterial, Uncorrected, Polypropylene, LDPE, Material(255)},
		{ReflectionUnknown, ReflectionKept, Reflection(255)},
		{measure.Volume{}, bad, litresWith(t, 2.4, 0.05, "v"), litresWith(t, -92_000, 1e300, "v")},
		{measure.Mass{}, measure.MeasuredExactly(units.Gram.Of(2000)), measure.MeasuredExactly(units.Gram.Of(nan))},
		{measure.Temperature{}, celsiusWith(t, 40, 1, "p"), celsiusWith(t, 1e8, 1e300, "p"), measure.TemperatureExactly(c(nan))},
		{[]DensityPoint(nil), []DensityPoint{{}, {}}, []DensityPoint{{c(0), 850}, {c(100), 800}}, []DensityPoint{{c(nan), units.Density(nan)}, {c(1), 1}}},
		{Fluid{}, lub, UnknownDensity(), handbookTable(t)},
		{Doubt{}, Doubt{0.06, 0.005}, Doubt{nan, inf}},
		{CTL2004{}, LubricatingCTL(850), CTL2004{850, nan, inf, -inf}, CTL2004{700, 341.0957, 0, 0}, CTL2004{850, 1e300, -1e297, 0}},
		{Vessel{}, Vessel{ID: "jug-a", Material: HDPE, Graduation: units.Millilitre.Of(50), ScaleError: 0.01, Entry: "x"},
			Vessel{ID: "jug-b", Material: 255, ScaleError: nan, Capacity: units.Litre.Of(inf)}, Vessel{Material: Uncorrected}},
		{Window{}, window, Window{Low: c(nan), High: c(inf)}, Window{Low: c(40), High: c(36)}, Window{Low: c(-40), High: c(150)}},
		{Closing{}, closing},
		{Measurement{}, Measurement{Vessel{ID: "jug-a", Material: HDPE}, units.Litre.Of(2), c(40)}, Measurement{Vessel{Material: 255}, units.Litre.Of(nan), c(nan)}},
		{[]byte(nil), []byte("aluminium"), []byte("cheese")},
		{Course{}, Course{PlateauLow: c(80)}, Course{c(80), c(90), units.CelsiusDegree.Of(1), units.CelsiusDegree.Of(1)}, Course{c(nan), c(inf), units.CelsiusDegree.Of(nan), units.CelsiusDegree.Of(-1)}},
		{Trend{}, trend, follow(t, Course{PlateauLow: c(80)})},
		{Forecast{}, forecast},
		{Moment{}, Moment{-1, 0, Never}, Moment{Never, Never, Never}, Moment{math.MinInt64, math.MinInt64, math.MinInt64}},
		{Lumped{}, Lumped{c(20), c(80), time.Minute}, Lumped{c(80), c(20), 1}, Lumped{c(nan), c(inf), math.MaxInt64}, Lumped{c(20), c(20), longestCourse}},
		{Infrared{}, ir, kept, Infrared{c(nan), c(inf), nan, inf, nan, 255}, Infrared{c(1e9), c(40), 0.5, 0.2, 0.9, ReflectionKept}},
		{Surface{}, surface},
		{Emissivity{}, Emissivities()[0], Emissivity{Low: 1e300, High: -1e300}},
	}
	byType := map[reflect.Type][]any{}
	for _, pool := range pools {
		byType[reflect.TypeOf(pool[0])] = pool
	}
	return byType
}

// TestNoPanic calls every exported function and method with the cross product
// of the edge values. None may panic, and no NaN or infinity may come out.
func TestNoPanic(t *testing.T) {
	pools := edges(t)
	calls := 0
	for name, f := range exported() {
		calls += cross(t, name, reflect.ValueOf(f), nil, pools)
	}
	for typ, pool := range pools {
		if typ.PkgPath() != reflect.TypeOf(Fluid{}).PkgPath() {
			continue
		}
		// The pointer has the methods of the value as well.
		for i := range reflect.PointerTo(typ).NumMethod() {
			m := reflect.PointerTo(typ).Method(i)
			for _, receiver := range pool {
				p := reflect.New(typ)
				p.Elem().Set(reflect.ValueOf(receiver))
				calls += cross(t, typ.Name()+"."+m.Name, m.Func, []reflect.Value{p}, pools)
			}
		}
	}
	if calls < 5000 {
		t.Errorf("only %d calls", calls)
	}
	t.Logf("%d calls", calls)
}

func cross(t *testing.T, name string, f reflect.Value, args []reflect.Value, pools map[reflect.Type][]any) int {
	if len(args) == f.Type().NumIn() {
		call(t, name, f, args)
		return 1
	}
	in := f.Type().In(len(args))
	pool, ok := pools[in]
	if !ok {
		t.Fatalf("%s: no edge values for %s", name, in)
	}
	n := 0
	for _, v := range pool {
		n += cross(t, name, f, append(args[:len(args):len(args)], reflect.ValueOf(v)), pools)
	}
	return n
}

func call(t *testing.T, name string, f reflect.Value, args []reflect.Value) {
	defer func() {
		if p := recover(); p != nil {
			t.Errorf("%s%v panics: %v", name, show(args), p)
		}
	}()
	for _, out := range f.Call(args) {
		if err, ok := out.Interface().(error); ok && len(err.Error()) > 1500 {
			t.Errorf("%s%v: error of %d bytes", name, show(args), len(err.Error()))
		}
		if !finiteAll(out, args) {
			t.Errorf("%s%v gives %v", name, show(args), out)
		}
	}
}

func show(args []reflect.Value) string {
	s := fmt.Sprint(args)
	return s[:min(len(s), 200)]
}

// finiteAll looks for a NaN or infinity in a result. A method that hands back
// its own argument is not blamed for what is in it.
func finiteAll(out reflect.Value, args []reflect.Value) bool {
	for _, a := range args {
		if a.Type() == out.Type() || a.Type() == reflect.PointerTo(out.Type()) {
			return true
		}
	}
	switch out.Kind() {
	case reflect.Float64:
		return !math.IsNaN(out.Float()) && !math.IsInf(out.Float(), 0)
	case reflect.Struct:
		for i := range out.NumField() {
			if !finiteAll(out.Field(i), nil) {
				return false
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range out.Len() {
			if !finiteAll(out.Index(i), nil) {
				return false
			}
		}
	}
	return true
}

// TestExportedIsComplete reads the source: a new exported function or type must
// be in the lists above.
func TestExportedIsComplete(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	pools := map[string]bool{}
	for typ := range edges(t) {
		pools[typ.Name()] = true
	}
	functions := exported()
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, text, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if d.Recv == nil && d.Name.IsExported() && functions[d.Name.Name] == nil {
					t.Errorf("%s: function %s is not tried", name, d.Name.Name)
				}
			case *ast.GenDecl:
				for _, s := range d.Specs {
					if spec, ok := s.(*ast.TypeSpec); ok && spec.Name.IsExported() && !pools[spec.Name.Name] && hasMethods(spec.Name.Name, files) {
						t.Errorf("%s: type %s has no edge values", name, spec.Name.Name)
					}
				}
			}
		}
	}
}

// hasMethods reports whether some file declares an exported method of the type.
func hasMethods(typ string, files []string) bool {
	method := regexp.MustCompile(`(?m)^func \(\w* ?\*?` + typ + `\) [A-Z]`)
	for _, name := range files {
		if text, err := os.ReadFile(name); err == nil && method.Match(text) {
			return true
		}
	}
	return false
}

package thermal

import (
	"errors"
	"math"
	"math/big"
	"slices"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

// handbookTable is the engine-oil table of a heat-transfer handbook (seen
// second-hand), -0.15 to 106.85 °C.
func handbookTable(t testing.TB) Fluid {
	t.Helper()
	var points []DensityPoint
	for _, row := range published.Load(t, "fluid_density_published").Where("sample", "engine oil (unused), handbook") {
		points = append(points, DensityPoint{units.Celsius(row.Float("temp_C")), units.Density(row.Float("density_kgm3"))})
	}
	f, err := Tabulated(points)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestTabulatedRows: every row of the handbook is answered as printed, and
// between rows by the slow way.
func TestTabulatedRows(t *testing.T) {
	f := handbookTable(t)
	for _, p := range f.table.points {
		got, err := f.Density(p.At)
		if err != nil || got != p.Density {
			t.Errorf("%s: %v, %v, want %v", p.At, got, err, p.Density)
		}
	}
	got, err := f.Density(units.Celsius(31.85)) // half-way between 884.1 and 877.9
	if err != nil {
		t.Fatal(err)
	}
	near(t, "half-way", float64(got), 881, 1e-9)
}

// TestTabulatedOracle compares with 200-bit interpolation and logarithms.
func TestTabulatedOracle(t *testing.T) {
	f := handbookTable(t)
	r := rand01(3)
	for range 2000 {
		hundredths := math.Round(r.between(-15, 10685))
		at := units.Celsius(hundredths / 100)
		got, err := f.Factor(at)
		if err != nil {
			t.Fatal(err)
		}
		i := 0
		for f.table.points[i+1].At.Compare(at) < 0 {
			i++
		}
		rho := bigF(0)
		rho15 := bigF(0)
		for _, c := range []struct {
			hundredths float64
			i          int
			out        **big.Float
		}{{hundredths, i, &rho}, {1500, 1, &rho15}} {
			p, q := f.table.points[c.i], f.table.points[c.i+1]
			p0 := math.Round(p.At.Celsius() * 100)
			q0 := math.Round(q.At.Celsius() * 100)
			slope := div(sub(bigF(float64(q.Density)), bigF(float64(p.Density))), bigF(q0-p0))
			*c.out = add(bigF(float64(p.Density)), mul(slope, bigF(c.hundredths-p0)))
		}
		if e := relative(got, div(rho, rho15)); e > 1e-15 {
			t.Fatalf("%s: relative error %g", at, e)
		}
	}
}

func TestTabulatedWithout15(t *testing.T) {
	f, err := Tabulated([]DensityPoint{{units.Celsius(20), 850}, {units.Celsius(100), 797}})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.Factor(units.Celsius(40)); !errors.Is(err, ErrOutsideLaw) || !strings.Contains(err.Error(), "15 °C") {
		t.Errorf("factor without a row at 15 °C: %v", err)
	}
	got, err := f.Convert(units.Litre.Of(797), units.Celsius(20), units.Celsius(100))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by the ratio of densities", got.In(units.Litre), 850, 1e-11)
}

func TestTabulatedRefuses(t *testing.T) {
	c := units.Celsius
	for name, points := range map[string][]DensityPoint{
		"no rows":       nil,
		"one row":       {{c(20), 850}},
		"falling":       {{c(20), 850}, {c(10), 840}},
		"twice":         {{c(20), 850}, {c(20), 840}},
		"denser warm":   {{c(20), 850}, {c(30), 851}},
		"level":         {{c(20), 850}, {c(30), 850}},
		"kg/L":          {{c(20), 0.85}, {c(30), 0.84}},
		"NaN":           {{c(20), 850}, {c(30), units.Density(math.NaN())}},
		"no point":      {{units.Temperature{}, 850}, {c(30), 840}},
		"out of range":  {{c(math.NaN()), 850}, {c(30), 840}},
		"too many rows": make([]DensityPoint, mostPoints+1),
	} {
		if f, err := Tabulated(points); err == nil || f != (Fluid{}) {
			t.Errorf("%s: %v, %v", name, f.Describe(), err)
		}
	}
	_, err := Tabulated([]DensityPoint{{c(20), 0.85}, {c(30), 0.84}, {c(10), 840}})
	for _, want := range []string{"row 1", "row 2", "row 3"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("want every fault at once, %s missing: %v", want, err)
		}
	}
}

// TestTabulatedIsACopy: changing the caller's slice afterwards changes nothing.
func TestTabulatedIsACopy(t *testing.T) {
	points := []DensityPoint{{units.Celsius(0), 860}, {units.Celsius(100), 790}}
	f, err := Tabulated(points)
	if err != nil {
		t.Fatal(err)
	}
	points[0].Density = 1
	if got, _ := f.Density(units.Celsius(0)); got != 860 {
		t.Errorf("the caller's slice is still in use: %v", got)
	}
}

// TestTabulatedID: one table loaded twice is one fluid, another is another.
func TestTabulatedID(t *testing.T) {
	a, b := handbookTable(t), handbookTable(t)
	if a.id != b.id {
		t.Errorf("%s, %s", a.id, b.id)
	}
	c, err := Tabulated([]DensityPoint{{units.Celsius(0), 860}, {units.Celsius(100), 790}})
	if err != nil || c.id == a.id {
		t.Errorf("%s, %v", c.id, err)
	}
}

// A table of nothing but faults, up to the most rows, gives a message one can read.
func TestTabulatedTellsTenFaults(t *testing.T) {
	_, err := Tabulated(make([]DensityPoint, mostPoints))
	if err == nil || strings.Count(err.Error(), "row ") != mostTold || !strings.HasSuffix(err.Error(), "\nand 1989 more") || len(err.Error()) > 2000 {
		t.Errorf("%.2000v", err)
	}
	_, err = Tabulated(make([]DensityPoint, 5)) // five points and four orders
	if err == nil || strings.Count(err.Error(), "row ") != 9 || strings.Contains(err.Error(), "more") {
		t.Errorf("%v", err)
	}
}

// The name of a table is FNV-1a of its numbers (published: offset basis
// 14695981039346656037, prime 1099511628211, modulo 2^64; from memory), here by
// arithmetic without a modulus of the machine's; another number is another name.
func TestTableDigest(t *testing.T) {
	points := []DensityPoint{{At: units.Celsius(0), Density: 870}, {At: units.Celsius(20), Density: 856.5}, {At: units.Celsius(80), Density: 816}}
	modulus, prime := new(big.Int).Lsh(big.NewInt(1), 64), big.NewInt(1099511628211)
	h := new(big.Int).SetUint64(14695981039346656037)
	mix := func(word int64) {
		h.Xor(h, big.NewInt(word))
		h.Mul(h, prime).Mod(h, modulus)
	}
	for _, p := range points {
		for _, x := range [...]float64{p.At.Kelvin(), float64(p.Density)} {
			bytes := new(big.Int).SetUint64(math.Float64bits(x)).Bytes() // the last byte first
			for i := len(bytes) - 1; i >= 0; i-- {
				mix(int64(bytes[i]))
			}
			mix(0x100)
		}
	}
	table := newTable(points)
	if got, want := table.digest(), h.Text(16); got != want {
		t.Errorf("%s; want %s", got, want)
	}
	names := map[string]bool{table.digest(): true}
	for i := range points {
		for _, by := range []float64{1e-9, 1, -1} {
			other := slices.Clone(points)
			other[i].Density += units.Density(by)
			names[newTable(other).digest()] = true
		}
	}
	if len(names) != 10 {
		t.Errorf("%d names for 10 tables", len(names))
	}
}

package measure_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/meniscus/internal/allocated"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// The reference notes (computed): 41.0 with u 0.5 against u 1.2247: 38.5 scores
// 1.89, 37.0 scores 3.02.
func TestZeta(t *testing.T) {
	a := uncertain(t, "probe", 41, 0.5, measure.Normal, 0)
	for _, c := range []struct {
		b, zeta float64
		ok      bool
	}{{38.5, 1.89, true}, {37.0, 3.02, false}} {
		g, err := measure.Agree(a, uncertain(t, "ir", c.b, math.Sqrt(1.5), measure.Normal, 0))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "zeta", g.Zeta, c.zeta, 0.005)
		if g.Compatible != c.ok {
			t.Errorf("41 and %v: compatible %v", c.b, g.Compatible)
		}
	}
}

// What two readings share cannot explain their difference.
func TestZetaIgnoresSharedDoubt(t *testing.T) {
	probe := measure.ContactProbe{ID: "probe-1", Tolerance: units.CelsiusDegree.Of(5), Resolution: units.CelsiusDegree.Of(0.1)}
	a, _ := probe.For("a").Read(units.Celsius(40))
	b, _ := probe.For("b").Read(units.Celsius(41))
	g, err := measure.Agree(a.Reading(), b.Reading())
	if err != nil || g.Compatible {
		t.Errorf("1 °C apart on one probe with a digit of 0.1 °C: %v, %v", g, err)
	}
}

func TestZetaWithoutDoubt(t *testing.T) {
	if g, _ := measure.Agree(reading(t, 1), reading(t, 1)); g.Zeta != 0 || !g.Compatible {
		t.Errorf("equal exact readings: %v", g)
	}
	if g, _ := measure.Agree(reading(t, 1), reading(t, 2)); g.Zeta != units.Huge || g.Compatible {
		t.Errorf("different exact readings: %v", g)
	}
}

func TestWeightedMean(t *testing.T) {
	a, b := uncertain(t, "a", 10, 1, measure.Normal, 0), uncertain(t, "b", 13, 2, measure.Normal, 0)
	m, err := measure.WeightedMean(a, b)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", m.Value(), (10*4+13*1)/5.0, 1e-12) // weights 1 and 1/4
	near(t, "u", m.U(), 1/math.Sqrt(1+0.25), 1e-15)
	// An exact reading that agrees settles it.
	m, err = measure.WeightedMean(a, reading(t, 10.5))
	if err != nil || m.Value() != 10.5 || m.U() != 0 {
		t.Errorf("with an exact reading: %v, %v", m, err)
	}
	// Two readings of one thing with all doubt shared: averaging gains nothing.
	c := cause(t, "c")
	x := reading(t, 5, measure.Term{Cause: c, Scale: 0.3})
	m, err = measure.WeightedMean(x, x, x)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "u of one reading thrice", m.U(), 0.3, 1e-16)
}

func TestWeightedMeanRefuses(t *testing.T) {
	a, b := uncertain(t, "a", 41, 0.5, measure.Normal, 0), uncertain(t, "b", 37, 1.2, measure.Normal, 0)
	_, err := measure.WeightedMean(a, uncertain(t, "c", 41.2, 0.5, measure.Normal, 0), b)
	if !errors.Is(err, measure.ErrDisagree) || strings.Count(err.Error(), "zeta") != 2 {
		t.Errorf("three readings, one astray: %v", err)
	}
	if _, err := measure.WeightedMean(); err == nil {
		t.Error("no readings were averaged")
	}
	if _, err := measure.WeightedMean(make([]measure.Reading, 2000)...); err == nil {
		t.Error("2000 readings were averaged")
	}
	if _, err := measure.WeightedMean(reading(t, math.MaxFloat64).Times(2)); err == nil {
		t.Error("a reading that is not valid was averaged")
	}
}

func ExampleAgree() {
	probe, _ := measure.NewCause("probe-1/offset", "", measure.Normal, 0)
	ir, _ := measure.NewCause("ir-1/offset", "", measure.Normal, 0)
	a, _ := measure.New(41.0, measure.Term{Cause: probe, Scale: 0.6})
	b, _ := measure.New(39.0, measure.Term{Cause: ir, Scale: 0.8})
	g, _ := measure.Agree(a, b)
	fmt.Println(g) // 2/√(0.6² + 0.8²)
	// Output: compatible (zeta 2)
}

func ExampleAgreement_String() {
	a, _ := measure.Exact(41)
	g, _ := measure.Agree(a, a)
	fmt.Println(g)
	// Output: compatible (zeta 0)
}

func ExampleWeightedMean() {
	probe, _ := measure.NewCause("probe-1/offset", "", measure.Normal, 0)
	ir, _ := measure.NewCause("ir-1/offset", "", measure.Normal, 0)
	a, _ := measure.New(41, measure.Term{Cause: probe, Scale: 0.5})
	b, _ := measure.New(39, measure.Term{Cause: ir, Scale: 1})
	m, _ := measure.WeightedMean(a, b)
	fmt.Println(m) // (4·41 + 1·39)/5, u = 1/√5
	_, err := measure.WeightedMean(a, b.Shift(-4))
	fmt.Println(errors.Is(err, measure.ErrDisagree))
	// Output:
	// 40.60 (u = 0.45)
	// true
}

// By hand: weights 1, 1/4 and 1 over 9/4 make (4·10 + 12 + 4·11)/9.
func TestWeightedMeanOfThree(t *testing.T) {
	m, err := measure.WeightedMean(uncertain(t, "a", 10, 1, measure.Normal, 0), uncertain(t, "b", 12, 2, measure.Normal, 0), uncertain(t, "c", 11, 1, measure.Normal, 0))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", m.Value(), 96/9.0, 1e-14)
	near(t, "u", m.U(), 2/3.0, 1e-15)
}

func TestWeightedMeanNamesEveryFault(t *testing.T) {
	_, err := measure.WeightedMean(reading(t, math.MaxFloat64).Times(2), uncertain(t, "b", 12, 1, measure.Normal, 0), uncertain(t, "c", 20, 1, measure.Normal, 0))
	if err == nil || !errors.Is(err, measure.ErrDisagree) || !strings.Contains(err.Error(), "reading 1: ") || !strings.Contains(err.Error(), "readings 2 (") || !strings.Contains(err.Error(), ") and 3 (") {
		t.Errorf("%v", err)
	}
}

func TestWeightedMeanOfSoMany(t *testing.T) {
	many := make([]measure.Reading, 201)
	for i := range many {
		many[i] = reading(t, 5)
	}
	if m, err := measure.WeightedMean(many[:200]...); err != nil || m.Value() != 5 {
		t.Errorf("200: %v, %v", m, err)
	}
	if _, err := measure.WeightedMean(many...); err == nil || !strings.Contains(err.Error(), "want 1 to 200") {
		t.Errorf("201: %v", err)
	}
}

// What is accepted is cheap, whether the readings agree or not: every pair is
// compared, and none costs a reading of its own.
func TestWeightedMeanIsBounded(t *testing.T) {
	agreeing, astray, shared := make([]measure.Reading, 200), make([]measure.Reading, 200), make([]measure.Reading, 200)
	for i := range agreeing {
		agreeing[i] = severalTerms(t, 5, 20, fmt.Sprintf("r%d/", i))
		astray[i] = severalTerms(t, float64(1000*i), 50, fmt.Sprintf("r%d/", i))
		shared[i] = severalTerms(t, 5, 50, "all/")
	}
	var err error
	if used := allocated.Bytes(func() { _, err = measure.WeightedMean(agreeing...) }); err != nil || used > 4<<20 {
		t.Errorf("200 readings of 20 causes: %d bytes, %v", used, err)
	}
	if used := allocated.Bytes(func() { _, err = measure.WeightedMean(shared...) }); err != nil || used > 1<<20 {
		t.Errorf("200 readings of the same 50 causes: %d bytes, %v", used, err)
	}
	used := allocated.Bytes(func() { _, err = measure.WeightedMean(astray...) })
	if !errors.Is(err, measure.ErrDisagree) || used > 1<<20 || len(err.Error()) > 4000 || !strings.HasSuffix(err.Error(), "\nand 19890 more") {
		t.Errorf("200 readings astray: %d bytes, %.4000v", used, err)
	}
	more := append(astray[:199:199], severalTerms(t, 5, 51, "one/"))
	if _, err := measure.WeightedMean(more...); err == nil || !strings.Contains(err.Error(), "10001 terms together; want at most 10000") {
		t.Errorf("10001 terms: %v", err)
	}
}

// Only the first ten faults are told, but what a caller branches on is not lost.
func TestWeightedMeanKeepsWhatItDoesNotTell(t *testing.T) {
	var readings []measure.Reading
	for range 11 {
		readings = append(readings, reading(t, math.MaxFloat64).Times(2))
	}
	readings = append(readings, reading(t, 1), reading(t, 2))
	_, err := measure.WeightedMean(readings...)
	if !errors.Is(err, measure.ErrDisagree) || !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), "and 2 more") {
		t.Errorf("%v", err)
	}
}

// Against the slow way: readings that share causes are averaged where every pair
// agrees, and only there.
func TestWeightedMeanAgreesWithAgree(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 6))
	causes := make([]*measure.Cause, 12)
	for i := range causes {
		causes[i] = cause(t, fmt.Sprint("c", i))
	}
	taken, refused := 0, 0
	for range 2000 {
		a, b := randomReading(t, rng, causes), randomReading(t, rng, causes)
		g, err := measure.Agree(a, b)
		if err != nil {
			t.Fatal(err)
		}
		_, err = measure.WeightedMean(a, b)
		if (err == nil) != g.Compatible || err != nil && !strings.Contains(err.Error(), fmt.Sprintf("zeta %.3g", g.Zeta)) {
			t.Fatalf("%v and %v: %v, %v", a, b, g, err)
		}
		if err == nil {
			taken++
		} else {
			refused++
		}
	}
	if taken < 200 || refused < 200 {
		t.Errorf("%d taken and %d refused say little", taken, refused)
	}
}

func randomReading(tb testing.TB, rng *rand.Rand, causes []*measure.Cause) measure.Reading {
	var terms []measure.Term
	for _, c := range causes {
		if rng.IntN(2) == 0 {
			terms = append(terms, measure.Term{Cause: c, Scale: float64(rng.IntN(5)-2) / 4}) // often equal, so that some cancel
		}
	}
	return reading(tb, float64(rng.IntN(9)), terms...)
}

// severalTerms has n causes of 0.1 each.
func severalTerms(tb testing.TB, x float64, n int, prefix string) measure.Reading {
	tb.Helper()
	terms := make([]measure.Term, n)
	for i := range terms {
		terms[i] = measure.Term{Cause: cause(tb, prefix+fmt.Sprint(i)), Scale: 0.1}
	}
	return reading(tb, x, terms...)
}

// What no call of ours gives, written into a struct by hand, is not printed as a number.
func TestAgreementByHand(t *testing.T) {
	for _, z := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1} {
		if got := (measure.Agreement{Zeta: z, Compatible: true}).String(); got != "not valid" {
			t.Errorf("%v: %s", z, got)
		}
	}
	if got := (measure.Agreement{Zeta: units.Huge}).String(); got != "incompatible (zeta 1.8e+308)" {
		t.Errorf("huge: %s", got)
	}
}

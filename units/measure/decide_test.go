package measure_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func decide(tb testing.TB, l measure.Limits, r measure.Reading, risk float64) measure.Decision {
	tb.Helper()
	d, err := measure.Decide(l, r, risk)
	if err != nil {
		tb.Fatal(err)
	}
	near(tb, "probabilities", d.Inside+d.Below+d.Above, 1, 1e-12)
	return d
}

// JCGM 106:2012 7.3 Table 1: with one limit, a conformance probability p_c needs
// the value z·u inside it.
func TestJCGM106Table1(t *testing.T) {
	rows := published.Load(t, "uncertainty_vectors").Where("id", "106-T1")
	for _, row := range rows {
		pc, err := strconv.ParseFloat(strings.TrimPrefix(row.Text("inputs"), "p_c="), 64)
		if err != nil {
			t.Fatal(err)
		}
		r := uncertain(t, "a", 50, 2, measure.Normal, 0)
		d := decide(t, measure.AtLeast(40), r, 1-pc)
		z := (d.AcceptLow - 40) / 2
		near(t, row.Text("inputs"), z, row.Float("published"), row.Float("tolerance"))
		near(t, row.Text("inputs")+" recomputed", z, row.Float("recomputed"), 1e-12)
		d = decide(t, measure.AtMost(60), r, 1-pc)
		near(t, row.Text("inputs")+" above", (60-d.AcceptHigh)/2, row.Float("recomputed"), 1e-12)
	}
}

// ILAC-G8:09/2019: guard band U = 2u leaves less than 2.5 % false acceptance,
// 1.645 u leaves 5 %.
func TestILACG8(t *testing.T) {
	for _, row := range published.Load(t, "uncertainty_vectors").Rows() {
		if !strings.HasPrefix(row.Text("id"), "ILAC-G8") {
			continue
		}
		guard := map[string]float64{"A=TL-2u, y=A": 2, "A=TL-1.645u": 1.645}[row.Text("inputs")]
		d := decide(t, measure.AtMost(10), uncertain(t, "a", 10-guard, 1, measure.Normal, 0), 0.05)
		near(t, row.Text("inputs"), d.Above, row.Float("recomputed"), 1e-12)
		if guard == 2 && !(d.Above < 0.025) {
			t.Errorf("P = %v, published as below 2.5 %%", d.Above)
		}
	}
}

// 97-115 °F at 5 % risk (computed in the reference notes): 100.4-111.6 °F with a
// ± 2 °C infrared reading, 98.7-113.3 °F with a ± 1 °C probe.
func TestWindowWithTwoThermometers(t *testing.T) {
	window := measure.Between(units.Fahrenheit(97).Kelvin(), units.Fahrenheit(115).Kelvin())
	fahrenheit := func(k float64) float64 { return k*1.8 - 459.67 }
	for _, c := range []struct {
		name      string
		with      measure.Thermometer
		low, high float64
	}{
		{"infrared", infrared(), 100.4, 111.6},
		{"probe", measure.ContactProbe{ID: "probe-1", Tolerance: units.CelsiusDegree.Of(1)}, 98.7, 113.3},
	} {
		at, err := c.with.Read(units.Fahrenheit(106))
		if err != nil {
			t.Fatal(err)
		}
		d := decide(t, window, at.Reading(), 0.05)
		near(t, c.name+" low", fahrenheit(d.AcceptLow), c.low, 0.05)
		near(t, c.name+" high", fahrenheit(d.AcceptHigh), c.high, 0.05)
		if d.Verdict != measure.Inside {
			t.Errorf("%s at 106 °F: %v", c.name, d.Verdict)
		}
	}
}

func TestVerdicts(t *testing.T) {
	for _, c := range []struct {
		value, u, risk float64
		want           measure.Verdict
	}{
		{50, 1, 0.05, measure.Inside}, {40, 1, 0.05, measure.Undecided}, {60, 1, 0.05, measure.Undecided},
		{30, 1, 0.05, measure.Below}, {70, 1, 0.05, measure.Above}, {50, 1000, 0.05, measure.Undecided},
		{41.7, 1, 0.05, measure.Inside}, {41.6, 1, 0.05, measure.Undecided}, {41.6, 1, 0.1, measure.Inside},
		{38.3, 1, 0.05, measure.Below}, {38.4, 1, 0.05, measure.Undecided}, {61.7, 1, 0.05, measure.Above},
		{40, 0, 0.05, measure.Inside}, {60, 0, 0.05, measure.Inside}, {39.999, 0, 0.05, measure.Below}, {60.001, 0, 0.05, measure.Above},
	} {
		r := uncertain(t, "a", c.value, c.u, measure.Normal, 0)
		if d := decide(t, measure.Between(40, 60), r, c.risk); d.Verdict != c.want {
			t.Errorf("%v ± %v at risk %v: %v, want %v (%+v)", c.value, c.u, c.risk, d.Verdict, c.want, d)
		}
	}
}

// The ends of acceptance are where the verdict changes, for every shape.
func TestAcceptanceIsTheEdge(t *testing.T) {
	for _, s := range []measure.Shape{measure.Normal, measure.Rectangular, measure.Triangular, measure.Student} {
		at := func(x float64) measure.Decision {
			d, err := measure.DecideOn(measure.Between(40, 60), curve(t, uncertain(t, "a", x, 3, measure.Normal, 4), s), 0.05)
			if err != nil {
				t.Fatal(err)
			}
			return d
		}
		d := at(50)
		if !d.CanAccept || d.AcceptLow <= 40 || d.AcceptHigh >= 60 {
			t.Fatalf("%v: %+v", s, d)
		}
		for _, e := range []struct {
			x    float64
			want measure.Verdict
		}{
			{d.AcceptLow + 1e-9, measure.Inside}, {d.AcceptLow - 1e-9, measure.Undecided},
			{d.AcceptHigh - 1e-9, measure.Inside}, {d.AcceptHigh + 1e-9, measure.Undecided},
		} {
			if got := at(e.x).Verdict; got != e.want {
				t.Errorf("%v at %v: %v, want %v", s, e.x, got, e.want)
			}
		}
	}
	d := decide(t, measure.Between(40, 60), uncertain(t, "a", 50, 0, measure.Normal, 0), 0.05)
	near(t, "no doubt low", d.AcceptLow, 40, 0)
	near(t, "no doubt high", d.AcceptHigh, 60, 0)
	if d := decide(t, measure.Between(40, 60), uncertain(t, "a", 50, 20, measure.Normal, 0), 0.05); d.CanAccept {
		t.Errorf("doubt of twice the window can accept: %+v", d)
	}
}

func TestDecideRefuses(t *testing.T) {
	r := uncertain(t, "a", 50, 1, measure.Normal, 0)
	good := measure.Between(40, 60)
	for _, risk := range []float64{0, 0.5, -0.1, 1, math.NaN(), math.Inf(1)} {
		if d, err := measure.Decide(good, r, risk); err == nil || d.Verdict != measure.Undecided {
			t.Errorf("risk %v: %v, %v", risk, d.Verdict, err)
		}
	}
	for name, l := range map[string]measure.Limits{
		"upside down": measure.Between(60, 40), "NaN": measure.AtLeast(math.NaN()), "infinite": measure.AtMost(math.Inf(1)),
		"none": {NoLow: true, NoHigh: true},
	} {
		if _, err := measure.Decide(l, r, 0.05); err == nil {
			t.Errorf("limits %s were taken", name)
		}
	}
	if _, err := measure.Decide(good, reading(t, math.MaxFloat64).Times(2), 0.05); err == nil {
		t.Error("a reading that is not valid was taken")
	}
	if _, err := measure.DecideOn(good, nil, 0.05); err == nil {
		t.Error("no distribution was taken")
	}
}

func ExampleDecide() {
	probe := measure.ContactProbe{ID: "probe-1", Tolerance: units.CelsiusDegree.Of(1)}
	window := measure.Between(units.Celsius(36).Kelvin(), units.Celsius(46).Kelvin())
	for _, t := range []float64{41, 36.5, 34} {
		at, _ := probe.Read(units.Celsius(t))
		d, _ := measure.Decide(window, at.Reading(), 0.05)
		fmt.Printf("%v °C: %v, %.1f %% inside\n", t, d.Verdict, 100*d.Inside)
	}
	// Output:
	// 41 °C: inside, 100.0 % inside
	// 36.5 °C: undecided, 80.7 % inside
	// 34 °C: below, 0.0 % inside
}

func ExampleDecideOn() {
	a, _ := measure.NewCause("ir-1/offset", "", measure.Rectangular, 0)
	r, _ := measure.New(37.5, measure.Term{Cause: a, Scale: 2 / math.Sqrt(3)})
	c, _ := measure.NewCurve(r, measure.Rectangular) // 35.5 to 39.5, nothing likelier than the rest
	d, _ := measure.DecideOn(measure.AtLeast(36), c, 0.05)
	fmt.Printf("%v: %.3f below, accepts from %.1f\n", d.Verdict, d.Below, d.AcceptLow)
	// Output: undecided: 0.125 below, accepts from 37.8
}

func ExampleBetween() {
	r, _ := measure.Exact(50)
	d, _ := measure.Decide(measure.Between(40, 60), r, 0.05)
	fmt.Println(d.Verdict)
	// Output: inside
}

func ExampleAtLeast() {
	r, _ := measure.Exact(50)
	d, _ := measure.Decide(measure.AtLeast(60), r, 0.05)
	fmt.Println(d.Verdict)
	// Output: below
}

func ExampleAtMost() {
	r, _ := measure.Exact(50)
	d, _ := measure.Decide(measure.AtMost(40), r, 0.05)
	fmt.Println(d.Verdict)
	// Output: above
}

// crooked is a distribution whose function leaves 0 to 1.
type crooked float64

func (c crooked) CDF(float64) float64               { return float64(c) }
func (c crooked) Quantile(float64) (float64, error) { return 50, nil }

func TestDecideRefusesAFunctionThatIsNone(t *testing.T) {
	for _, c := range []crooked{1.5, -0.5, crooked(math.NaN())} {
		if d, err := measure.DecideOn(measure.Limits{Low: 40, High: 60}, c, 0.05); err == nil {
			t.Errorf("distribution function of %v everywhere: %+v", float64(c), d)
		}
	}
}

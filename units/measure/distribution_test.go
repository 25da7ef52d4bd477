package measure_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/units/measure"
)

func curve(tb testing.TB, r measure.Reading, s measure.Shape) measure.Curve {
	tb.Helper()
	c, err := measure.NewCurve(r, s)
	if err != nil {
		tb.Fatal(err)
	}
	return c
}

// The quantile function undoes the CDF, and the standard deviation found by
// integrating it is the reading's.
func TestCurves(t *testing.T) {
	for _, s := range []measure.Shape{measure.Normal, measure.Rectangular, measure.Triangular, measure.Student} {
		c := curve(t, uncertain(t, "a", 3, 0.7, measure.Normal, 30), s)
		sum, square := 0.0, 0.0
		const n = 20_000
		for i := range n {
			p := (float64(i) + 0.5) / n
			x, err := c.Quantile(p)
			if err != nil {
				t.Fatal(err)
			}
			near(t, fmt.Sprint(s, " CDF at its quantile"), c.CDF(x), p, 1e-13)
			sum += x / n
			square += (x - 3) * (x - 3) / n
		}
		want := 0.7
		if s == measure.Student {
			want *= math.Sqrt(30.0 / 28) // the variance of t is ν/(ν-2)
		}
		near(t, fmt.Sprint(s, " mean"), sum, 3, 1e-10)
		near(t, fmt.Sprint(s, " deviation"), math.Sqrt(square), want, 2e-4)
	}
}

// Limits of a rectangle and a triangle: mean ± u√3, mean ± u√6.
func TestCurveEnds(t *testing.T) {
	r := uncertain(t, "a", 0, 1, measure.Normal, 0)
	near(t, "rectangle", curve(t, r, measure.Rectangular).CDF(math.Sqrt(3)), 1, 1e-15)
	near(t, "rectangle beyond", curve(t, r, measure.Rectangular).CDF(2), 1, 0)
	near(t, "triangle", curve(t, r, measure.Triangular).CDF(-2.45), 0, 0)
	near(t, "triangle beyond", curve(t, r, measure.Triangular).CDF(2.45), 1, 0)
	near(t, "NaN", curve(t, r, measure.Normal).CDF(math.NaN()), 0, 0)
	exact := curve(t, reading(t, 5), measure.Normal)
	near(t, "exact below", exact.CDF(4.999), 0, 0)
	near(t, "exact at", exact.CDF(5), 1, 0)
	x, err := exact.Quantile(0.01)
	if near(t, "exact quantile", x, 5, 0); err != nil {
		t.Error(err)
	}
}

func TestCurveRefuses(t *testing.T) {
	for _, s := range []measure.Shape{measure.Arcsine, measure.Tabled, 99} {
		if _, err := measure.NewCurve(reading(t, 1), s); err == nil {
			t.Errorf("shape %v was taken", s)
		}
	}
	if _, err := measure.NewCurve(reading(t, math.MaxFloat64).Times(2), measure.Normal); err == nil {
		t.Error("a reading that is not valid was taken")
	}
	for _, p := range []float64{0, 1, -1, math.NaN()} {
		if _, err := (measure.Curve{}).Quantile(p); err == nil {
			t.Errorf("Quantile(%v) was taken", p)
		}
	}
}

func ExampleNewCurve() {
	a, _ := measure.NewCause("ir-1/offset", "", measure.Rectangular, 0)
	r, _ := measure.New(41, measure.Term{Cause: a, Scale: 2 / math.Sqrt(3)}) // ± 2 °C
	c, _ := measure.NewCurve(r, measure.Rectangular)
	q, _ := c.Quantile(0.975)
	fmt.Printf("%.2f\n", q) // 41 + 0.95·2
	// Output: 42.90
}

func ExampleCurve_CDF() {
	a, _ := measure.NewCause("a", "", measure.Normal, 0)
	r, _ := measure.New(41, measure.Term{Cause: a, Scale: 0.5})
	c, _ := measure.NewCurve(r, measure.Normal)
	fmt.Printf("%.4f %.4f\n", c.CDF(41), c.CDF(42)) // Φ(0), Φ(2)
	// Output: 0.5000 0.9772
}

func ExampleCurve_Quantile() {
	a, _ := measure.NewCause("a", "", measure.Normal, 0)
	r, _ := measure.New(41, measure.Term{Cause: a, Scale: 0.5})
	c, _ := measure.NewCurve(r, measure.Normal)
	q, _ := c.Quantile(0.975)
	fmt.Printf("%.2f\n", q) // 41 + 1.96·0.5
	// Output: 41.98
}

package measure_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func cause(tb testing.TB, id string) *measure.Cause {
	tb.Helper()
	c, err := measure.NewCause(id, "", measure.Normal, 0)
	if err != nil {
		tb.Fatal(err)
	}
	return c
}

func reading(tb testing.TB, x float64, terms ...measure.Term) measure.Reading {
	tb.Helper()
	r, err := measure.New(x, terms...)
	if err != nil {
		tb.Fatal(err)
	}
	return r
}

func near(tb testing.TB, what string, got, want, within float64) {
	tb.Helper()
	if !(math.Abs(got-want) <= within) {
		tb.Errorf("%s = %v, want %v within %v", what, got, want, within)
	}
}

// A shared cause adds with its sign; JCGM 100:2008 5.2.2 at r = ±1.
func TestSharedCause(t *testing.T) {
	a := cause(t, "a")
	x, y := reading(t, 5, measure.Term{Cause: a, Scale: 0.3}), reading(t, 2, measure.Term{Cause: a, Scale: 0.1})
	near(t, "u(x+y)", x.Plus(y).U(), 0.4, 1e-15)
	near(t, "u(x-y)", x.Minus(y).U(), 0.2, 1e-15)
	if d := x.Minus(x); d.U() != 0 || len(d.Terms()) != 0 || d.Value() != 0 {
		t.Errorf("x - x = %v with %v, want exactly 0", d.Value(), d.Terms())
	}
}

// Independent causes: root sum of squares, JCGM 100:2008 5.1.2; 3-4-5 by hand.
func TestIndependentCauses(t *testing.T) {
	x := reading(t, 1, measure.Term{Cause: cause(t, "a"), Scale: 3})
	y := reading(t, 1, measure.Term{Cause: cause(t, "b"), Scale: -4})
	near(t, "u(x+y)", x.Plus(y).U(), 5, 0)
	near(t, "u(x-y)", x.Minus(y).U(), 5, 0)
	near(t, "u(2x)", x.Times(2).U(), 6, 0)
}

// Causes read back from storage are other pointers with the same id.
func TestEqualIDIsSameCause(t *testing.T) {
	x := reading(t, 1, measure.Term{Cause: cause(t, "a"), Scale: 3})
	y := reading(t, 1, measure.Term{Cause: cause(t, "a"), Scale: 3})
	near(t, "u(x-y)", x.Minus(y).U(), 0, 0)
}

func TestTwoMeaningsOfOneID(t *testing.T) {
	c, err := measure.NewCause("a", "", measure.Rectangular, 0)
	if err != nil {
		t.Fatal(err)
	}
	x := reading(t, 1, measure.Term{Cause: cause(t, "a"), Scale: 3})
	y := reading(t, 1, measure.Term{Cause: c, Scale: 3})
	sum := x.Plus(y).Times(2)
	if sum.Valid() || !errors.Is(sum.Err(), measure.ErrTwoMeanings) || sum.U() != units.Huge || sum.Value() != units.Huge {
		t.Errorf("sum of two meanings: valid %v, err %v, u %v", sum.Valid(), sum.Err(), sum.U())
	}
}

func TestBadInputIsRefused(t *testing.T) {
	a := cause(t, "a")
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if _, err := measure.Exact(x); err == nil {
			t.Errorf("Exact(%v) took it", x)
		}
		if _, err := measure.New(1, measure.Term{Cause: a, Scale: x}); err == nil {
			t.Errorf("New with scale %v took it", x)
		}
		if r := reading(t, 1, measure.Term{Cause: a, Scale: 1}).Times(x); r.Valid() {
			t.Errorf("Times(%v) is valid", x)
		}
		if r := reading(t, 0).Times(x); r.Valid() {
			t.Errorf("0.Times(%v) is valid", x)
		}
	}
	if _, err := measure.New(1, measure.Term{Scale: 1}, measure.Term{Cause: &measure.Cause{}, Scale: 1}); err == nil {
		t.Error("a term without a cause was taken")
	}
}

func TestOverflowIsSticky(t *testing.T) {
	big := reading(t, math.MaxFloat64, measure.Term{Cause: cause(t, "a"), Scale: math.MaxFloat64})
	over := big.Plus(big)
	if over.Valid() || !errors.Is(over.Err(), units.ErrOutOfRange) || over.Minus(big).Valid() {
		t.Errorf("overflow: valid %v, err %v", over.Valid(), over.Err())
	}
	near(t, "u at the edge", big.U(), math.MaxFloat64, 0)
	tiny := reading(t, 0, measure.Term{Cause: cause(t, "a"), Scale: 3e-300}, measure.Term{Cause: cause(t, "b"), Scale: 4e-300})
	near(t, "u of tiny scales", tiny.U()*1e300, 5, 1e-14)
}

func ExampleReading_Minus() {
	scale, _ := measure.NewCause("jug-a/scale", "jug A: scale", measure.Rectangular, 0)
	drained, _ := measure.New(2.4, measure.Term{Cause: scale, Scale: 0.014})
	refilled, _ := measure.New(2.4, measure.Term{Cause: scale, Scale: 0.014})
	balance := refilled.Minus(drained)
	fmt.Printf("%.3f L, u = %.3f L", balance.Value(), balance.U())
	// Output: 0.000 L, u = 0.000 L
}

func ExampleExact() {
	r, err := measure.Exact(2.4)
	fmt.Println(r, err)
	// Output: 2.4 <nil>
}

func ExampleNew() {
	scale, _ := measure.NewCause("jug-a/scale", "", measure.Rectangular, 0)
	line, _ := measure.NewCause("jug-a/reading/drain-1", "", measure.Rectangular, 0)
	r, _ := measure.New(2.4, measure.Term{Cause: scale, Scale: 0.012}, measure.Term{Cause: line, Scale: 0.016})
	fmt.Println(r) // √(0.012² + 0.016²)
	// Output: 2.400 (u = 0.020)
}

func ExampleReading_Value() {
	r, _ := measure.Exact(2.4)
	fmt.Println(r.Value())
	// Output: 2.4
}

func ExampleReading_U() {
	a, _ := measure.NewCause("a", "", measure.Normal, 0)
	b, _ := measure.NewCause("b", "", measure.Normal, 0)
	r, _ := measure.New(0, measure.Term{Cause: a, Scale: 3}, measure.Term{Cause: b, Scale: -4})
	fmt.Println(r.U())
	// Output: 5
}

func ExampleReading_Terms() {
	a, _ := measure.NewCause("a", "", measure.Normal, 0)
	b, _ := measure.NewCause("b", "", measure.Normal, 0)
	r, _ := measure.New(0, measure.Term{Cause: b, Scale: 1}, measure.Term{Cause: a, Scale: 3}, measure.Term{Cause: b, Scale: 1})
	for _, t := range r.Terms() {
		fmt.Println(t.Cause.ID(), t.Scale)
	}
	// Output:
	// a 3
	// b 2
}

func ExampleReading_Valid() {
	r, _ := measure.Exact(1e308)
	fmt.Println(r.Valid(), r.Times(10).Valid())
	// Output: true false
}

func ExampleReading_Err() {
	r, _ := measure.Exact(1e308)
	fmt.Println(r.Times(10).Err())
	// Output: measure: a reading is out of range; want every value and scale finite and within the range of its unit
}

func ExampleReading_Plus() {
	a, _ := measure.NewCause("a", "", measure.Normal, 0)
	x, _ := measure.New(2, measure.Term{Cause: a, Scale: 0.3})
	fmt.Println(x.Plus(x)) // one cause twice: not √2 but 2 times
	// Output: 4.00 (u = 0.60)
}

func ExampleReading_Times() {
	a, _ := measure.NewCause("a", "", measure.Normal, 0)
	x, _ := measure.New(2, measure.Term{Cause: a, Scale: 0.3})
	fmt.Println(x.Times(-2))
	// Output: -4.00 (u = 0.60)
}

func ExampleReading_Shift() {
	a, _ := measure.NewCause("a", "", measure.Normal, 0)
	x, _ := measure.New(2, measure.Term{Cause: a, Scale: 0.3})
	fmt.Println(x.Shift(10))
	// Output: 12.00 (u = 0.30)
}

package measure_test

import (
	"fmt"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// The terms are in the base unit whatever unit the best estimate was made in.
func TestMeasuredBaseUnits(t *testing.T) {
	a := measure.Term{Cause: cause(t, "a"), Scale: 0.25}
	v, err := measure.NewMeasured(units.Millilitre.Of(1500), a)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "litres", v.Reading().Value(), 1.5, 0)
	if v.U() != units.Millilitre.Of(250) {
		t.Errorf("u = %v, want 250 mL", v.U())
	}
	m, _ := measure.NewMeasured(units.Gram.Of(1500), a)
	near(t, "kilograms", m.Reading().Value(), 1.5, 0)
	l, _ := measure.NewMeasured(units.Millimetre.Of(1500), a)
	near(t, "metres", l.Reading().Value(), 1.5, 0)
	q, _ := measure.NewMeasured(units.NewtonMetre.Of(1.5), a)
	near(t, "newton metres", q.Reading().Value(), 1.5, 0)
	d, _ := measure.NewMeasured(units.Kilometre.Of(1.5), a)
	near(t, "kilometres", d.Reading().Value(), 1.5, 0)
	k, _ := measure.NewMeasured(units.FahrenheitDegree.Of(9), a)
	near(t, "kelvin", k.Reading().Value(), 5, 0)
}

func TestMeasuredOutOfRange(t *testing.T) {
	bad := units.Litre.Of(1e9)
	if _, err := measure.NewMeasured(bad); err == nil {
		t.Error("NewMeasured took an out-of-range volume")
	}
	m := measure.MeasuredExactly(bad)
	if m.Valid() || m.Err() == nil || m.Best().Valid() || m.U().Valid() || m.Reading().Valid() || m.Add(measure.Volume{}).Valid() {
		t.Error("an out-of-range volume passes as valid")
	}
	big := measure.MeasuredExactly(units.Litre.Of(9e4))
	if big.Add(big).Valid() || big.Scale(2).Valid() {
		t.Error("past the range is valid")
	}
}

func ExampleMeasured_Sub() {
	scale, _ := measure.NewCause("jug-a/scale", "jug A: scale", measure.Rectangular, 0)
	out, _ := measure.NewMeasured(units.Litre.Of(2.40), measure.Term{Cause: scale, Scale: 0.012})
	in, _ := measure.NewMeasured(units.Litre.Of(2.30), measure.Term{Cause: scale, Scale: 0.0115})
	d := in.Sub(out)
	fmt.Println(d.Best(), "u =", d.U())
	// Output: -0.1 L u = 0.0005 L
}

func ExampleMeasuredExactly() {
	m := measure.MeasuredExactly(units.Litre.Of(2.4))
	fmt.Println(m, m.U())
	// Output: 2.4 L 0 L
}

func ExampleNewMeasured() {
	a, _ := measure.NewCause("jug-a/scale", "", measure.Rectangular, 0)
	m, _ := measure.NewMeasured(units.USQuart.Of(2), measure.Term{Cause: a, Scale: 0.012}) // litres
	fmt.Println(m)
	// Output: 1.893 L (u = 0.012 L)
}

func ExampleMeasuredFrom() {
	r, _ := measure.Exact(2.4)
	v, err := measure.MeasuredFrom[units.VolumeDim](r)
	fmt.Println(v.Best() == units.Millilitre.Of(2400), err)
	// Output: true <nil>
}

func ExampleMeasured_Best() {
	fmt.Println(measure.MeasuredExactly(units.Gram.Of(2060)).Best())
	// Output: 2060 g
}

func ExampleMeasured_Reading() {
	fmt.Println(measure.MeasuredExactly(units.Gram.Of(2060)).Reading().Value()) // kilograms
	// Output: 2.06
}

func ExampleMeasured_U() {
	a, _ := measure.NewCause("scale-1/gain", "", measure.Normal, 0)
	m, _ := measure.NewMeasured(units.Gram.Of(2060), measure.Term{Cause: a, Scale: 0.002})
	fmt.Println(m.U())
	// Output: 2 g
}

func ExampleMeasured_Valid() {
	m := measure.MeasuredExactly(units.Litre.Of(9e4))
	fmt.Println(m.Valid(), m.Add(m).Valid())
	// Output: true false
}

func ExampleMeasured_Err() {
	m := measure.MeasuredExactly(units.Litre.Of(9e4))
	fmt.Println(m.Err(), m.Add(m).Err() != nil)
	// Output: <nil> true
}

func ExampleMeasured_Add() {
	scale, _ := measure.NewCause("jug-a/scale", "", measure.Rectangular, 0)
	a, _ := measure.NewMeasured(units.Litre.Of(2), measure.Term{Cause: scale, Scale: 0.010})
	b, _ := measure.NewMeasured(units.Litre.Of(1), measure.Term{Cause: scale, Scale: 0.005})
	fmt.Println(a.Add(b)) // one jug: 10 mL + 5 mL
	// Output: 3.000 L (u = 0.015 L)
}

func ExampleMeasured_Scale() {
	a, _ := measure.NewCause("a", "", measure.Normal, 0)
	m, _ := measure.NewMeasured(units.Litre.Of(2), measure.Term{Cause: a, Scale: 0.010})
	fmt.Println(m.Scale(5))
	// Output: 10.000 L (u = 0.050 L)
}

package units

import (
	"math"
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

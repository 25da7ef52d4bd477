package units

import "testing"

func TestParseRange(t *testing.T) {
	for _, c := range []struct {
		in        string
		low, high Volume
	}{
		{"9.6..10.4 L", Litre.Of(9.6), Litre.Of(10.4)},
		{"9.6 .. 10.4 L", Litre.Of(9.6), Litre.Of(10.4)},
		{"9.6 L..10.4 L", Litre.Of(9.6), Litre.Of(10.4)},
		{"12 to 15 qt", USQuart.Of(12), USQuart.Of(15)},
		{"12 qt to 15 qt", USQuart.Of(12), USQuart.Of(15)},
		{"12 qt to 15 L", USQuart.Of(12), Litre.Of(15)},
		{"12-15 qt", USQuart.Of(12), USQuart.Of(15)},
		{"12 - 15 qt", USQuart.Of(12), USQuart.Of(15)},
		{"12–15 qt", USQuart.Of(12), USQuart.Of(15)},
		{"2½-3 qt", USQuart.Of(2.5), USQuart.Of(3)},
		{"2-2½ qt", USQuart.Of(2), USQuart.Of(2.5)},
		{"¼-½ qt", USQuart.Of(0.25), USQuart.Of(0.5)},
		{"2 litre-3 litre", Litre.Of(2), Litre.Of(3)},
		{"1/4-1/2 qt", USQuart.Of(0.25), USQuart.Of(0.5)},
		{"2 1/4 to 2 1/2 qt", USQuart.Of(2.25), USQuart.Of(2.5)},
		{"-2 to 5 mL", Millilitre.Of(-2), Millilitre.Of(5)},
		{"1e-3-2e-3 L", Millilitre.Of(1), Millilitre.Of(2)},
		{"2,000 to 2,500 mL", Litre.Of(2), Litre.Of(2.5)},
		{"10 L", Litre.Of(10), Litre.Of(10)},
	} {
		got, err := ParseRange[VolumeDim](c.in)
		if err != nil || got.Low() != c.low || got.High() != c.high {
			t.Errorf("ParseRange(%q) = %v, %v; want %v to %v", c.in, got, err, c.low, c.high)
		}
	}
	r, err := ParseRange[TorqueDim]("22-26 ft-lb")
	if err != nil || r.Low() != PoundForceFoot.Of(22) || r.High() != PoundForceFoot.Of(26) {
		t.Errorf("22-26 ft-lb = %v, %v", r, err)
	}
	low, high, err := ParseTemperatureRange("35 to 45 °C")
	if err != nil || low != Celsius(35) || high != Celsius(45) {
		t.Errorf("35 to 45 °C = %v, %v, %v", low, high, err)
	}
	for _, s := range []string{"40 °C", "40 to 40 °C", "104 °F..40 °C"} {
		if low, high, err := ParseTemperatureRange(s); err != nil || low != Celsius(40) || high != low {
			t.Errorf("%s = %v, %v, %v", s, low, high, err)
		}
	}
	if _, err := ParseExplicitRange[VolumeDim]("12 to 15 qt"); err == nil {
		t.Error("an explicit range takes a bare qt")
	}
}

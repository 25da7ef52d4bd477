package units

import (
	"encoding/json"
	"errors"
	"testing"
	"unicode/utf8"
)

// What every parser promises: no panic, a *ParseError with at most 40 bytes of
// echo, and that what is accepted prints as something that reads back the same.

func seeds(f *testing.F, more ...string) {
	for _, s := range append(more,
		"2.5 qt", "2½ qt", "2 1/2 qt", "1/3 US qt", "-0.5e-3 L", "2,500 mL", "1,234,567.5 mL", "\u22122\u00a0L", "97 °F", "36½ ℃", "26 lbf·ft", "26 ft-lb", "35Nm",
		"9.6..10.4 L", "12 to 15 qt", "12-15 qt", "2-1/2 qt", "35 to 45 °C", "867.5 kg/m³", "7.2 lb/US gal", "", "2 QT", "２ qt", "2\u202e qt", "1e18 L", "0 K") {
		f.Add(s)
	}
}

func checkError(t *testing.T, s string, err error) {
	t.Helper()
	var pe *ParseError
	if !errors.As(err, &pe) {
		t.Fatalf("%q: %T is not a *ParseError", s, err)
	}
	if len(pe.Input) > mostEcho || len(pe.Token) > mostEcho || pe.Reason == "" || pe.Accepted == "" {
		t.Fatalf("%q: %#v", s, pe)
	}
	if !utf8.ValidString(err.Error()) {
		t.Fatalf("%q: the message is not UTF-8: %q", s, err)
	}
}

func fuzzQuantity[D Dimension](t *testing.T, s string) {
	t.Helper()
	q, err := Parse[D](s)
	explicit, explicitErr := ParseExplicit[D](s)
	if explicitErr == nil && (err != nil || explicit != q) {
		t.Fatalf("%q: explicit %v, else %v, %v", s, explicit, q, err)
	}
	if err != nil {
		checkError(t, s, err)
		return
	}
	if back, err := Parse[D](q.String()); err != nil || back != q {
		t.Fatalf("%q is %v and reads back %v, %v", s, q, back, err)
	}
}

func FuzzParseVolume(f *testing.F) {
	seeds(f)
	f.Fuzz(fuzzQuantity[VolumeDim])
}

func FuzzParseTorque(f *testing.F) {
	seeds(f, "312 in·lbf", "3.5 kgf.m", "35 N m")
	f.Fuzz(fuzzQuantity[TorqueDim])
}

func FuzzParseLength(f *testing.F) {
	seeds(f, "18.2 mm", "1/2 in", "1 1/2\"", "0.5 m")
	f.Fuzz(fuzzQuantity[LengthDim])
}

func FuzzParseMass(f *testing.F) {
	seeds(f, "2150 g", "2.15 kg", "4 lb", "12½ oz")
	f.Fuzz(fuzzQuantity[MassDim])
}

func FuzzParseDistance(f *testing.F) {
	seeds(f, "48000 km", "30,000 mi", "30 000 km")
	f.Fuzz(fuzzQuantity[DistanceDim])
}

func FuzzParseTemperature(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, s string) {
		fuzzQuantity[TemperatureDeltaDim](t, s)
		p, err := ParseTemperature(s)
		if err != nil {
			checkError(t, s, err)
			return
		}
		if back, err := ParseTemperature(p.String()); err != nil || back != p || !p.Valid() {
			t.Fatalf("%q is %v and reads back %v, %v", s, p, back, err)
		}
	})
}

func FuzzParseRange(f *testing.F) {
	seeds(f, "2..3..4 L", "1e-3-2e-3 L", "1 qt–2 L", "0...5 L")
	f.Fuzz(func(t *testing.T, s string) {
		r, err := ParseRange[VolumeDim](s)
		if err != nil {
			checkError(t, s, err)
			return
		}
		if back, err := ParseRange[VolumeDim](r.String()); err != nil || back != r || r.Low().Compare(r.High()) > 0 {
			t.Fatalf("%q is %v and reads back %v, %v", s, r, back, err)
		}
		low, high, err := ParseTemperatureRange(s)
		if err != nil {
			checkError(t, s, err)
		} else if low.Compare(high) > 0 {
			t.Fatalf("%q is %v to %v", s, low, high)
		}
	})
}

func FuzzParseDensity(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, s string) {
		d, err := ParseDensity(s)
		if err != nil {
			checkError(t, s, err)
			return
		}
		text, err := d.MarshalText()
		var back Density
		if err := errors.Join(err, back.UnmarshalText(text)); err != nil || back != d {
			t.Fatalf("%q is %v and reads back %v, %v", s, float64(d), float64(back), err)
		}
	})
}

func FuzzUnmarshalJSON(f *testing.F) {
	for _, s := range []string{`"2.5 L"`, "null", "2.5", `"\u0032 L"`, `"2.5 L" `, `"`, "{}", `"9.6..10.4 L"`} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var v Volume
		if json.Unmarshal(data, &v) == nil {
			out, err := json.Marshal(v)
			var back Volume
			if err := errors.Join(err, json.Unmarshal(out, &back)); err != nil || back != v {
				t.Fatalf("%q is %v and reads back %v, %v", data, v, back, err)
			}
		}
		// Straight in, past the checks that encoding/json makes first.
		_, _, _, _ = v.UnmarshalJSON(data), new(Temperature).UnmarshalJSON(data), new(Range[VolumeDim]).UnmarshalJSON(data), new(Density).UnmarshalJSON(data)
	})
}

package units

import (
	"bytes"
	"database/sql"
	"database/sql/driver"
	"encoding"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"math"
	"strings"
	"testing"
)

// Each of our types keeps these promises at compile time.
type coder interface {
	fmt.Stringer
	fmt.GoStringer
	encoding.TextAppender
	encoding.TextMarshaler
	driver.Valuer
}

type decoder interface {
	encoding.TextUnmarshaler
	json.Unmarshaler
	sql.Scanner
}

var (
	_ = []coder{Volume{}, Torque{}, Length{}, Mass{}, TemperatureDelta{}, Distance{}, Temperature{}, Range[VolumeDim]{}, Density(0)}
	_ = []decoder{new(Volume), new(Torque), new(Length), new(Mass), new(TemperatureDelta), new(Distance), new(Temperature), new(Range[VolumeDim]), new(Density)}
)

// sheet is a struct such as an embedder would write: values, not pointers.
type sheet struct {
	Drained Volume
	Torque  Torque
	Shaft   Length
	Oil     Mass
	Rise    TemperatureDelta
	Road    Distance
	Pan     Temperature
	Case    Range[VolumeDim]
	Fluid   Density
}

func filled() sheet {
	return sheet{
		Drained: USQuart.Of(2.5),
		Torque:  PoundForceFoot.Of(26),
		Shaft:   Inch.Of(0.625),
		Oil:     Pound.Of(5),
		Rise:    FahrenheitDegree.Of(1),
		Road:    Mile.Of(30000),
		Pan:     Fahrenheit(97),
		Case:    Range[VolumeDim]{Litre.Of(9.6), Litre.Of(10.4)},
		Fluid:   867.5,
	}
}

func TestJSONKeepsValuesAndNeighbours(t *testing.T) {
	b, err := json.Marshal(filled())
	if err != nil {
		t.Fatal(err)
	}
	want := `{"Drained":"2.365882365 L","Torque":"35.25126665661641 N·m","Shaft":"15.875 mm",` +
		`"Oil":"2267.96185 g","Rise":"1 °F","Road":"48280.32 km","Pan":"97 °F",` +
		`"Case":"9.6 L to 10.4 L","Fluid":"867.5 kg/m³"}`
	if string(b) != want {
		t.Errorf("got  %s\nwant %s", b, want)
	}
	var back sheet
	if err := json.Unmarshal(b, &back); err != nil || back != filled() {
		t.Errorf("read back %+v, %v", back, err)
	}
}

func TestJSONRefusesNullAndNumbers(t *testing.T) {
	for _, field := range []string{"Drained", "Torque", "Shaft", "Oil", "Rise", "Road", "Pan", "Case", "Fluid"} {
		for _, value := range []string{"null", "2.5", "true", "{}", `["2.5 L"]`, `""`, `"2.5"`, `"2.5 \u202eL"`} {
			got := filled()
			err := json.Unmarshal([]byte(`{"`+field+`":`+value+`}`), &got)
			if err == nil {
				t.Errorf("%s: %s was read", field, value)
				continue
			}
			if !strings.Contains(err.Error(), "want ") {
				t.Errorf("%s: %s: %q does not say what is accepted", field, value, err)
			}
			if got != filled() {
				t.Errorf("%s: %s: a refused text changed the value to %+v", field, value, got)
			}
		}
	}
}

func TestJSONNullMessageShowsWhatToWrite(t *testing.T) {
	var v Volume
	err := json.Unmarshal([]byte("2.5"), &v)
	if want := `units: 2.5 in JSON is not a volume; want a string with the unit, such as "2.5 L"`; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

func TestOmitzeroLeavesOutTheUnset(t *testing.T) {
	type s struct {
		V Volume           `json:",omitzero"`
		T Temperature      `json:",omitzero"`
		R Range[VolumeDim] `json:",omitzero"`
		D Density          `json:",omitzero"`
		E Volume           `json:",omitempty"` // no effect: that is why omitzero
	}
	b, err := json.Marshal(s{})
	if err != nil || string(b) != `{"E":"0 L"}` {
		t.Errorf("got %s, %v", b, err)
	}
}

func TestMapKeys(t *testing.T) {
	b, err := json.Marshal(map[Volume]int{Litre.Of(1): 1, Litre.Of(2): 2})
	if err != nil || string(b) != `{"1 L":1,"2 L":2}` {
		t.Errorf("got %s, %v", b, err)
	}
	var m map[Volume]int
	if err := json.Unmarshal(b, &m); err != nil || m[Litre.Of(2)] != 2 {
		t.Errorf("read back %v, %v", m, err)
	}
}

// A rule of Go, pinned so that nobody is surprised: name the field.
func TestEmbeddingSwallowsNeighboursNamedFieldsDoNot(t *testing.T) {
	type swallowed struct {
		Volume
		Note string
	}
	if b, _ := json.Marshal(swallowed{Litre.Of(1), "kept?"}); string(b) != `"1 L"` {
		t.Errorf("embedding no longer swallows neighbours: %s; say so in encode.go", b)
	}
	type kept struct {
		Volume Volume
		Note   string
	}
	if b, _ := json.Marshal(kept{Litre.Of(1), "kept"}); string(b) != `{"Volume":"1 L","Note":"kept"}` {
		t.Errorf("a named field swallows its neighbours: %s", b)
	}
}

func TestFmtNeverPrintsTicks(t *testing.T) {
	v, p, r := Litre.Of(2.5), Celsius(36.5), Range[VolumeDim]{Litre.Of(9.6), Litre.Of(10.4)}
	for _, c := range []struct{ got, want string }{
		{fmt.Sprint(v), "2.5 L"},
		{fmt.Sprintf("%v %s %+v", v, v, v), "2.5 L 2.5 L 2.5 L"},
		{fmt.Sprintf("%v %s %+v", p, p, p), "36.5 °C 36.5 °C 36.5 °C"},
		{fmt.Sprintf("%v %s %+v", r, r, r), "9.6 L to 10.4 L 9.6 L to 10.4 L 9.6 L to 10.4 L"},
		{fmt.Sprintf("%v", []Volume{v, v}), "[2.5 L 2.5 L]"},
		{fmt.Sprintf("%+v", struct{ V Volume }{v}), "{V:2.5 L}"},
		{fmt.Sprintf("%v", &v), "2.5 L"},
		{fmt.Sprintf("%q", v), `"2.5 L"`},
		{fmt.Sprintf("%#v", v), `units.Volume("2.5 L")`},
		{fmt.Sprintf("%#v", NewtonMetre.Of(35)), `units.Torque("35 N·m")`},
		{fmt.Sprintf("%#v", Millimetre.Of(35)), `units.Length("35 mm")`},
		{fmt.Sprintf("%#v", Gram.Of(35)), `units.Mass("35 g")`},
		{fmt.Sprintf("%#v", CelsiusDegree.Of(35)), `units.TemperatureDelta("35 °C")`},
		{fmt.Sprintf("%#v", Kilometre.Of(35)), `units.Distance("35 km")`},
		{fmt.Sprintf("%#v", p), `units.Temperature("36.5 °C")`},
		{fmt.Sprintf("%#v", r), `units.Range[units.VolumeDim]("9.6 L to 10.4 L")`},
		{fmt.Sprintf("%#v", Density(867.5)), "units.Density(867.5)"},
		{fmt.Sprint(Litre.Of(1e9), Celsius(-300), Density(0)), "out of range out of range out of range"},
		{fmt.Sprint(Exactly(Litre.Of(1e9))), "out of range"},
	} {
		if c.got != c.want {
			t.Errorf("got %s, want %s", c.got, c.want)
		}
	}
}

func TestSlogPrintsText(t *testing.T) {
	drop := &slog.HandlerOptions{ReplaceAttr: func(_ []string, a slog.Attr) slog.Attr {
		if a.Key == slog.TimeKey {
			return slog.Attr{}
		}
		return a
	}}
	var text, js bytes.Buffer
	for _, h := range []slog.Handler{slog.NewTextHandler(&text, drop), slog.NewJSONHandler(&js, drop)} {
		slog.New(h).Info("drained", "volume", Litre.Of(2.5), "pan", Celsius(36.5), "case", Range[VolumeDim]{Litre.Of(9.6), Litre.Of(10.4)})
	}
	if want := `level=INFO msg=drained volume="2.5 L" pan="36.5 °C" case="9.6 L to 10.4 L"` + "\n"; text.String() != want {
		t.Errorf("got  %swant %s", &text, want)
	}
	if want := `{"level":"INFO","msg":"drained","volume":"2.5 L","pan":"36.5 °C","case":"9.6 L to 10.4 L"}` + "\n"; js.String() != want {
		t.Errorf("got  %swant %s", &js, want)
	}
}

func TestFlagTextVar(t *testing.T) {
	var v Volume
	var p Temperature
	var r Range[VolumeDim]
	var d Density
	fs := flag.NewFlagSet("demo", flag.ContinueOnError)
	fs.SetOutput(io.Discard)
	fs.TextVar(&v, "drain", Litre.Of(2), "fluid drained")
	fs.TextVar(&p, "pan", Celsius(20), "pan temperature")
	fs.TextVar(&r, "case", Range[VolumeDim]{}, "capacity")
	fs.TextVar(&d, "density", Density(0), "density at 15 °C")
	if err := fs.Parse([]string{"-drain", "2 1/2 qt", "-case=12 to 15 qt"}); err != nil {
		t.Fatal(err)
	}
	if v != USQuart.Of(2.5) || p != Celsius(20) || r.High() != USQuart.Of(15) || d != 0 {
		t.Errorf("read %v, %v, %v, %v", v, p, r, d)
	}
	if err := fs.Parse([]string{"-drain", "26 ft"}); err == nil || !strings.Contains(err.Error(), "a length, not a volume") {
		t.Errorf("error %v", err)
	}
}

func TestSQL(t *testing.T) {
	v := USQuart.Of(2.5)
	stored, err := v.Value()
	if err != nil || stored != "2.365882365 L" {
		t.Fatalf("stored %v, %v", stored, err)
	}
	if !driver.IsValue(stored) {
		t.Errorf("%T is no driver value", stored)
	}
	var back, fromBytes Volume
	var maybe sql.Null[Volume]
	if err := errors.Join(back.Scan(stored), fromBytes.Scan([]byte("2.5 US qt")), maybe.Scan(nil)); err != nil {
		t.Fatal(err)
	}
	if back != v || fromBytes != v || maybe.Valid {
		t.Errorf("read %v, %v, %v", back, fromBytes, maybe)
	}
	for _, src := range []any{nil, 2.5, int64(2), true, []byte(strings.Repeat(" ", 1<<20) + "1 L")} {
		for _, d := range decoders() {
			if err := d.Scan(src); err == nil {
				t.Errorf("%T took %T from a database", d, src)
			}
		}
	}
}

func decoders() []decoder {
	return []decoder{new(Volume), new(Torque), new(Length), new(Mass), new(TemperatureDelta), new(Distance), new(Temperature), new(Range[VolumeDim]), new(Density)}
}

// 64 bytes are read and more are not, whatever stands in them.
func TestSQLBytesOfAnyLength(t *testing.T) {
	padded := func(n int) []byte { return append([]byte("2.5 US qt"), bytes.Repeat([]byte(" "), n-9)...)[:n:n] }
	for n, ok := range map[int]bool{9: true, 63: true, 64: true, 65: false, 66: false, 1000: false} {
		var v Volume
		if err := v.Scan(padded(n)); (err == nil) != ok || ok && v != USQuart.Of(2.5) {
			t.Errorf("%d bytes: %s, %v", n, v, err)
		}
	}
}

func TestNilReceiversAnswer(t *testing.T) {
	for _, d := range []decoder{(*Volume)(nil), (*Temperature)(nil), (*Range[VolumeDim])(nil), (*Density)(nil)} {
		for _, err := range []error{d.UnmarshalText([]byte("1 L")), d.UnmarshalJSON([]byte(`"1 L"`)), d.Scan("1 L")} {
			if err == nil || !strings.Contains(err.Error(), "nil pointer") {
				t.Errorf("%T: error %v", d, err)
			}
		}
	}
}

func TestEncodersRefuseOutOfRange(t *testing.T) {
	out := Litre.Of(math.Inf(1))
	for _, c := range []coder{
		out, NewtonMetre.Of(1e9), Metre.Of(1e11), Kilogram.Of(1e9), CelsiusDegree.Of(1e12), Kilometre.Of(1e15),
		Celsius(-300), Exactly(out), Density(0), Density(math.NaN()), Density(math.Inf(1)), Density(-1),
	} {
		_, textErr := c.MarshalText()
		_, appendErr := c.AppendText([]byte("x"))
		_, valueErr := c.Value()
		_, jsonErr := json.Marshal(c)
		for _, err := range []error{textErr, appendErr, valueErr, jsonErr} {
			if !errors.Is(err, ErrOutOfRange) {
				t.Errorf("%#v: error %v does not wrap ErrOutOfRange", c, err)
			}
		}
		if c.String() != "out of range" {
			t.Errorf("%#v prints %q", c, c.String())
		}
	}
}

// A long text is refused for its length, not for where it was cut.
func TestLongTextIsCalledLong(t *testing.T) {
	text := strings.Repeat("²", 100)
	for _, d := range decoders() {
		if err := d.UnmarshalText([]byte(text)); err == nil || !strings.Contains(err.Error(), "longer than 64 bytes") {
			t.Errorf("%T: %v", d, err)
		}
	}
}

func TestAppendTextKeepsWhatIsThere(t *testing.T) {
	for _, c := range []coder{Litre.Of(2.5), Celsius(2.5), Exactly(Litre.Of(2.5)), Density(2.5)} {
		b, err := c.AppendText([]byte("x"))
		alone, _ := c.MarshalText()
		if err != nil || string(b) != "x"+string(alone) {
			t.Errorf("%v: %q, %v", c, b, err)
		}
	}
}

package jobcard

import (
	"bytes"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// odd sets a field, whatever its type, to something a caller may put there, sensible or
// not.
func odd(v reflect.Value, rng *rand.Rand) {
	x := oddNumber(rng)
	switch p := v.Addr().Interface().(type) {
	case *units.Volume:
		*p = units.Litre.Of(x)
	case *units.Length:
		*p = units.Millimetre.Of(x)
	case *units.Torque:
		*p = units.NewtonMetre.Of(x)
	case *units.Mass:
		*p = units.Kilogram.Of(x)
	case *units.TemperatureDelta:
		*p = units.CelsiusDegree.Of(x)
	case *units.Temperature:
		*p = units.Celsius(x)
	case *units.Range[units.VolumeDim]:
		*p, _ = units.NewRange(units.Litre.Of(x), units.Litre.Of(oddNumber(rng)))
	case *sealing.Thread:
		*p, _ = sealing.ParseThread([]string{"", "M16x1.5", "M10x1 taper", "1/8 NPT", "R1/8", "G1/4", "M31.7x1.25"}[rng.IntN(7)])
	case *time.Time:
		*p = oddTime(rng)
	default:
		oddPlain(v, x, rng)
	}
}

func oddPlain(v reflect.Value, x float64, rng *rand.Rand) {
	texts := []string{"", "x", "drain", "ring-16", "jug-a", "probe-1", "\xff", "\uFFFD", "é<&>\u2028\\\"", "a\u202eb", "\n\t", "\x00", strings.Repeat("y", 64), strings.Repeat("y", 65), strings.Repeat("\u0001", 201), strings.Repeat("z", 7000)}
	switch v.Kind() {
	case reflect.String:
		v.SetString(texts[rng.IntN(len(texts))])
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Uint8:
		v.SetUint([]uint64{0, 1, 2, 3, 4, 5, 6, 7, 15, 16, 100, 200, 255}[rng.IntN(13)])
	case reflect.Int, reflect.Int64:
		v.SetInt([]int64{0, 1, 2, -1, -3, 8, 45, 50, 100, 101, 1000, 1001, 59e9 + 1, 1 << 40, math.MinInt64}[rng.IntN(15)])
	case reflect.Float64:
		v.SetFloat(x)
	case reflect.Slice:
		oddList(v, rng)
	default:
		panic("no odd values for " + v.Type().String())
	}
}

func oddNumber(rng *rand.Rand) float64 {
	return []float64{0, math.Copysign(0, -1), 1, -1, 0.1 + 0.2, 2, 3, 8, 9.9, 20, 45.678901234567, 200, 201, 850, 7e-4, 1e-300, 1e-9, 1e9, 1e300, math.NaN(), math.Inf(1), units.Huge}[rng.IntN(22)]
}

func oddTime(rng *rand.Rand) time.Time {
	offset := []int{0, 60, -60, 3600, 5*3600 + 1800, 59, 1172, -1, -59, 24 * 3600, -24 * 3600, 24*3600 - 60, -24*3600 + 60, 100 * 3600}[rng.IntN(14)]
	when := []time.Time{at(0), at(90).Add(123456789), {}, time.Date(1, 1, 1, 0, 0, 0, 1, time.UTC), time.Date(9999, 12, 31, 23, 59, 59, 0, time.UTC), time.Date(-5, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(10000, 1, 1, 0, 0, 0, 0, time.UTC), time.Now()}[rng.IntN(8)]
	return when.In(time.FixedZone("odd", offset))
}

// oddList drops the list, doubles its last or adds a zero one.
func oddList(v reflect.Value, rng *rand.Rand) {
	switch n := v.Len(); {
	case rng.IntN(3) == 0:
		v.SetZero()
	case n > 0 && rng.IntN(2) == 0:
		v.Set(reflect.Append(v, v.Index(n-1)))
	default:
		v.Set(reflect.Append(v, reflect.Zero(v.Type().Elem())))
	}
}

// fields are all that can be set in a struct, the elements of its lists included.
func fields(v reflect.Value) []reflect.Value {
	var list []reflect.Value
	switch v.Kind() {
	case reflect.Slice:
		list = append(list, v)
		for i := range v.Len() {
			list = append(list, fields(v.Index(i))...)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				list = append(list, fields(v.Field(i))...)
			}
		}
		if len(list) == 0 { // a quantity, a thread, a time
			list = append(list, v)
		}
	default:
		list = append(list, v)
	}
	return list
}

func setOdd(v reflect.Value, rng *rand.Rand) {
	for range 1 + rng.IntN(2) {
		list := fields(v)
		odd(list[rng.IntN(len(list))], rng)
	}
}

// writesAndReads holds that a card decodes to an equal card and the same bytes.
func writesAndReads(t *testing.T, card *Card) {
	t.Helper()
	first, err := card.MarshalJSON()
	if err != nil {
		t.Fatalf("taken and not written: %v\n%+v\n%+v", err, card.Spec(), card.Entries())
	}
	back, err := Decode(first)
	if err != nil {
		t.Fatalf("own writing refused: %v\n%s", err, first)
	}
	second, err := back.MarshalJSON()
	if err != nil || !bytes.Equal(first, second) {
		t.Fatalf("not the same bytes, %v:\n%s\n%s", err, first, second)
	}
	same := cmp.Options{cmpopts.EquateEmpty(), cmpopts.EquateComparable(sealing.Thread{}, units.Range[units.VolumeDim]{})}
	if diff := cmp.Diff(card.Spec(), back.Spec(), same) + cmp.Diff(card.Entries(), back.Entries(), same); diff != "" {
		t.Fatalf("another card:\n%s", diff)
	}
	if card.Record() != back.Record() {
		t.Fatalf("another record:\n%s", cmp.Diff(card.Record(), back.Record()))
	}
}

// Whatever a caller puts into a spec: where Open takes it, the card is written and read
// again.
func TestEverySpecTakenIsWrittenAndRead(t *testing.T) {
	rng, taken, refused := rand.New(rand.NewPCG(5, 6)), 0, 0
	for range 4000 {
		s := ternSpec()
		if rng.IntN(3) == 0 {
			s.Fluid = Fluid{Table: []thermal.DensityPoint{{At: units.Celsius(0), Density: 860}, {At: units.Celsius(100), Density: 800}}}
		}
		s.Plugs[0].Drive = sealing.Drive{Kind: sealing.HexSocket, Size: mm(8)}
		s.Plugs[1].Drive = sealing.Drive{Kind: sealing.Hexalobular, Number: 45}
		setOdd(reflect.ValueOf(&s).Elem(), rng)
		card, err := Open(s)
		if err != nil {
			refused++
			if len(err.Error()) > 4000 {
				t.Errorf("refused at length: %d bytes", len(err.Error()))
			}
			continue
		}
		taken++
		writesAndReads(t, card)
	}
	if taken < 500 || refused < 500 {
		t.Errorf("%d specs taken, %d refused; want many of each", taken, refused)
	}
}

// Whatever a caller puts into an entry: where Append takes it, the card is written and
// read again.
func TestEveryEntryTakenIsWrittenAndRead(t *testing.T) {
	rng, taken, refused := rand.New(rand.NewPCG(7, 8)), map[Kind]int{}, 0
	for range 3000 {
		entries := everyEntry()
		n := rng.IntN(len(entries))
		card := fill(t, ternSpec(), entries[:n]...)
		e := entries[n]
		setOdd(reflect.ValueOf(&e).Elem(), rng)
		if err := card.Append(e); err != nil {
			refused++
			continue
		}
		taken[e.Kind]++
		writesAndReads(t, card)
	}
	if len(taken) < int(Closed) || refused < 500 {
		t.Errorf("taken %v, %d refused; want many of each", taken, refused)
	}
}

// everyEntry has an entry of every kind.
func everyEntry() []Entry {
	entries := ternEntries()
	look := Observe(at(99), "check", 3)
	look.Amount, look.Lasting = jug(0.1, 43), Duration(45e9)
	return append(entries, KeptBack(at(99), jug(0.05, 20)), Spill(at(99), jug(0.05, 20), FromBox), Supply(at(99), litres(1)),
		Note(at(99), "x"), Strike(at(99), 20, "typed twice"), TopUp(at(99), jug(0.1, 20)), look, TorqueSet(at(99), "check", units.NewtonMetre.Of(11), ""), Close(at(99)), Note(at(100), "y"))
}

// Times that RFC 3339 cannot hold were taken, and then not written, or not read, or
// written otherwise the next time.
func TestTimesAreThoseThatCanBeWritten(t *testing.T) {
	for name, tt := range map[string]struct {
		offset int
		want   string
	}{
		"half past":      {5*3600 + 1800, ""},
		"the day before": {-24*3600 + 60, ""},
		"59 s":           {59, "time in a zone 59s from UTC; want whole minutes, less than 24 h"},
		"1172 s":         {1172, "19m32s from UTC"},
		"a second west":  {-1, "-1s from UTC"},
		"a day":          {24 * 3600, "24h0m0s from UTC"},
		"a day west":     {-24 * 3600, "-24h0m0s from UTC"},
	} {
		card := fill(t, simple(10))
		err := card.Append(Note(at(0).In(time.FixedZone("odd", tt.offset)), "x"))
		switch {
		case tt.want == "" && err != nil || tt.want != "" && (err == nil || !strings.Contains(err.Error(), tt.want)):
			t.Errorf("%s: %v; want %q", name, err, tt.want)
		case tt.want == "":
			writesAndReads(t, card)
		}
	}
}

// The caller's monotonic clock, which no file keeps, does not order the entries.
func TestAMonotonicReadingIsDropped(t *testing.T) {
	now := time.Now()
	if !strings.Contains(now.String(), "m=") {
		t.Skip("this system's clock has no monotonic reading")
	}
	card := fill(t, simple(10), Note(now, "x"))
	if got := card.Entries()[0].At; got != now.Round(0) {
		t.Errorf("%v; want %v", got, now.Round(0))
	}
}

// Specs that were taken and could not be written, or not read, or were written
// otherwise the next time.
func TestSpecsThatCannotBeWrittenAreRefused(t *testing.T) {
	for name, tt := range map[string]struct {
		edit func(*Spec)
		want string
	}{
		"case metal": {func(s *Spec) { s.CaseMetal = 200 }, "caseMetal: thermal: material not known"},
		"number":     {func(s *Spec) { s.Plugs[0].Drive = sealing.Drive{Kind: sealing.HexSocket, Number: -3} }, "plug 1: "},
		"role":       {func(s *Spec) { s.Plugs[0].Role = 77 }, "role 77 is not one"},
		"note":       {func(s *Spec) { s.Window.Note = "\xff" }, "window.note"},
		"long note":  {func(s *Spec) { s.Window.Note = strings.Repeat("n", 7000) }, "7000 bytes; want at most 1000"},
		"fluid's id": {func(s *Spec) { s.Fluid, s.Vessels[0].ID = Fluid{}, "unknown-density" }, "vessel 1: id \"unknown-density\" is that of the fluid's law"},
		"title":      {func(s *Spec) { s.Vessels[0].Title = "\xff" }, "vessel 1: title"},
		"material":   {func(s *Spec) { s.Washers[0].Material = strings.Repeat("m", 201) }, "washer 1: material"},
	} {
		s := ternSpec()
		tt.edit(&s)
		if _, err := Open(s); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v; want %q", name, err, tt.want)
		}
	}
	s := ternSpec()
	s.Vessels[0].Entry = "drain-1"
	if card := fill(t, s); card.Spec().Vessels[0].Entry != "" {
		t.Error("the name of one reading was kept with the vessel")
	}
}

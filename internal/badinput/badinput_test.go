package badinput

import (
	"maps"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/caution"
	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/refdata"
	"example.com/meniscus/refdata/jobfile"
	"example.com/meniscus/refdata/tables"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
)

// more are the types with methods that are no key of the book.
func more() []any {
	return []any{
		units.Rounding(0), units.CelsiusScale, measure.Agreement{}, measure.CylinderClass(0), measure.Verdict(0), measure.Interval{},
		thermal.Emissivity{}, thermal.Moment{}, thermal.Reflection(0), thermal.Surface{},
		exchange.Against(0), exchange.Bound(0), exchange.CameIn(0), exchange.Caveat(0), exchange.Flow(0), exchange.IntervalMethod(0),
		exchange.Outcome(0), exchange.Purpose(0), new(exchange.Purpose), exchange.Share{}, exchange.Standing(0), exchange.Straightness(0), exchange.Validity(0),
		sealing.DriveKind(0), sealing.Role(0), sealing.Verdict(0), caution.Caution{},
		jobcard.Duration(0), jobcard.Kind(0), jobcard.Origin(0), jobcard.Standing(0),
		refdata.Difference{}, refdata.Figure{}, refdata.Finding{}, tables.Band{}, tables.Container{}, tables.Key{}, tables.Pedigree{}, tables.Plug{}, tables.Ring{},
	}
}

// texts are what a decoder accepts, by the end of its name.
var texts = []struct{ name, text string }{
	{"VolumeDim]", "2.5 L"}, {"TorqueDim]", "24 N·m"}, {"LengthDim]", "18.2 mm"}, {"MassDim]", "2.15 kg"}, {"TemperatureDeltaDim]", "5.5 °C"}, {"DistanceDim]", "48000 km"},
	{"units.Temperature.", "36.5 °C"}, {"units.Density.", "867.5 kg/m³"}, {"AtPlug.", "trickle"}, {"Purpose.", "refresh"}, {"jobcard.Kind.", "drained"}, {"Origin.", "stock"},
	{"jobcard.Duration.", "5m0s"}, {"Material.", "aluminium"}, {"Shape.", "normal"}, {"Verdict.", "inside"}, {"Drive.", "hex socket 8 mm"}, {"Thread.", "M16x1.5"}, {"Role.", "drain"},
}

// accepts gives a decoder a text of its own, to be spoiled from there.
func accepts(name string, f reflect.Value) []any {
	method := name[strings.LastIndexByte(name, '.')+1:]
	for _, x := range texts {
		if !strings.Contains(name, x.name) || strings.Contains(name, "measure.Measured") {
			continue
		}
		text := x.text
		switch method {
		case "UnmarshalJSON":
			text = strconv.Quote(text)
		case "UnmarshalText", "Scan":
		default:
			return nil
		}
		receiver := reflect.New(f.Type().In(0).Elem()).Interface()
		if method == "Scan" {
			return []any{receiver, text}
		}
		return []any{receiver, []byte(text)}
	}
	return nil
}

const module = "example.com/meniscus/"

// methods are all methods of the book's types, by name; a pointer's only where
// the value has none of that name.
func (b *book) methods() map[string]reflect.Value {
	list := map[string]reflect.Value{}
	types := slices.Collect(maps.Keys(b.good))
	for _, v := range more() {
		types = append(types, reflect.TypeOf(v))
	}
	for _, t := range types {
		base := t
		if t.Kind() == reflect.Pointer {
			base = t.Elem()
		}
		if !strings.HasPrefix(base.PkgPath(), module) || t.Kind() == reflect.Interface {
			continue
		}
		for i := range t.NumMethod() {
			m := t.Method(i)
			if _, byValue := base.MethodByName(m.Name); byValue && base != t {
				continue
			}
			list[strings.TrimPrefix(base.PkgPath(), module)+"."+base.Name()+"."+m.Name] = m.Func
		}
	}
	return list
}

// apart reports whether a method changes its receiver, and makes a new one.
func (b *book) apart(name string, args []reflect.Value) {
	if len(args) == 0 || args[0].Kind() != reflect.Pointer || args[0].IsNil() {
		return
	}
	switch method := name[strings.LastIndexByte(name, '.')+1:]; {
	case strings.HasPrefix(method, "Unmarshal"), method == "Scan":
		args[0] = reflect.New(args[0].Type().Elem())
	case name == "units/working.Builder.Add":
		args[0] = reflect.ValueOf(new(working.Builder))
	case name == "exchange/jobcard.Card.Append" && args[0].Interface().(*jobcard.Card).Len() > 0:
		args[0] = reflect.ValueOf(b.card())
	case name == "refdata/jobfile.File.Fill", name == "refdata/jobfile.File.Fault":
		if args[0].Interface().(*jobfile.File).Job != "" {
			args[0] = reflect.ValueOf(jobFile())
		}
		if card, ok := args[1].Interface().(*jobcard.Card); ok && card.Len() > 0 {
			args[1] = reflect.ValueOf(must(jobcard.Open(b.spec())))
		}
	}
}

// TestEveryEntryPoint gives the whole catalogue to every exported function and
// method, in one place at a time and in all at once.
func TestEveryEntryPoint(t *testing.T) {
	b, j := newBook(t), newJudge(t)
	all := map[string]row{}
	for name, f := range b.methods() {
		all[name] = append(row{f}, accepts(name, f)...)
	}
	maps.Copy(all, functions())
	for name, args := range b.own() {
		all[name] = append(row{all[name][0]}, args...)
	}
	for _, name := range slices.Sorted(maps.Keys(all)) {
		f, known := all[name][0].(reflect.Value)
		if !known {
			f = reflect.ValueOf(all[name][0])
		}
		t.Run(name, func(t *testing.T) {
			j.t = t
			good, n := 0, 0
			b.arguments(f, all[name][1:], func(args []reflect.Value) {
				if n++; raceDetector && n%60 != 1 {
					return // nothing runs at the same time here
				}
				b.apart(name, args)
				if j.call(name, f, args) {
					good++
				}
			})
			if good == 0 && !raceDetector {
				t.Error("nothing was accepted: the row proves nothing")
			}
		})
	}
	t.Logf("%d functions and methods, %d calls", len(all), j.calls)
	if j.calls < 90_000 && !raceDetector {
		t.Errorf("only %d calls", j.calls)
	}
}

// exported reads one function or method per line of the API listing.
var exported = regexp.MustCompile(`(?m)^([a-z/]+): func (?:\(\*?(\w+)(?:\[.*?\])?\) )?([A-Z]\w*)[\[(]`)

func TestEveryExportedNameHasARow(t *testing.T) {
	listing, err := os.ReadFile("../../.ci/api.txt")
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]bool{}
	for name := range functions() {
		rows[name] = true
	}
	for name := range newBook(t).methods() {
		rows[regexp.MustCompile(`\[.*\]`).ReplaceAllString(name, "")] = true
	}
	found := exported.FindAllStringSubmatch(string(listing), -1)
	if len(found) < 400 {
		t.Errorf("%d names in the listing", len(found))
	}
	for _, m := range found {
		name := m[1] + "." + m[3]
		if m[2] != "" {
			name = m[1] + "." + m[2] + "." + m[3]
		}
		if !rows[name] {
			t.Errorf("%s has no row: give functions, newBook or more a line", name)
		}
	}
}

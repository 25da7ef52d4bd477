package badinput

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"runtime/metrics"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"example.com/meniscus/units/measure"
)

// What one call may cost, and how long its error may be.
const (
	mostBytes    = 10 << 20
	mostTime     = 10 * time.Millisecond
	mostAccepted = 64 << 20 // a megabyte of names in a table of results
	mostMessage  = 2000
	mostEcho     = 40
)

// callersPanic is what the caller's own function panics with: a formula's panic is
// turned into an error, from whatever goroutine; that of Progress goes to the caller.
const callersPanic = "the caller's"

var errorType = reflect.TypeFor[error]()

// accepted is how an error says what would have been right: mostly "want …", now
// and then what to do or what the limit is; a fault of a file says it on a line of
// its own. A file system's own words pass too.
var accepted = regexp.MustCompile(`\b(wants?|accept|accepted|needs?|takes? (none|another)|reads schema|stands? in|settle it|make a|use|give it|give|write|put|say|` +
	`measure both|neither a|no file of the pack|delete|close it|name one|look at|save|more than|type it|invalid argument|file name too long|remove|choose|smaller than|outside the course|within its error of 0|does not exist)\b|\bis (above|below) (the|its|0\.5)\b|no such file|outside the folder|\n    \S|context canceled`)

// notANumber finds one in printed text; words such as "Information" do not count.
var notANumber = regexp.MustCompile(`\bNaN\b|[+-]Inf\b|\bInf\b`)

// judge counts calls and complains about each function a few times only.
type judge struct {
	t          *testing.T
	calls      int
	documents  bool // the arguments are whole documents
	complaints map[string]int
}

func newJudge(t *testing.T) *judge { return &judge{t: t, complaints: map[string]int{}} }

func (j *judge) complain(name string, args []reflect.Value, format string, more ...any) {
	j.complaints[name]++
	if j.complaints[name] > 3 {
		return
	}
	j.t.Errorf("%s%s: %s", name, show(args), clip(fmt.Sprintf(format, more...), 400))
}

func clip(s string, n int) string {
	if len(s) > n {
		return s[:n] + "…"
	}
	return s
}

func show(args []reflect.Value) string {
	var parts []string
	for _, a := range args {
		text := "?"
		switch a.Kind() {
		case reflect.String:
			text = fmt.Sprintf("%q", clip(a.String(), 60))
		case reflect.Slice:
			text = fmt.Sprintf("%d × %.60q", a.Len(), clip(printed(a), 60))
		default:
			text = clip(printed(a), 500)
		}
		parts = append(parts, text)
	}
	return clip("("+strings.Join(parts, ", ")+")", 900)
}

// printed writes a value by its own method, which may be what panics.
func printed(v reflect.Value) (s string) {
	defer func() {
		if p := recover(); p != nil {
			s = "a value that panics when printed"
		}
	}()
	if v.Kind() == reflect.Slice && v.Len() > 3 {
		v = v.Slice(0, 3)
	}
	return fmt.Sprintf("%+v", v)
}

// allocated is how much has been allocated so far, to within a few kilobytes.
func allocated() uint64 {
	sample := []metrics.Sample{{Name: "/gc/heap/allocs:bytes"}}
	metrics.Read(sample)
	return sample[0].Value.Uint64()
}

// call makes one call, judges it, and reports whether it was accepted.
func (j *judge) call(name string, f reflect.Value, args []reflect.Value) (good bool) {
	j.calls++
	defer func() {
		if p := recover(); p != nil {
			j.complain(name, args, "panics: %v", p)
		}
	}()
	before, began := allocated(), time.Now()
	out := do(f, args)
	took, bytes := time.Since(began), allocated()-before
	refusal := refused(out)
	if refusal != nil {
		j.cost(name, f, args, took, bytes)
	} else if bytes > mostAccepted && !writesOut(name) {
		j.complain(name, args, "is accepted and allocates %d bytes", bytes)
	}
	for _, o := range out {
		if where := notFinite(o, name); where != "" && refusal == nil && !handedOn(name, where, f, args) {
			j.complain(name, args, "gives %s", where)
		}
	}
	if refusal == nil {
		return true
	}
	j.message(name, args, refusal)
	return false
}

// cost holds a refusal to its bounds.
func (j *judge) cost(name string, f reflect.Value, args []reflect.Value, took time.Duration, bytes uint64) {
	document := j.documents || named(name) || slices.Contains([]string{"exchange/jobcard.Decode", "exchange/jobcard.Card.UnmarshalJSON"}, name) || writesOut(name)
	if bytes > mostBytes && !writesOut(name) {
		j.complain(name, args, "allocates %d bytes to refuse", bytes)
	}
	if took <= mostTime || raceDetector || document || strings.HasSuffix(name, "JSON") || j.complaints[name] > 3 {
		return // reading through a megabyte of JSON takes 6 ms on a quiet machine: see the benchmark
	}
	for range 20 { // another program may have had the processor
		began := time.Now()
		do(f, args)
		took = min(took, time.Since(began))
	}
	if took > mostTime {
		j.complain(name, args, "takes %v to refuse", took)
	}
}

// handedOn reports whether what is not finite in a result is the caller's own: a
// word in a text that was given, or a number in a struct the caller filled, which a
// method without an error, or one that only lays a table out anew, copies. Printed it
// may not be, but as Go source; where is what was found in the result.
func handedOn(name, where string, f reflect.Value, args []reflect.Value) bool {
	fallible := f.Type().NumOut() > 0 && f.Type().Out(f.Type().NumOut()-1) == errorType
	printed := strings.Contains(where, " in it: ") && !strings.HasSuffix(name, ".GoString")
	for _, a := range args {
		given := notFinite(a, "")
		switch {
		case strings.Contains(given, " in it: "):
			return true
		case given != "" && !printed && (!fallible || a.Type() == reflect.TypeFor[measure.Table]()):
			return true
		}
	}
	return false
}

func do(f reflect.Value, args []reflect.Value) []reflect.Value {
	if f.Type().IsVariadic() {
		return f.CallSlice(args)
	}
	return f.Call(args)
}

// refused is the error a call ended with.
func refused(out []reflect.Value) error {
	if len(out) == 0 {
		return nil
	}
	last := out[len(out)-1]
	if last.Type() != errorType || last.IsNil() {
		return nil
	}
	return last.Interface().(error)
}

// message judges the text of a refusal.
func (j *judge) message(name string, args []reflect.Value, err error) {
	text := err.Error()
	short := clip(text, 2*mostMessage) // the whole of a megabyte would take the test a second
	switch {
	case !utf8.ValidString(text):
		j.complain(name, args, "the message is not UTF-8: %q", text)
	case len(text) > mostMessage*parts(err) && !named(name):
		j.complain(name, args, "a message of %d bytes: %s", len(text), text)
	case strings.TrimSpace(text) == "":
		j.complain(name, args, "an empty message")
	case !accepted.MatchString(short) && !accepted.MatchString(text[max(0, len(text)-500):]):
		j.complain(name, args, "does not say what is accepted: %s", text)
	}
	if run := longestRun(short); run > mostEcho+3 && !named(name) {
		j.complain(name, args, "repeats %d bytes of one character: %s", run, text)
	}
}

// named functions take the path of a file or a folder, which a message must give
// whole, in the words of the file system.
func named(name string) bool {
	return slices.Contains([]string{"refdata.Load", "refdata.LoadLayers", "refdata.Check", "refdata.CheckLayers", "refdata/jobfile.Open", "refdata/jobfile.Read"}, name)
}

// writesOut functions print a procedure the caller filled, which may be of 10 000
// plugs with a name of a megabyte; no pack holds one.
func writesOut(name string) bool {
	return name == "refdata.Diff" || name == "refdata.Procedure.TOML"
}

// parts is how many faults an error joins.
func parts(err error) int {
	var several interface{ Unwrap() []error }
	if !errors.As(err, &several) {
		return 1
	}
	n := 0
	for _, e := range several.Unwrap() {
		n += parts(e)
	}
	return max(1, n)
}

// longestRun is the longest stretch of one byte; the long texts are made of it.
func longestRun(s string) int {
	longest, n := 0, 0
	for i := range len(s) {
		if i > 0 && s[i] == s[i-1] {
			n++
		} else {
			n = 1
		}
		longest = max(longest, n)
	}
	return longest
}

// notFinite finds a NaN or an infinity in a result: in a number, a field, an
// element, or a printed text.
func notFinite(v reflect.Value, at string) string {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Sprintf("%s = %v", at, x)
		}
	case reflect.String:
		if found := notANumber.FindString(clip(v.String(), 5000)); found != "" {
			return fmt.Sprintf("%s with %q in it: %s", at, found, clip(v.String(), 200))
		}
	case reflect.Slice, reflect.Array:
		if v.Type().Elem().Kind() == reflect.Uint8 && v.Kind() == reflect.Slice {
			return notFinite(reflect.ValueOf(string(v.Bytes())), at)
		}
		for i := range min(v.Len(), 1000) {
			if s := notFinite(v.Index(i), fmt.Sprintf("%s[%d]", at, i)); s != "" {
				return s
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				if s := notFinite(v.Field(i), at+"."+v.Type().Field(i).Name); s != "" {
					return s
				}
			}
		}
	}
	return ""
}

package badinput

import (
	"maps"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
)

// writes are the methods that change what they are called on, which is for one
// goroutine at a time.
func writes(name string) bool {
	method := name[strings.LastIndexByte(name, '.')+1:]
	return strings.HasPrefix(method, "Unmarshal") || method == "Scan" || strings.HasPrefix(name, "units/measure.Stream.") ||
		slices.Contains([]string{"units/working.Builder.Add", "exchange/jobcard.Card.Append", "refdata/jobfile.File.Fill", "refdata/jobfile.File.Fault"}, name)
}

// TestOneValueSharedByGoroutines calls every reading method of every type, on one
// value, from several goroutines at once; the race detector looks on, and every
// goroutine must get what one alone gets.
func TestOneValueSharedByGoroutines(t *testing.T) {
	b := newBook(t)
	type call struct {
		name string
		f    reflect.Value
		args []reflect.Value
		want string
	}
	var calls []call
	methods := b.methods()
	for _, name := range slices.Sorted(maps.Keys(methods)) {
		f := methods[name]
		if writes(name) || strings.HasSuffix(name, ".AppendText") { // which appends to the caller's own bytes
			continue
		}
		var usual []reflect.Value
		b.arguments(f, nil, func(args []reflect.Value) {
			if usual == nil {
				usual = args
			}
		})
		calls = append(calls, call{name, f, usual, results(do(f, usual))})
	}
	if len(calls) < 300 {
		t.Errorf("%d methods", len(calls))
	}
	var all sync.WaitGroup
	for g := range 4 {
		all.Go(func() {
			for i := range calls {
				c := calls[(i+g*len(calls)/4)%len(calls)]
				if got := results(do(c.f, c.args)); got != c.want {
					t.Errorf("%s: %s, alone %s", c.name, clip(got, 200), clip(c.want, 200))
				}
			}
		})
	}
	for range 2 { // and all of them in step
		all.Go(func() {
			for _, c := range calls {
				do(c.f, c.args)
			}
		})
	}
	all.Wait()
}

// address is where something was put, which differs from call to call.
var address = regexp.MustCompile(`0x[0-9a-f]{6,}`)

func results(out []reflect.Value) string {
	var s strings.Builder
	for _, v := range out {
		s.WriteString(printed(v))
		s.WriteByte('\n')
	}
	return address.ReplaceAllString(s.String(), "")
}

package sheet_test

import (
	"reflect"
	"testing"

	"example.com/meniscus/internal/sheet"
)

// TestNothingPanics calls every method of every type on nil, zero, absent and refused receivers, with empty and odd arguments.
func TestNothingPanics(t *testing.T) {
	whole, refused := parse(t, tern), parse(t, "a = 1\n[b]\nc = \"x\"\n[b]\n[d")
	receivers := []any{
		(*sheet.Doc)(nil), new(sheet.Doc), whole, refused,
		(*sheet.Table)(nil), new(sheet.Table), whole.Root(), whole.Root().Sub("none").Sub("none"), refused.Root().Sub("b"), new(sheet.Doc).Root(),
		sheet.Value{}, whole.Root().Need("id"), whole.Root().Need("none"), refused.Root().Need("a"), new(sheet.Table).String("x"),
		sheet.Fault{}, sheet.Faults{}, whole.Faults(), refused.Faults(), sheet.Pos{}, sheet.Severity(200),
	}
	words := []string{"", "id", "a", "b", "step", "source", "plug", "format", "cautions", "none", "\x00\xff\u202e"}
	calls := 0
	for _, receiver := range receivers {
		v := reflect.ValueOf(receiver)
		for i := range v.NumMethod() {
			for _, word := range words {
				call(t, v, i, word)
				calls++
			}
		}
	}
	if calls < 1000 {
		t.Errorf("%d calls", calls)
	}
	sheet.Join()
	sheet.Take[int](sheet.Value{}, "", "", nil)
	sheet.Take[int](whole.Root().Need("id"), "", "", nil)
}

func call(t *testing.T, v reflect.Value, i int, word string) {
	method := v.Method(i).Type()
	defer func() {
		if r := recover(); r != nil {
			t.Errorf("%s.%s(%q…): %v", v.Type(), v.Type().Method(i).Name, word, r)
		}
	}()
	var args []reflect.Value
	for j := range method.NumIn() {
		arg := reflect.New(method.In(j)).Elem()
		if arg.Kind() == reflect.String {
			arg.SetString(word)
		}
		if method.IsVariadic() && j == method.NumIn()-1 {
			break
		}
		args = append(args, arg)
	}
	v.Method(i).Call(args)
}

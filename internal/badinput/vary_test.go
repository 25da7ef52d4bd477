package badinput

import (
	"reflect"
	"slices"
)

// long is how many elements the longest lists have.
const long = 10_000

// ordinary makes the k-th ordinary value of a type.
func (b *book) ordinary(t reflect.Type, k int) reflect.Value {
	v := reflect.New(t).Elem()
	if known := b.good[t]; len(known) > 0 {
		if x := known[k%len(known)]; x != nil {
			v.Set(reflect.ValueOf(x))
		}
		return v
	}
	switch t.Kind() {
	case reflect.Float64, reflect.Int, reflect.Int64, reflect.Uint8, reflect.Uint64, reflect.String, reflect.Bool:
		v.Set(b.ordinary(basic(t), k).Convert(t))
	case reflect.Slice:
		v.Set(reflect.MakeSlice(t, 2, 2))
		for i := range 2 {
			v.Index(i).Set(b.ordinary(t.Elem(), i))
		}
	case reflect.Struct:
		for i := range t.NumField() {
			if t.Field(i).IsExported() {
				v.Field(i).Set(b.ordinary(t.Field(i).Type, 0))
			}
		}
	}
	return v
}

// basic is the predeclared type of a kind.
func basic(t reflect.Type) reflect.Type {
	switch t.Kind() {
	case reflect.Float64:
		return reflect.TypeFor[float64]()
	case reflect.Int:
		return reflect.TypeFor[int]()
	case reflect.Int64:
		return reflect.TypeFor[int64]()
	case reflect.Uint8:
		return reflect.TypeFor[uint8]()
	case reflect.Uint64:
		return reflect.TypeFor[uint64]()
	case reflect.String:
		return reflect.TypeFor[string]()
	case reflect.Bool:
		return reflect.TypeFor[bool]()
	}
	return t
}

// hostile lists the bad values of a type itself, or inside of another value one
// of six of its texts, of the long ones of twelve: what reads a text on its own gets all of them.
func (b *book) hostile(t reflect.Type, inside bool) []reflect.Value {
	var list []reflect.Value
	known := b.bad[t]
	if known == nil {
		known = b.bad[basic(t)]
	}
	for i, x := range known {
		if text, ok := x.(string); ok && inside && (i%6 != 0 || len(text) >= bigger/2 && i%12 != 0) {
			continue
		}
		v := reflect.New(t).Elem()
		if x != nil {
			v.Set(reflect.ValueOf(x).Convert(t))
		}
		list = append(list, v)
	}
	return list
}

// vary yields copies of an ordinary value with one place made hostile: the whole,
// a field, an element of a list.
func (b *book) vary(v reflect.Value, inside bool, yield func(reflect.Value)) {
	for _, bad := range b.hostile(v.Type(), inside) {
		yield(bad)
	}
	replaced := func(at func(reflect.Value) reflect.Value, with reflect.Value) {
		c := reflect.New(v.Type()).Elem()
		c.Set(v)
		if v.Kind() == reflect.Slice {
			c = reflect.MakeSlice(v.Type(), v.Len(), v.Len())
			reflect.Copy(c, v)
		}
		at(c).Set(with)
		yield(c)
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				trials := v.Type().Field(i).Name == "Trials"
				b.vary(v.Field(i), true, func(x reflect.Value) {
					if trials && x.Int() > 1_000_000 && x.Int() <= 1<<30 {
						return // up to 2^30 trials are accepted, and are so much work asked for
					}
					replaced(func(c reflect.Value) reflect.Value { return c.Field(i) }, x)
				})
			}
		}
	case reflect.Slice:
		if v.Type().Elem().Kind() == reflect.Uint8 {
			return
		}
		yield(reflect.Zero(v.Type()))
		for i := range min(1, v.Len()) {
			b.vary(v.Index(i), true, func(x reflect.Value) {
				replaced(func(c reflect.Value) reflect.Value { return c.Index(i) }, x)
			})
		}
		yield(repeated(v, 100))
		if !inside || v.Type().Elem().Kind() != reflect.Struct {
			yield(repeated(v, long))
		}
	}
}

// repeated is a list of n elements, the first over and over.
func repeated(v reflect.Value, n int) reflect.Value {
	r := reflect.MakeSlice(v.Type(), n, n)
	if v.Len() > 0 {
		for i := range n {
			r.Index(i).Set(v.Index(0))
		}
	}
	return r
}

// arguments yields lists of arguments: all ordinary first, then one place hostile
// at a time, then all of them, each the k-th in its type's list.
func (b *book) arguments(f reflect.Value, own []any, yield func([]reflect.Value)) {
	var usual []reflect.Value
	seen := map[reflect.Type]int{}
	for i := range f.Type().NumIn() {
		in := f.Type().In(i)
		if i < len(own) {
			v := reflect.New(in).Elem()
			v.Set(reflect.ValueOf(own[i]))
			usual = append(usual, v)
			continue
		}
		usual = append(usual, b.ordinary(in, seen[in]))
		seen[in]++
	}
	yield(usual)
	most := 0
	for i, v := range usual {
		most = max(most, len(b.hostile(v.Type(), false)))
		put := func(bad reflect.Value) {
			args := slices.Clone(usual)
			args[i] = bad
			yield(args)
		}
		b.vary(v, false, put)
		if i < len(own) {
			spoiled(v, put)
		}
	}
	for k := range most {
		args := slices.Clone(usual)
		for i, v := range usual {
			if bad := b.hostile(v.Type(), false); len(bad) > 0 {
				args[i] = bad[k%len(bad)]
			} else {
				args[i] = reflect.Zero(v.Type())
			}
		}
		yield(args)
	}
}

// spoiled yields a text of the caller's own in every bad way.
func spoiled(v reflect.Value, yield func(reflect.Value)) {
	switch x := v.Interface().(type) {
	case string:
		for _, bad := range spoil(x) {
			c := reflect.New(v.Type()).Elem()
			c.Set(reflect.ValueOf(bad))
			yield(c)
		}
	case []byte:
		for _, bad := range spoil(string(x)) {
			yield(reflect.ValueOf([]byte(bad)))
		}
	}
}

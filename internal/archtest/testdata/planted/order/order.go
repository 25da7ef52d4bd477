// path: exchange

// Package order lets a map decide.
package order

import (
	"maps"
	"reflect"
	"slices"
	"sync"
)

type table map[string]float64

func Sum(m table, shared *sync.Map) float64 {
	total := 0.0
	for _, v := range m { // want
		total += v
	}
	for k := range map[int]int{} { // want
		total += float64(k)
	}
	for k := range maps.Keys(m) { // want
		total += float64(len(k))
	}
	values := slices.Collect(maps.Values(m))         // want
	for _, k := range reflect.ValueOf(m).MapKeys() { // want
		total += float64(k.Len())
	}
	shared.Range(func(_, _ any) bool { return true }) // want
	for range /* want */ m {                          // order does not matter:
		total++
	}
	for range m { // because I say so // want
		total++
	}
	return total + float64(len(values))
}

func Calm(m table) []string {
	for range m { // order does not matter: only counted
	}
	for range []int{} {
	}
	return slices.Sorted(maps.Keys(m))
}
